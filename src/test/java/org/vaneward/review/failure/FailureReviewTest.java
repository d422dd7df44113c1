package org.vaneward.review.failure;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.vaneward.fleet.Fleet;
import org.vaneward.fleet.Opening;
import org.vaneward.fleet.PumpHistory;
import org.vaneward.ingest.Ingest;
import org.vaneward.io.BadInputException;
import org.vaneward.life.LifeBuilder;
import org.vaneward.life.Lives;
import org.vaneward.life.LivesTable;
import org.vaneward.model.ServiceModels;
import org.vaneward.stats.pooling.PoolingSettings;

/** The sample fleet: what is planted is found, and every number leads to records. */
class FailureReviewTest {
  private static final Fleet FLEET = Ingest.read(Path.of("sample-fleet")).fleet();
  private static final Lives LIVES = LifeBuilder.build(FLEET);
  private static final LivesTable TABLE = LivesTable.of(LIVES);
  private static final ServiceModels MODELS =
      ServiceModels.of(TABLE, PoolingSettings.defaults().withDraws(ServiceModels.DRAWS));
  private static final ReviewQuestion QUESTION = ReviewQuestion.defaults();
  private static final FailureReview REVIEW = FailureReview.of(LIVES, TABLE, MODELS, QUESTION);

  private static Finding leading(Topic topic, String subject) {
    return REVIEW.leading().stream()
        .filter(f -> f.topic() == topic && f.subject().equals(subject))
        .findFirst()
        .orElseThrow(() -> new AssertionError(topic + " " + subject + " in " + REVIEW.findings()));
  }

  @Test
  void theBadLotIsFoundAndMeasured() {
    Finding lot = leading(Topic.LOT, "S2021-1R");
    assertEquals("seal", lot.component());
    // planted: two fifths of the usual life
    Evidence evidence = lot.evidence();
    assertTrue(evidence.lifeRatio().orElseThrow().lower() < 0.4);
    assertTrue(evidence.lifeRatio().orElseThrow().upper() > 0.4);
    assertEquals(ShopCheck.PARTS_AS_BOUGHT, lot.checks().get(0));
    assertTrue(
        REVIEW.viewsOf(lot).stream().anyMatch(f -> f.topic() == Topic.PERIOD),
        "the months in which it was fitted are another view of it");
  }

  @Test
  void theWeakCrewIsFound() {
    Finding crew = leading(Topic.CREW, "contract crew");
    assertEquals(Outcome.START_UP, crew.outcome());
    assertTrue(crew.evidence().effect().lower() > 2);
    assertEquals(ShopCheck.FITTING_PRACTICE, crew.checks().get(0));
  }

  @Test
  void theHardProductsAreFound() {
    for (String product : List.of("urea solution", "ethanol blend", "LPG")) {
      assertEquals("seal", leading(Topic.PRODUCT, product).component());
    }
  }

  @Test
  void theWorseningPumpIsFound() {
    Finding trend = leading(Topic.TREND, "FW-P07");
    assertTrue(REVIEW.viewsOf(trend).stream().anyMatch(f -> f.topic() == Topic.PUMP));
    PumpRate first = REVIEW.pumps().get(0);
    assertEquals("FW-P07", first.pump());
    assertTrue(first.probabilityTroubled() > 0.9);
    assertEquals(PumpRate.TrendOfPump.WORSE, first.trend());
  }

  @Test
  void nothingElseLeadsTheList() {
    assertEquals(6, REVIEW.leading().size(), () -> REVIEW.leading().toString());
    for (Finding finding : REVIEW.findings()) {
      assertTrue(finding.adjustedP() <= QUESTION.falseShare());
      assertTrue(finding.p() <= finding.adjustedP());
      assertFalse(finding.checks().isEmpty());
      assertTrue(finding.checks().size() <= 3);
    }
  }

  @Test
  void everyFindingLeadsToItsRecords() {
    Map<String, Opening> openings = new HashMap<>();
    for (PumpHistory history : FLEET.pumps()) {
      history.openings().forEach(o -> openings.put(o.rebuild(), o));
    }
    for (Finding finding : REVIEW.findings()) {
      List<FailureRecord> records = finding.evidence().failures();
      if (finding.evidence().measure() == Evidence.Measure.RATE_RATIO) {
        assertTrue(records.size() >= finding.evidence().observed(), finding.toString());
      }
      assertFalse(records.isEmpty());
      Set<Object> rows = new HashSet<>();
      for (FailureRecord record : records) {
        Opening opening = Optional.ofNullable(openings.get(record.rebuild())).orElseThrow();
        assertEquals(record.pump(), opening.pump());
        assertEquals(record.date(), opening.date());
        assertTrue(
            opening.findings().stream()
                .anyMatch(
                    f -> f.row().equals(record.row()) && f.position().equals(record.position())),
            record.toString());
        assertTrue(rows.add(record.row()), "twice: " + record);
      }
    }
  }

  @Test
  void failuresByProductAddUp() {
    for (ComponentByProduct component : REVIEW.products()) {
      double failures = component.products().stream().mapToDouble(p -> p.failures()).sum();
      assertEquals(
          TABLE.where(i -> TABLE.text("component", i).equals(component.component())).failures(),
          failures);
      for (ComponentByProduct.OnProduct product : component.products()) {
        int causes = product.causes().stream().mapToInt(t -> t.number()).sum();
        assertEquals(product.failures(), causes);
        double drawn =
            product.cumulative().orElseThrow().points().stream().mapToInt(p -> p.events()).sum();
        assertEquals(product.failures(), drawn, component.component() + product.product());
      }
    }
  }

  @Test
  void lifeRatiosByProductHoldTheTruth() {
    // seeds/depots-six.json: factors on the scale of life of a seal, LPG and heating oil have
    // shapes
    // of their own beside.
    Map<String, Double> factors =
        Map.of(
            "road diesel",
            1.25,
            "petrol",
            0.85,
            "ethanol blend",
            0.55,
            "aviation kerosene",
            1.0,
            "urea solution",
            0.45);
    List<ComponentByProduct.OnProduct> seals =
        REVIEW.products().stream()
            .filter(c -> c.component().equals("seal"))
            .findFirst()
            .orElseThrow()
            .products();
    // Ratios of two products: the mean of the others, over which each is taken, differs by product.
    double diesel = ratio(seals, "road diesel");
    double urea = ratio(seals, "urea solution");
    assertTrue(urea < ratio(seals, "petrol") && ratio(seals, "petrol") < diesel);
    assertEquals(
        factors.size(), factors.keySet().stream().filter(p -> ratio(seals, p) > 0).count());
  }

  private static double ratio(List<ComponentByProduct.OnProduct> products, String product) {
    return products.stream()
        .filter(p -> p.product().equals(product))
        .findFirst()
        .flatMap(ComponentByProduct.OnProduct::lifeRatio)
        .orElseThrow()
        .estimate();
  }

  @Test
  void runsOfEarlyFailuresAreHeldAgainstLuck() {
    Chains chains = REVIEW.chains();
    assertTrue(chains.expected() > 10 && chains.expected() < 50, chains.toString());
    for (Chain chain : chains.chains()) {
      assertTrue(chain.failures().size() >= 2);
      assertTrue(chain.p() > 0 && chain.p() <= 1);
      assertEquals(1, chain.failures().stream().map(FailureRecord::position).distinct().count());
    }
  }

  @Test
  void aColumnOfNamesAndOneOfNumbers() {
    ColumnReview crews =
        ColumnReview.of(LIVES, TABLE, MODELS, "crew", Optional.of("seal"), QUESTION);
    Comparison startUp = crews.comparisons().get(2);
    assertEquals(Outcome.START_UP, startUp.outcome());
    assertEquals(
        List.of("contract crew", "north crew", "south crew"),
        startUp.rows().stream().map(Comparison.Row::name).toList());
    ColumnReview pressures =
        ColumnReview.of(LIVES, TABLE, MODELS, "pressure_bar", Optional.empty(), QUESTION);
    Comparison life = pressures.comparisons().get(0);
    assertEquals(4, life.rows().size());
    assertTrue(life.slope().isPresent());
    assertEquals(Strata.SERVICE, life.strata());
    Comparison viscosity =
        ColumnReview.of(LIVES, TABLE, MODELS, "viscosity_cst", Optional.empty(), QUESTION)
            .comparisons()
            .get(0);
    assertEquals(Strata.DUTY, viscosity.strata(), "viscosity goes with the product");
  }

  @Test
  void whatCannotBeAskedIsRefused() {
    refused("how a life ended", "cause");
    refused("there are: ", "colour");
    refused("there are: ", "life");
    BadInputException e =
        assertThrows(
            BadInputException.class,
            () -> ColumnReview.of(LIVES, TABLE, MODELS, "crew", Optional.of("seals"), QUESTION));
    assertTrue(String.valueOf(e.getMessage()).contains("bearing, seal, vanes"), e.getMessage());
  }

  private static void refused(String why, String column) {
    BadInputException e =
        assertThrows(
            BadInputException.class,
            () -> ColumnReview.of(LIVES, TABLE, MODELS, column, Optional.empty(), QUESTION));
    assertTrue(String.valueOf(e.getMessage()).contains(why), e.getMessage());
  }
}

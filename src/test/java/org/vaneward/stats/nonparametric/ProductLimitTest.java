package org.vaneward.stats.nonparametric;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.List;
import java.util.SplittableRandom;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.vaneward.stats.Observation;
import org.vaneward.stats.Observations;
import org.vaneward.stats.Reference;
import org.vaneward.stats.Reference.Case;

class ProductLimitTest {
  static Stream<Case> cases() {
    return Reference.cases("product_limit").stream();
  }

  @Test
  void allCasesAreRead() {
    assertEquals(13, cases().count());
  }

  @ParameterizedTest
  @MethodSource("cases")
  void agreesWithReference(Case c) {
    JsonNode e = c.expected();
    ProductLimit ninety = ProductLimit.of(c.lives(), 0.90);
    ProductLimit ninetyFive = ProductLimit.of(c.lives(), 0.95);
    int n = e.get("age").size();
    assertTrue(n > 0);
    assertEquals(n, ninety.points().size());
    assertEquals(c.node().get("n").asDouble(), ninety.lives());
    assertEquals(c.node().get("n_events").asDouble(), ninety.events());
    assertEquals(0, ninety.leftOut());
    for (int i = 0; i < n; i++) {
      ProductLimit.Point p = ninety.points().get(i);
      ProductLimit.Point q = ninetyFive.points().get(i);
      c.holds("age", e.get("age").get(i), p.age());
      c.holds("at risk", e.get("at_risk").get(i), p.atRisk());
      c.holds("events", e.get("events").get(i), p.events());
      c.holds("survival", e.get("survival").get(i), p.survival());
      holds(c, "std_error", i, p.stdError());
      holds(c, "lower_90", i, p.lower());
      holds(c, "upper_90", i, p.upper());
      holds(c, "lower_95", i, q.lower());
      holds(c, "upper_95", i, q.upper());
      c.holds("hazard", e.get("cumulative_hazard").get(i), p.cumulativeHazard());
      c.holds(
          "hazard se", e.get("cumulative_hazard_std_error").get(i), p.cumulativeHazardStdError());
    }
  }

  private static void holds(Case c, String what, int i, double got) {
    JsonNode expected = c.expected().get(what).get(i);
    if (expected.isNull()) {
      assertTrue(Double.isNaN(got), () -> c + " " + what + " " + got);
    } else {
      c.holds(what, expected, got);
    }
  }

  /** NIST/SEMATECH e-Handbook of Statistical Methods, 8.2.1.5. */
  @Test
  void handbookExample() {
    JsonNode example = Reference.example("nist-apr215-kaplan-meier");
    JsonNode in = example.get("inputs");
    Observations.Builder lives = Observations.builder();
    in.get("failures_h").forEach(t -> lives.addFailure(0, t.asDouble(), 1));
    in.get("removed_h").forEach(t -> lives.addRightCensored(0, t.asDouble(), 1));
    JsonNode survivors = in.get("survivors_at_h");
    lives.addRightCensored(0, survivors.get(0).asDouble(), survivors.get(1).asDouble());
    ProductLimit curve = ProductLimit.of(lives.build(), 0.9);
    JsonNode expected = example.get("expected").get("R");
    double tolerance = example.get("tolerance").get("R").asDouble();
    assertEquals(6, expected.size());
    for (int i = 0; i < expected.size(); i++) {
      assertEquals(expected.get(i).asDouble(), curve.points().get(i).survival(), tolerance);
    }
  }

  /**
   * By hand. Lives: failed at 2 and 4 (two of them), suspended at 4, entered at 3 and failed at 6,
   * suspended at 7. At 2: 5 at risk (the late one is not), S = 4/5. At 4: 5 at risk, the suspension
   * and the late one among them, 2 fail, S = 4/5 * 3/5 = 12/25. At 6: 2 at risk, S = 6/25.
   */
  @Test
  void byHand() {
    Observations lives =
        Observations.of(
            Observation.rightCensoredAt(4),
            new Observation.Exact(3, 6, 1),
            Observation.failedAt(2),
            new Observation.Exact(0, 4, 2),
            Observation.rightCensoredAt(7));
    ProductLimit curve = ProductLimit.of(lives, 0.9);
    List<ProductLimit.Point> p = curve.points();
    assertEquals(3, p.size());
    assertEquals(5, p.get(0).atRisk());
    assertEquals(5, p.get(1).atRisk());
    assertEquals(2, p.get(2).atRisk());
    assertEquals(0.8, p.get(0).survival(), 1e-15);
    assertEquals(12.0 / 25, p.get(1).survival(), 1e-15);
    assertEquals(6.0 / 25, p.get(2).survival(), 1e-15);
    double greenwood = 1.0 / 20 + 2.0 / 15 + 1.0 / 2;
    assertEquals(6.0 / 25 * Math.sqrt(greenwood), p.get(2).stdError(), 1e-15);
    assertEquals(1.0 / 5 + 2.0 / 5 + 1.0 / 2, p.get(2).cumulativeHazard(), 1e-15);
    assertEquals(1, curve.survivalAt(1.9).orElseThrow());
    assertEquals(0.8, curve.survivalAt(2).orElseThrow(), 1e-15);
    assertEquals(6.0 / 25, curve.survivalAt(7).orElseThrow(), 1e-15);
    assertTrue(curve.survivalAt(7.1).isEmpty());
    assertTrue(curve.zeroTooSoon().isEmpty());
  }

  @Test
  void intervalsAreLeftOutAndCounted() {
    ProductLimit curve =
        ProductLimit.of(
            Observations.of(
                new Observation.Interval(0, 3, 5, 4),
                Observation.failedAt(2),
                Observation.rightCensoredAt(9)),
            0.9);
    assertEquals(4, curve.leftOut());
    assertEquals(2, curve.lives());
    assertEquals(0.5, curve.points().get(0).survival());
  }

  @Test
  void aCurveThatFallsToZeroTooSoonSaysSo() {
    Case channing = cases().filter(c -> c.name().equals("channing-male")).findFirst().orElseThrow();
    assertEquals(781, ProductLimit.of(channing.lives(), 0.9).zeroTooSoon().orElseThrow());
  }

  @Test
  void nothingInNothingOut() {
    ProductLimit curve = ProductLimit.of(Observations.builder().build(), 0.9);
    assertTrue(curve.points().isEmpty());
    assertEquals(0, curve.lives());
    assertThrows(
        IllegalArgumentException.class, () -> ProductLimit.of(Observations.builder().build(), 90));
  }

  @Test
  void countsAreRepeatedRows() {
    Observations once =
        Observations.of(new Observation.Exact(0, 5, 3), new Observation.RightCensored(1, 5, 2));
    Observations.Builder rows = Observations.builder();
    once.asList()
        .forEach(
            o -> {
              for (int i = 0; i < o.count(); i++) {
                rows.add(
                    o instanceof Observation.Exact
                        ? new Observation.Exact(0, 5, 1)
                        : new Observation.RightCensored(1, 5, 1));
              }
            });
    assertEquals(ProductLimit.of(once, 0.9), ProductLimit.of(rows.build(), 0.9));
  }

  /** Against the definition, age by age over all lives: ties, counts, late entries, many chunks. */
  @ParameterizedTest
  @CsvSource({"300, true", "300, false", "3000, true", "40000, false"})
  void isTheDefinition(int n, boolean lateAndCounted) {
    SplittableRandom random = new SplittableRandom(n);
    Observations.Builder builder = Observations.builder();
    for (int i = 0; i < n; i++) {
      double age = 1 + random.nextInt(lateAndCounted ? 200 : 100_000) / 8.0;
      double entry = lateAndCounted && random.nextInt(4) == 0 ? age * random.nextDouble() : 0;
      double count = lateAndCounted ? 1 + random.nextInt(3) : 1;
      if (random.nextBoolean()) {
        builder.addFailure(entry, age, count);
      } else {
        builder.addRightCensored(entry, age, count);
      }
    }
    Observations lives = builder.build();
    ProductLimit curve = ProductLimit.of(lives, 0.9);
    double events = 0;
    double survival = 1;
    int every = Math.max(1, curve.points().size() / 200);
    for (int k = 0; k < curve.points().size(); k++) {
      ProductLimit.Point p = curve.points().get(k);
      events += p.events();
      survival *= 1 - p.events() / p.atRisk();
      assertEquals(survival, p.survival(), 1e-12);
      if (k % every == 0) {
        double atRisk = 0;
        double failed = 0;
        for (int i = 0; i < n; i++) {
          boolean there = lives.entry(i) < p.age() && lives.lower(i) >= p.age();
          atRisk += there ? lives.count(i) : 0;
          failed += lives.isExact(i) && lives.lower(i) == p.age() ? lives.count(i) : 0;
        }
        assertEquals(atRisk, p.atRisk());
        assertEquals(failed, p.events());
      }
    }
    assertEquals(lives.failures(), events);
    assertEquals(lives.failures(), curve.events());
    assertEquals(lives.lives(), curve.lives());
  }
}

package org.vaneward.policy;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.vaneward.model.LifeDraws;
import org.vaneward.stats.DrawLimits;
import org.vaneward.stats.distribution.Weibull;

/** The interval of least expected cost, against one draw, against brute force, and in itself. */
class ExpectedCostTest {
  private static final double CONFIDENCE = 0.9;
  private static final double EVER = Double.POSITIVE_INFINITY;

  @Test
  void oneDrawIsTheCertainCase() {
    SplittableRandom random = new SplittableRandom(31);
    for (int k = 0; k < 40; k++) {
      CostModel certain = Models.random(random);
      IntervalAdvice expected = IntervalSearch.best(certain);
      UncertainAdvice advice = ExpectedCost.of(drawn(certain), CONFIDENCE).best();
      assertEquals(expected.costPerHour(), advice.costPerHour(), 1e-7 * expected.costPerHour());
      assertEquals(expected.intervalHours().isPresent(), advice.intervalHours().isPresent());
      if (expected.intervalHours().isPresent() && expected.saving() > 1e-4) {
        double interval = expected.intervalHours().getAsDouble();
        assertEquals(interval, advice.intervalHours().getAsDouble(), 1e-3 * interval);
        Window window = expected.window().orElseThrow();
        assertEquals(
            window.fromHours(),
            advice.window().orElseThrow().fromHours(),
            1e-5 * window.fromHours());
        assertEquals(expected.plannedShare(), advice.plannedShare(), 1e-3);
      }
      assertEquals(0, advice.perfectInformation(), 1e-9 * advice.costPerHour());
      assertEquals(advice.saving().lower(), advice.saving().upper());
      assertEquals(expected.noInterval(), advice.noInterval());
    }
  }

  @ParameterizedTest
  @ValueSource(doubles = {0.05, 0.3, 0.8})
  void noFinerScanFindsACheaperInterval(double spread) {
    SplittableRandom random = new SplittableRandom(32);
    for (int k = 0; k < 6; k++) {
      ExpectedCost cost = ExpectedCost.of(spreadOut(random, 1.8, spread, 60), CONFIDENCE);
      UncertainAdvice advice = cost.best();
      double least = cost.costPerHour(EVER);
      double own = 0;
      for (double hours = 100; hours < 200_000; hours *= 1.01) {
        least = Math.min(least, cost.costPerHour(hours));
      }
      for (int d = 0; d < cost.run().draws(); d++) {
        double best = cost.run().costPerHour(d, EVER);
        for (double hours = 50; hours < 400_000; hours *= 1.01) {
          best = Math.min(best, cost.run().costPerHour(d, hours));
        }
        own += best / cost.run().draws();
      }
      assertTrue(advice.costPerHour() <= least * (1 + 1e-9));
      assertEquals(least, advice.costPerHour(), 1e-4 * least);
      assertEquals(advice.costPerHour() - own, advice.perfectInformation(), 2e-4 * least);
    }
  }

  @Test
  void theLessIsKnownTheMoreKnowingIsWorth() {
    double before = 0;
    for (double spread : new double[] {0.05, 0.2, 0.5}) {
      UncertainAdvice advice =
          ExpectedCost.of(spreadOut(new SplittableRandom(33), 1.8, spread, 400), CONFIDENCE).best();
      assertTrue(advice.perfectInformation() > before);
      before = advice.perfectInformation();
    }
  }

  @Test
  void limitsHoldTheirShareOfTheDraws() {
    ExpectedCost cost =
        ExpectedCost.of(spreadOut(new SplittableRandom(34), 1.6, 0.4, 2000), CONFIDENCE);
    UncertainAdvice advice = cost.best();
    double interval = advice.intervalHours().orElseThrow();
    int inside = 0;
    int pays = 0;
    for (int d = 0; d < 2000; d++) {
      double one = cost.run().costPerHour(d, interval);
      inside += one >= advice.cost().lower() && one <= advice.cost().upper() ? 1 : 0;
      pays += one < cost.run().costPerHour(d, EVER) ? 1 : 0;
    }
    assertEquals(0.9, inside / 2000.0, 0.002);
    assertEquals(pays / 2000.0, advice.chancePays());
    Window window = advice.window().orElseThrow();
    assertTrue(window.fromHours() < interval && interval < window.toHours().orElse(EVER));
    assertEquals(1.02 * advice.costPerHour(), cost.costPerHour(window.fromHours()), 1e-9);
    assertTrue(advice.ownBest().lower() < interval && interval < advice.ownBest().upper());
    assertEquals(
        advice.runToFailure().estimate() - advice.costPerHour(), advice.saving().estimate(), 1e-12);
  }

  @Test
  void eachDrawHasTheLeastCostOfItsOwnLives() {
    DrawnCostModel model = spreadOut(new SplittableRandom(36), 1.4, 0.5, 30);
    List<Double> least = ExpectedCost.of(model, CONFIDENCE).leastByDraw();
    assertEquals(30, least.size());
    for (int d = 0; d < 30; d++) {
      double certain = IntervalSearch.best(model.at(d)).costPerHour();
      assertEquals(certain, least.get(d), 1e-7 * certain);
    }
  }

  @Test
  void anAgeingIsLikelyFromAnEvenChanceAndSettledFromNineInTen() {
    UncertainAdvice advice =
        ExpectedCost.of(spreadOut(new SplittableRandom(37), 1.8, 0.1, 9), CONFIDENCE).best();
    List<UncertainAdvice.Ageing> ageing =
        List.of(
            new UncertainAdvice.Ageing("a", 0.49),
            new UncertainAdvice.Ageing("b", 0.5),
            new UncertainAdvice.Ageing("c", 0.89),
            new UncertainAdvice.Ageing("d", 0.9));
    UncertainAdvice with =
        new UncertainAdvice(
            advice.intervalHours(),
            advice.cost(),
            advice.runToFailure(),
            advice.saving(),
            advice.window(),
            advice.plannedShare(),
            advice.chancePays(),
            advice.chanceAnyPays(),
            advice.perfectInformation(),
            advice.ownBest(),
            ageing,
            advice.noInterval());
    assertEquals(List.of("a"), with.notPrevented());
    assertEquals(ageing.subList(1, 3), with.unsettled());
  }

  @Test
  void sealsThatDoNotAgeAreNamedAndTheOthersSetTheInterval() {
    SplittableRandom random = new SplittableRandom(35);
    LifeDraws seal = draws(random, 0.85, 0.1, 6000, 300);
    LifeDraws bearing = draws(random, 3, 0.1, 9000, 300);
    DrawnCostModel model =
        new DrawnCostModel(
            1500,
            List.of(
                new DrawnRisk("seal-inboard", "seal", seal, 6000, 5500, true, 0),
                new DrawnRisk("seal-outboard", "seal", seal, 6000, 5500, true, 0),
                new DrawnRisk("bearing-inboard", "bearing", bearing, 9000, 8000, true, 0)));
    UncertainAdvice advice = ExpectedCost.of(model, CONFIDENCE).best();
    assertEquals(List.of("seal"), advice.notPrevented());
    assertTrue(advice.intervalHours().isPresent());
    DrawnCostModel onlySeals = new DrawnCostModel(1500, model.positions().subList(0, 2));
    UncertainAdvice none = ExpectedCost.of(onlySeals, CONFIDENCE).best();
    assertTrue(none.intervalHours().isEmpty());
    assertEquals(NoInterval.HAZARDS_DO_NOT_RISE, none.noInterval().orElseThrow());
    assertEquals(0, none.chancePays());
    assertTrue(none.chanceAnyPays() < 0.2);
    assertEquals(0, none.saving().estimate());
  }

  @Test
  void quantilesLieBetweenOrderStatistics() {
    double[] values = {4, 1, EVER, 2, 3};
    assertEquals(3, DrawLimits.quantile(values, 0.5));
    assertEquals(1.4, DrawLimits.quantile(values, 0.1), 1e-12);
    assertEquals(EVER, DrawLimits.quantile(values, 1));
    assertEquals(EVER, DrawLimits.quantile(values, 0.9));
    assertThrows(
        IllegalArgumentException.class,
        () -> ExpectedCost.of(spreadOut(new SplittableRandom(1), 2, 0.1, 3), 1));
  }

  @Test
  void refusesCostsAndDrawsThatAreNone() {
    DrawnCostModel model = spreadOut(new SplittableRandom(1), 2, 0.1, 3);
    assertThrows(IllegalArgumentException.class, () -> ExpectedCost.of(model, 0));
    for (double cost : new double[] {0, -1, EVER, Double.NaN}) {
      assertThrows(
          IllegalArgumentException.class, () -> new DrawnCostModel(cost, model.positions()));
      assertThrows(
          IllegalArgumentException.class, () -> new CostModel(cost, model.at(0).positions()));
    }
    assertThrows(IllegalArgumentException.class, () -> new DrawnCostModel(1, List.of()));
    List<DrawnRisk> unlike = new ArrayList<>(model.positions());
    unlike.add(unlike.get(0).withLife(LifeDraws.of(new double[] {1, 2}, new double[] {5, 5})));
    assertThrows(IllegalArgumentException.class, () -> new DrawnCostModel(1, unlike));
    LifeDraws life = LifeDraws.certain(new Weibull(2, 100));
    for (double cost : new double[] {-1, EVER, Double.NaN}) {
      assertThrows(
          IllegalArgumentException.class, () -> new DrawnRisk("p", "c", life, cost, 0, true, 0));
      assertThrows(
          IllegalArgumentException.class, () -> new DrawnRisk("p", "c", life, 0, cost, true, 0));
      assertThrows(
          IllegalArgumentException.class, () -> new DrawnRisk("p", "c", life, 0, 0, false, cost));
      assertThrows(
          IllegalArgumentException.class,
          () -> new PositionRisk("p", "c", life.at(0), 0, cost, true, 0));
      assertThrows(
          IllegalArgumentException.class, () -> PositionRisk.hidden("p", "c", life.at(0), cost));
    }
    assertEquals(0, new DrawnRisk("p", "c", life, 0, 0, true, 0).unplannedCost());
  }

  private static DrawnCostModel drawn(CostModel model) {
    List<DrawnRisk> risks = new ArrayList<>();
    for (PositionRisk r : model.positions()) {
      risks.add(
          new DrawnRisk(
              r.position(),
              r.component(),
              LifeDraws.certain((Weibull) r.life()),
              r.unplannedCost(),
              r.mendCost(),
              r.announces(),
              r.hiddenCostPerHour()));
    }
    return new DrawnCostModel(model.plannedCost(), risks);
  }

  private static DrawnCostModel spreadOut(
      SplittableRandom random, double shape, double spread, int size) {
    LifeDraws seal = draws(random, shape, spread, 6000, size);
    LifeDraws vanes = draws(random, 2.5, spread, 9000, size);
    return new DrawnCostModel(
        1800,
        List.of(
            new DrawnRisk("seal-inboard", "seal", seal, 6000, 5500, true, 0),
            new DrawnRisk("seal-outboard", "seal", seal, 6000, 5500, true, 0),
            new DrawnRisk("vane-set", "vanes", vanes, 0, 0, false, 0.2)));
  }

  /** Shapes and scales spread log-uniformly. */
  private static LifeDraws draws(
      SplittableRandom random, double shape, double spread, double scale, int size) {
    double[] shapes = random.doubles(size, -spread, spread).map(x -> shape * Math.exp(x)).toArray();
    double[] scales = random.doubles(size, -spread, spread).map(x -> scale * Math.exp(x)).toArray();
    return LifeDraws.of(shapes, scales);
  }
}

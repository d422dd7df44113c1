package org.vaneward.policy;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.SplittableRandom;
import org.apache.commons.numbers.gamma.Erf;
import org.apache.commons.numbers.gamma.LogGamma;
import org.apache.commons.numbers.gamma.RegularizedGamma;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.vaneward.stats.distribution.Weibull;
import org.vaneward.stats.numeric.Integral;

class RunCostTest {
  /** Stated accuracy of the integrals. */
  private static final double ACCURACY = 1e-12;

  @Test
  void constantHazardHasItsClosedForm() {
    CostRate rate = CostRate.of(one(1, 1000, 1, 7));
    for (double hours : new double[] {1e-6, 3, 700, 5000, 1e5}) {
      double mean = 1000 * -Math.expm1(-hours / 1000);
      relative(mean, rate.run().meanHours(hours));
      double failed = -Math.expm1(-hours / 1000);
      relative((1 - failed + 7 * failed) / mean, rate.costPerHour(hours));
    }
    relative(7 / 1000.0, rate.runToFailureCostPerHour());
  }

  @Test
  void shapeTwoHasItsErrorFunction() {
    CostRate rate = CostRate.of(one(2, 300, 2, 9));
    for (double hours : new double[] {0.5, 40, 300, 900, 4000}) {
      double mean = 300 * Math.sqrt(Math.PI) / 2 * Erf.value(hours / 300);
      double failed = -Math.expm1(-hours * hours / 9e4);
      relative((2 * (1 - failed) + 9 * failed) / mean, rate.costPerHour(hours));
    }
  }

  @ParameterizedTest
  @CsvSource({"0.3, 5", "0.8, 5", "1.5, 2e4", "7, 2e4", "20, 1e-3"})
  void anyShapeHasItsIncompleteGamma(double shape, double scale) {
    CostRate rate = CostRate.of(one(shape, scale, 3, 11));
    Weibull life = new Weibull(shape, scale);
    for (double share : new double[] {1e-9, 1e-3, 0.2, 0.632, 0.99, 1 - 1e-9}) {
      double hours = life.quantile(share);
      double x = life.cumulativeHazard(hours);
      double mean =
          scale
              / shape
              * Math.exp(LogGamma.value(1 / shape))
              * RegularizedGamma.P.value(1 / shape, x);
      relative((3 * life.survival(hours) + 11 * life.failed(hours)) / mean, 1e-10, rate, hours);
    }
  }

  @Test
  void firstFailuresAndSurvivalMakeOne() {
    SplittableRandom random = new SplittableRandom(20);
    for (int trial = 0; trial < 50; trial++) {
      CostModel model = Models.random(random);
      RunCost run = RunCost.fromAges(model, Models.ages(model, random));
      double hours = 20000 * random.nextDouble();
      double sum = run.survival(hours);
      for (double share : run.firstFailureShares(hours)) {
        sum += share;
      }
      assertEquals(1, sum, ACCURACY);
    }
  }

  @Test
  void positionsOfVeryUnlikeScalesShareFailuresRightly() {
    // Alone in the first hours the early position fails; the late one has the rest: with shapes
    // equal, shares stand as scale^-shape.
    CostModel model =
        new CostModel(
            1,
            List.of(
                PositionRisk.announcing("a", "a", new Weibull(0.5, 1), 2),
                PositionRisk.announcing("b", "b", new Weibull(0.5, 1e10), 2)));
    double[] shares = RunCost.fromNew(model).firstFailureShares(1e12);
    assertEquals(1e-5 / (1 + 1e-5), shares[1], 1e-15);
    assertEquals(1 / (1 + 1e-5), shares[0], ACCURACY);
  }

  @Test
  void hiddenFailureOfConstantHazardsHasItsClosedForm() {
    CostModel model =
        new CostModel(
            10,
            List.of(
                PositionRisk.announcing("a", "a", new Weibull(1, 100), 50),
                PositionRisk.hidden("v", "v", new Weibull(1, 400), 3)));
    RunCost run = RunCost.fromNew(model);
    for (double hours : new double[] {1, 80, 900}) {
      double mean = 100 * -Math.expm1(-hours / 100);
      double both = 80 * -Math.expm1(-hours / 80);
      double failed = -Math.expm1(-hours / 100);
      relative(40 * failed + 3 * (mean - both), run.costBeyondPlanned(hours));
    }
  }

  @Test
  void pumpThatNothingStopsPaysForEveryHiddenHour() {
    CostModel model =
        new CostModel(10, List.of(PositionRisk.hidden("v", "v", new Weibull(1, 400), 3)));
    CostRate rate = CostRate.of(model);
    for (double hours : new double[] {5, 400, 1e4, 1e6}) {
      double hidden = hours - 400 * -Math.expm1(-hours / 400);
      assertEquals((10 + 3 * hidden) / hours, rate.costPerHour(hours), 1e-11);
    }
    assertEquals(3, rate.runToFailureCostPerHour());
  }

  @Test
  void runFromAnAgeIsTheRestOfARunFromNew() {
    SplittableRandom random = new SplittableRandom(21);
    for (int trial = 0; trial < 50; trial++) {
      CostModel model = Models.random(random);
      double age = 3000 * random.nextDouble();
      double further = 1 + 5000 * random.nextDouble();
      RunCost fromNew = RunCost.fromNew(model);
      RunCost later = RunCost.fromAges(model, model.positions().stream().map(p -> age).toList());
      double rest =
          (fromNew.meanHours(age + further) - fromNew.meanHours(age)) / fromNew.survival(age);
      assertEquals(rest, later.meanHours(further), 1e-9 * rest);
      double cost =
          (fromNew.costBeyondPlanned(age + further) - fromNew.costBeyondPlanned(age))
              / fromNew.survival(age);
      assertEquals(cost, later.costBeyondPlanned(further), 1e-9 * model.plannedCost());
    }
  }

  /** Shapes 0.3 to 20, scales 1 to a million hours, ages up to 30,000 hours. */
  @Test
  void extremesKeepTheirAccuracy() {
    SplittableRandom random = new SplittableRandom(22);
    for (int trial = 0; trial < 150; trial++) {
      CostModel model = extreme(random);
      RunCost fromNew = RunCost.fromNew(model);
      double hours = Math.pow(10, 6 * random.nextDouble());
      Integral mean = Integral.overAges(fromNew::survival, hours);
      assertTrue(mean.converged());
      assertEquals(mean.value(), fromNew.meanHours(hours), 1e-10 * mean.value());
      IntervalAdvice advice = IntervalSearch.best(model);
      assertTrue(advice.costPerHour() > 0 && advice.costPerHour() < Double.POSITIVE_INFINITY);
      List<Double> ages = model.positions().stream().map(p -> 30000 * random.nextDouble()).toList();
      RunCost aged = RunCost.fromAges(model, ages);
      double sum = aged.survival(hours);
      for (double share : aged.firstFailureShares(hours)) {
        sum += share;
      }
      assertEquals(1, sum, 1e-10);
      RunOn runOn = RunOn.best(Models.run(model, ages), advice.costPerHour());
      assertTrue(runOn.dueHours().orElse(0) >= -Collections.min(ages));
    }
  }

  private static CostModel extreme(SplittableRandom random) {
    List<PositionRisk> positions = new ArrayList<>();
    for (int i = 0; i < 4; i++) {
      Weibull life =
          new Weibull(
              0.3 * Math.pow(200 / 3.0, random.nextDouble()),
              Math.pow(10, 6 * random.nextDouble()));
      double cost = Math.pow(10, 6 * random.nextDouble());
      positions.add(
          i < 3
              ? PositionRisk.announcing("p" + i, "c", life, cost)
              : PositionRisk.hidden("v", "v", life, cost / 1e4));
    }
    return new CostModel(1000, positions);
  }

  @Test
  void longOverduePartsAreNoTrouble() {
    CostModel model = one(20, 100, 1, 5);
    RunCost run = RunCost.fromAges(model, List.of(200.0));
    assertTrue(run.survival(1e-3) < 1e-9);
    double[] shares = run.firstFailureShares(10);
    assertEquals(1, shares[0], ACCURACY);
    assertTrue(run.meanHours(10) > 0 && run.meanHours(10) < 1e-4);
  }

  @Test
  void guards() {
    assertThrows(IllegalArgumentException.class, () -> one(2, 100, 0, 5));
    assertThrows(IllegalArgumentException.class, () -> one(2, 100, 1, -5));
    assertThrows(IllegalArgumentException.class, () -> one(2, 100, 1, Double.NaN));
    assertThrows(IllegalArgumentException.class, () -> new CostModel(1, List.of()));
    CostModel model = one(2, 100, 1, 5);
    assertThrows(
        IllegalArgumentException.class, () -> RunCost.fromAges(model, List.of(Double.NaN)));
    assertThrows(IllegalArgumentException.class, () -> RunCost.fromAges(model, List.of()));
    CostRate rate = CostRate.of(model);
    assertThrows(IllegalArgumentException.class, () -> rate.costPerHour(0));
  }

  private static CostModel one(double shape, double scale, double planned, double unplanned) {
    return new CostModel(
        planned, List.of(PositionRisk.announcing("p", "p", new Weibull(shape, scale), unplanned)));
  }

  private static void relative(double want, double got) {
    assertEquals(want, got, ACCURACY * Math.abs(want));
  }

  /** The accuracy here is that of the incomplete gamma function compared with. */
  private static void relative(double want, double accuracy, CostRate rate, double hours) {
    assertEquals(want, rate.costPerHour(hours), accuracy * want, "at " + hours);
  }
}

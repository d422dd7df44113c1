package org.vaneward.policy;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.vaneward.policy.PolicySimulator.Outcome;
import org.vaneward.stats.distribution.TwoWeibulls;
import org.vaneward.stats.distribution.Weibull;

/**
 * One million simulated cycles of a pump with two seals, two bearings and a vane set whose wear
 * stays unseen, against the exact cost rate of each policy. Lives and costs are invented.
 */
class PolicySimulatorTest {
  private static final int CYCLES = 1_000_000;
  private static final double EVER = Double.POSITIVE_INFINITY;

  private static CostModel pump() {
    return pump(1.74);
  }

  private static CostModel pump(double sealShape) {
    Weibull seal = new Weibull(sealShape, 5500);
    Weibull bearing = new Weibull(2.1, 16_000);
    return new CostModel(
        1900,
        List.of(
            PositionRisk.announcing("seal-inboard", "seal", seal, 6100, 5500),
            PositionRisk.announcing("seal-outboard", "seal", seal, 6100, 5500),
            PositionRisk.announcing("bearing-inboard", "bearing", bearing, 4800, 4000),
            PositionRisk.announcing("bearing-outboard", "bearing", bearing, 4800, 4000),
            PositionRisk.hidden("vane-set", "vanes", new Weibull(2.5, 9000), 0.2)));
  }

  private static void agrees(double exact, Policy policy, CostModel model, long seed) {
    Outcome outcome = PolicySimulator.run(model, policy, CYCLES, seed);
    assertTrue(outcome.stdError() < 0.002 * exact, () -> "too few cycles: " + outcome);
    assertEquals(exact, outcome.costPerHour(), 3 * outcome.stdError(), policy.toString());
  }

  @ParameterizedTest
  @CsvSource({"1.74, 2800", "1.74, 7000", "0.8, 4000"})
  @Tag("long")
  void fullRebuildAtTheIntervalOrTheFirstFailure(double shape, double interval) {
    CostModel model = pump(shape);
    agrees(CostRate.of(model).costPerHour(interval), new Policy.FullRebuild(interval), model, 1);
  }

  @Test
  @Tag("long")
  void runningToFailureAndRebuildingAll() {
    agrees(CostRate.of(pump()).runToFailureCostPerHour(), new Policy.FullRebuild(EVER), pump(), 2);
  }

  @ParameterizedTest
  @CsvSource({"1.74, 2600", "1.74, 12000", "0.8, 4000"})
  @Tag("long")
  void mendingBetweenPlannedRebuilds(double shape, double interval) {
    CostModel model = pump(shape);
    agrees(BlockCost.of(model).costPerHour(interval), new Policy.MendBetween(interval), model, 3);
  }

  /** Lives that are all alike: what a rule costs is worked out by hand. */
  @ParameterizedTest
  @MethodSource("rules")
  void whereEveryLifeIsAsLongAsTheNextTheCostIsASum(
      Policy rule, double cost, double hours, int planned, int unplanned) {
    CostModel model =
        new CostModel(
            1900,
            List.of(
                PositionRisk.announcing("seal", "seal", sure(1000), 6100, 5500),
                PositionRisk.announcing("bearing", "bearing", sure(1600), 4800, 4000),
                PositionRisk.hidden("vane-set", "vanes", sure(700), 0.2)));
    Outcome outcome = PolicySimulator.run(model, rule, 30, 13);
    assertEquals(cost / hours, outcome.costPerHour(), 1e-5 * cost / hours);
    assertEquals(planned / hours, outcome.plannedPerHour(), 1e-5 / hours);
    assertEquals(unplanned / hours, outcome.unplannedPerHour(), 1e-5 / hours);
    assertEquals(0, outcome.stdError(), 1e-5 * cost / hours);
    assertEquals(30, outcome.cycles());
  }

  static List<Arguments> rules() {
    return List.of(
        Arguments.of(new Policy.FullRebuild(600), 1900, 600, 1, 0),
        Arguments.of(new Policy.FullRebuild(900), 1900 + 0.2 * 200, 900, 1, 0),
        Arguments.of(new Policy.FullRebuild(EVER), 6100 + 0.2 * 300, 1000, 0, 1),
        // Seals at 1,000 and 2,000, a bearing at 1,600.
        Arguments.of(new Policy.MendBetween(2500), 2 * 5500 + 4000 + 1900 + 0.2 * 1800, 2500, 1, 3),
        Arguments.of(new Policy.Threshold(1500, 2500), 5500 + 4800 + 0.2 * 900, 1600, 0, 2),
        Arguments.of(new Policy.Threshold(1500, 1550), 5500 + 1900 + 0.2 * 850, 1550, 1, 1),
        Arguments.of(new Policy.Practice(List.of(900.0), 1), 1900 + 0.2 * 200, 900, 1, 0),
        Arguments.of(new Policy.Practice(List.of(2500.0), 1), 6100 + 0.2 * 300, 1000, 0, 1),
        Arguments.of(
            new Policy.Practice(List.of(2500.0), 0),
            2 * 5500 + 4000 + 1900 + 0.2 * 1800,
            2500,
            1,
            3));
  }

  private static Weibull sure(double hours) {
    return new Weibull(1e8, hours);
  }

  /** The standard error is the spread of what comes over many simulations. */
  @Test
  void theStandardErrorIsTheSpreadOverSeeds() {
    int runs = 400;
    double sum = 0;
    double squares = 0;
    double error = 0;
    for (int seed = 0; seed < runs; seed++) {
      Outcome one = PolicySimulator.run(pump(), new Policy.FullRebuild(2800), 200, seed);
      sum += one.costPerHour() / runs;
      squares += one.costPerHour() * one.costPerHour() / runs;
      error += one.stdError() / runs;
    }
    assertEquals(CostRate.of(pump()).costPerHour(2800), sum, 4 * error / Math.sqrt(runs));
    // A spread from 400 runs is known to 1 / sqrt(800) of itself.
    assertEquals(error, Math.sqrt(squares - sum * sum), 4 * error / Math.sqrt(2.0 * runs));
  }

  /**
   * A planned rebuild so rare that it does not count stands for none; vanes have failed by then.
   */
  @Test
  void mendingForEver() {
    double interval = 3e6;
    CostModel model = pump();
    Outcome outcome = PolicySimulator.run(model, new Policy.MendBetween(interval), 2000, 4);
    double exact = BlockCost.of(model).runToFailureCostPerHour();
    // What the start and the rebuild add, worked out from the asymptotes, is a few hours of cost.
    double start = BlockCost.of(model).costPerHour(interval) - exact;
    assertTrue(Math.abs(start) < 0.003 * exact);
    assertEquals(exact + start, outcome.costPerHour(), 3 * outcome.stdError());
  }

  @ParameterizedTest
  @CsvSource({"1.74, 775, 2800", "1.74, 2000, 2500", "1.74, 3000, Infinity", "0.8, 1500, 5000"})
  @Tag("long")
  void rebuildingAllFromAThresholdOn(double shape, double threshold, double interval) {
    CostModel model = pump(shape);
    agrees(
        ThresholdCost.of(model).costPerHour(threshold, interval),
        new Policy.Threshold(threshold, interval),
        model,
        5);
  }

  @Test
  @Tag("long")
  void practiceLiesOnTheLineBetweenItsKindsOfCycle() {
    CostModel model = pump();
    Policy mixed = new Policy.Practice(List.of(2500.0, 2500.0, EVER), 1);
    // Cycles of two kinds in shares of two to one: the ratio of the mean cost to the mean length.
    RunCost run = RunCost.fromNew(model);
    double far = 1e7;
    double cost = 1900 + (2 * run.costBeyondPlanned(2500) + run.costBeyondPlanned(far)) / 3;
    double hours = (2 * run.meanHours(2500) + run.meanHours(far)) / 3;
    agrees(cost / hours, mixed, model, 6);
    agrees(
        BlockCost.of(model).costPerHour(2500), new Policy.Practice(List.of(2500.0), 0), model, 7);
  }

  @Test
  @Tag("long")
  void aMixtureOfLives() {
    TwoWeibulls life = new TwoWeibulls(0.1, new Weibull(0.9, 400), new Weibull(4, 5000));
    CostModel model =
        new CostModel(1000, List.of(PositionRisk.announcing("seal", "seal", life, 6000, 5000)));
    agrees(CostRate.of(model).costPerHour(3000), new Policy.FullRebuild(3000), model, 8);
    agrees(BlockCost.of(model).costPerHour(3000), new Policy.MendBetween(3000), model, 9);
    agrees(
        ThresholdCost.of(model).costPerHour(1200, 3500),
        new Policy.Threshold(1200, 3500),
        model,
        10);
  }

  @Test
  void openingsAddUp() {
    Outcome outcome = PolicySimulator.run(pump(), new Policy.FullRebuild(2800), 100_000, 11);
    RunCost run = RunCost.fromNew(pump());
    double hours = run.meanHours(2800);
    assertEquals(run.survival(2800) / hours, outcome.plannedPerHour(), 0.01 / hours);
    assertEquals((1 - run.survival(2800)) / hours, outcome.unplannedPerHour(), 0.01 / hours);
  }

  @Test
  void aRuleRebuildsInTheEndUnlessItMendsForEver() {
    assertTrue(new Policy.FullRebuild(EVER).rebuildsInTheEnd());
    assertTrue(new Policy.Threshold(5, 5).rebuildsInTheEnd());
    assertTrue(new Policy.MendBetween(100).rebuildsInTheEnd());
    assertFalse(new Policy.MendBetween(EVER).rebuildsInTheEnd());
    assertTrue(new Policy.Practice(List.of(EVER), 0.1).rebuildsInTheEnd());
    assertFalse(new Policy.Practice(List.of(EVER, 100.0, 50.0), 0).rebuildsInTheEnd());
    assertTrue(new Policy.Practice(List.of(100.0), 0).rebuildsInTheEnd());
  }

  private static CostModel unseen() {
    return new CostModel(
        1900, List.of(PositionRisk.hidden("vane-set", "vanes", new Weibull(2.5, 9000), 0.2)));
  }

  @Test
  void aPumpThatNothingStopsIsRebuiltAtItsInterval() {
    Outcome outcome = PolicySimulator.run(unseen(), new Policy.FullRebuild(8000), 2000, 12);
    assertEquals(1 / 8000.0, outcome.plannedPerHour(), 1e-15);
    assertEquals(0, outcome.unplannedPerHour());
    assertEquals(2000, outcome.cycles());
    assertEquals(
        CostRate.of(unseen()).costPerHour(8000), outcome.costPerHour(), 3 * outcome.stdError());
  }

  @Test
  void theSameSeedGivesTheSameNumbers() {
    Policy policy = new Policy.Threshold(500, 2500);
    assertEquals(
        PolicySimulator.run(pump(), policy, 50_000, 3),
        PolicySimulator.run(pump(), policy, 50_000, 3));
    assertNotEquals(
        PolicySimulator.run(pump(), policy, 50_000, 3),
        PolicySimulator.run(pump(), policy, 50_000, 4));
  }

  @Test
  void refusesWhatNeverEnds() {
    assertThrows(
        IllegalArgumentException.class,
        () -> PolicySimulator.run(pump(), new Policy.MendBetween(EVER), 10, 1));
    assertThrows(
        IllegalArgumentException.class,
        () -> PolicySimulator.run(pump(), new Policy.Practice(List.of(EVER), 0), 10, 1));
    assertThrows(
        IllegalArgumentException.class,
        () -> PolicySimulator.run(pump(), new Policy.FullRebuild(100), 1, 1));
    assertThrows(
        IllegalArgumentException.class,
        () -> PolicySimulator.run(unseen(), new Policy.FullRebuild(EVER), 10, 1));
    assertThrows(
        IllegalArgumentException.class,
        () -> PolicySimulator.run(unseen(), new Policy.Threshold(500, EVER), 10, 1));
    assertThrows(
        IllegalArgumentException.class,
        () -> PolicySimulator.run(unseen(), new Policy.Practice(List.of(EVER, 100.0), 1), 10, 1));
    assertThrows(IllegalArgumentException.class, () -> new Policy.Threshold(5, 4));
    assertThrows(IllegalArgumentException.class, () -> new Policy.Threshold(-1, 4));
    assertThrows(IllegalArgumentException.class, () -> new Policy.Threshold(EVER, EVER));
    assertThrows(IllegalArgumentException.class, () -> new Policy.MendBetween(0));
    assertThrows(IllegalArgumentException.class, () -> new Policy.Practice(List.of(0.0), 0.5));
    assertThrows(IllegalArgumentException.class, () -> new Policy.Practice(List.of(5.0), 1.1));
    assertThrows(IllegalArgumentException.class, () -> new Policy.Practice(List.of(5.0), -0.1));
    assertThrows(IllegalArgumentException.class, () -> new Policy.FullRebuild(0));
    assertThrows(IllegalArgumentException.class, () -> new Policy.Practice(List.of(), 0.5));
  }
}

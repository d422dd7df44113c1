package org.vaneward.policy;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.SplittableRandom;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.vaneward.stats.distribution.LifeDistribution;
import org.vaneward.stats.distribution.TwoWeibulls;
import org.vaneward.stats.distribution.Weibull;

/** What must hold between the policies, and of cost curves with more than one valley. */
class PoliciesTest {
  private static final double EVER = Double.POSITIVE_INFINITY;

  @Test
  void theThresholdPolicyHoldsTheOthersAtItsEnds() {
    SplittableRandom random = new SplittableRandom(21);
    for (int k = 0; k < 6; k++) {
      CostModel model = mendable(random);
      ThresholdCost threshold = ThresholdCost.of(model);
      CostRate age = CostRate.of(model);
      BlockCost block = BlockCost.of(model);
      for (double hours : new double[] {900, 4000, 15_000}) {
        close(age.costPerHour(hours), threshold.costPerHour(0, hours), 1e-7);
        close(block.costPerHour(hours), threshold.costPerHour(hours, hours), 1e-12);
        close(block.costPerHour(hours), threshold.costPerHour(hours * (1 - 1e-9), hours), 1e-6);
      }
      close(age.runToFailureCostPerHour(), threshold.costPerHour(0, EVER), 1e-7);
    }
  }

  @Test
  void theBestThresholdCostsNoMoreThanEitherEnd() {
    SplittableRandom random = new SplittableRandom(22);
    for (int k = 0; k < 4; k++) {
      CostModel model = mendable(random);
      ThresholdAdvice best = ThresholdSearch.best(model);
      double age = IntervalSearch.best(model).costPerHour();
      double block = BlockSearch.best(model).costPerHour();
      assertTrue(best.costPerHour() <= Math.min(age, block) * (1 + 1e-7), model.toString());
      double threshold = best.thresholdHours();
      if (threshold < EVER) {
        double interval = Math.max(threshold, best.intervalHours().orElse(EVER));
        close(best.costPerHour(), ThresholdCost.of(model).costPerHour(threshold, interval), 1e-9);
        scanFindsNothingCheaper(model, best.costPerHour());
      }
    }
  }

  private static void scanFindsNothingCheaper(CostModel model, double least) {
    ThresholdCost cost = ThresholdCost.of(model);
    for (double threshold = 100; threshold < 30_000; threshold *= 2.1) {
      for (double more = 1; more < 30; more *= 1.8) {
        assertTrue(cost.costPerHour(threshold, threshold * more) >= least * (1 - 2e-5));
      }
    }
  }

  @Test
  void whereMendingCostsAsMuchAsRebuildingAllNobodyMends() {
    Weibull seal = new Weibull(2, 6000);
    CostModel model =
        new CostModel(
            1500,
            List.of(
                PositionRisk.announcing("a", "seal", seal, 5000),
                PositionRisk.announcing("b", "seal", seal, 5000)));
    ThresholdAdvice best = ThresholdSearch.best(model);
    assertEquals(0, best.thresholdHours(), 1);
    close(IntervalSearch.best(model).costPerHour(), best.costPerHour(), 1e-6);
  }

  @Test
  void partsThatDoNotAgeAreMendedForEver() {
    Weibull seal = new Weibull(0.9, 6000);
    CostModel model =
        new CostModel(1500, List.of(PositionRisk.announcing("a", "seal", seal, 5000, 4000)));
    assertEquals(EVER, ThresholdSearch.best(model).thresholdHours());
    IntervalAdvice block = BlockSearch.best(model);
    assertTrue(block.intervalHours().isEmpty());
    assertEquals(NoInterval.HAZARDS_DO_NOT_RISE, block.noInterval().orElseThrow());
    close(4000 / seal.mean(), block.costPerHour(), 1e-12);
  }

  @Test
  void aBlockCostsAtLeastAsMuchAsAnAgeForEqualCosts() {
    SplittableRandom random = new SplittableRandom(23);
    for (int k = 0; k < 15; k++) {
      Weibull life = new Weibull(1.2 + 4 * random.nextDouble(), 5000);
      CostModel model =
          new CostModel(
              1000,
              List.of(PositionRisk.announcing("a", "a", life, 1500 + 9000 * random.nextDouble())));
      assertTrue(
          BlockSearch.best(model).costPerHour()
              >= IntervalSearch.best(model).costPerHour() * (1 - 1e-9));
    }
  }

  @Test
  void costsScaleWithMoneyAndTime() {
    CostModel model = mendable(new SplittableRandom(24));
    CostModel scaled =
        new CostModel(
            3 * model.plannedCost(),
            model.positions().stream()
                .map(
                    r ->
                        new PositionRisk(
                            r.position(),
                            r.component(),
                            new Weibull(
                                ((Weibull) r.life()).shape(), 7 * ((Weibull) r.life()).scale()),
                            3 * r.unplannedCost(),
                            3 * r.mendCost(),
                            r.announces(),
                            3.0 / 7 * r.hiddenCostPerHour()))
                .toList());
    close(
        3.0 / 7 * ThresholdCost.of(model).costPerHour(1000, 4000),
        ThresholdCost.of(scaled).costPerHour(7000, 28_000),
        1e-9);
    IntervalAdvice one = BlockSearch.best(model);
    IntervalAdvice other = BlockSearch.best(scaled);
    close(3.0 / 7 * one.costPerHour(), other.costPerHour(), 1e-9);
    close(7 * one.intervalHours().orElse(1), other.intervalHours().orElse(7), 1e-5);
  }

  /** A weak batch among good parts: a valley before the weak fail, one before the good do. */
  @Test
  @Tag("long")
  void theLowerOfTwoValleysIsFoundWhereverItLies() {
    Weibull weak = new Weibull(6, 1000);
    Weibull good = new Weibull(6, 12_000);
    for (double share : new double[] {0.02, 0.05, 0.1, 0.2, 0.3, 0.5}) {
      LifeDistribution life = new TwoWeibulls(share, weak, good);
      CostModel model =
          new CostModel(1000, List.of(PositionRisk.announcing("seal", "seal", life, 20_000)));
      CostRate age = CostRate.of(model);
      lowest(age::costPerHour, IntervalSearch.best(model));
      BlockCost block = BlockCost.of(model);
      lowest(block::costPerHour, BlockSearch.best(model));
    }
  }

  private static void lowest(DoubleUnaryOperator cost, IntervalAdvice advice) {
    double least = advice.runToFailureCostPerHour();
    double at = EVER;
    for (double hours = 100; hours < 60_000; hours *= 1.002) {
      double one = cost.applyAsDouble(hours);
      if (one < least) {
        least = one;
        at = hours;
      }
    }
    assertEquals(at, advice.intervalHours().orElse(EVER), 0.003 * at);
    assertTrue(advice.costPerHour() <= least * (1 + 1e-9));
  }

  @Test
  void bothValleysAreSometimesTheLower() {
    double few = two(0.02).intervalHours().orElseThrow();
    double many = two(0.3).intervalHours().orElseThrow();
    assertTrue(many < 1000 && few > 3000, few + " " + many);
  }

  private static IntervalAdvice two(double share) {
    LifeDistribution life = new TwoWeibulls(share, new Weibull(6, 1000), new Weibull(6, 12_000));
    return IntervalSearch.best(
        new CostModel(1000, List.of(PositionRisk.announcing("seal", "seal", life, 100_000))));
  }

  @Test
  void refusesIntervalsThatAreNone() {
    CostModel model = mendable(new SplittableRandom(25));
    assertThrows(IllegalArgumentException.class, () -> BlockCost.of(model).costPerHour(0));
    assertThrows(
        IllegalArgumentException.class, () -> ThresholdCost.of(model).costPerHour(500, 400));
    assertThrows(IllegalArgumentException.class, () -> ThresholdCost.of(model).costPerHour(0, 0));
    CostModel unseen =
        new CostModel(10, List.of(PositionRisk.hidden("v", "v", new Weibull(2, 100), 1)));
    assertThrows(IllegalArgumentException.class, () -> ThresholdCost.of(unseen));
    assertTrue(BlockSearch.best(unseen).intervalHours().isPresent());
  }

  private static CostModel mendable(SplittableRandom random) {
    CostModel model = Models.random(random);
    return new CostModel(
        model.plannedCost(),
        model.positions().stream()
            .map(
                r ->
                    new PositionRisk(
                        r.position(),
                        r.component(),
                        r.life(),
                        r.unplannedCost(),
                        r.unplannedCost() * (0.5 + 0.5 * random.nextDouble()),
                        r.announces(),
                        r.hiddenCostPerHour()))
            .toList());
  }

  private static void close(double expected, double actual, double relative) {
    assertEquals(expected, actual, relative * Math.abs(expected));
  }
}

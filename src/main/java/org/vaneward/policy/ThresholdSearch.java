package org.vaneward.policy;

import java.util.OptionalDouble;
import org.vaneward.stats.numeric.Minimum;

/**
 * The cheapest threshold and interval: thresholds on a grid, for each the cheapest interval, the
 * best stretch of thresholds refined; mending for ever and both ends are always among the choices.
 * The cost found is within 1e-6 of the least unless two valleys lie closer than the grid.
 */
public final class ThresholdSearch {
  private static final int THRESHOLDS = 10;
  private static final double SHORTEST_SHARE = 0.05;
  private static final double LONGEST_SHARE = 2;
  private static final double ACCURACY = 0.02;
  private static final int MOST_STEPS = 20;
  private static final double GOLDEN = (Math.sqrt(5) - 1) / 2;

  private final ThresholdCost cost;
  private final BlockCost block;

  private ThresholdSearch(ThresholdCost cost) {
    this.cost = cost;
    this.block = cost.block();
  }

  /** The advice for {@code model}. */
  public static ThresholdAdvice best(CostModel model) {
    return best(ThresholdCost.of(model));
  }

  /** The advice for the model of {@code cost}. */
  public static ThresholdAdvice best(ThresholdCost cost) {
    return new ThresholdSearch(cost).search();
  }

  private ThresholdAdvice search() {
    double[] grid = grid();
    ThresholdAdvice best = at(0);
    int place = -1;
    for (int i = 0; i < grid.length; i++) {
      ThresholdAdvice one = at(grid[i]);
      if (one.costPerHour() < best.costPerHour()) {
        best = one;
        place = i;
      }
    }
    best = cheaper(best, refined(grid, place));
    best = cheaper(best, block());
    double never = block.runToFailureCostPerHour();
    double least = best.costPerHour() * (1 + IntervalSearch.LEAST_SAVING);
    return never <= least
        ? new ThresholdAdvice(Double.POSITIVE_INFINITY, OptionalDouble.empty(), never)
        : best;
  }

  private static ThresholdAdvice cheaper(ThresholdAdvice one, ThresholdAdvice other) {
    return other.costPerHour() < one.costPerHour() ? other : one;
  }

  private double[] grid() {
    double shortest = Double.POSITIVE_INFINITY;
    double longest = 0;
    for (PositionRisk risk : cost.model().positions()) {
      shortest = Math.min(shortest, risk.life().quantile(0.5));
      longest = Math.max(longest, risk.life().quantile(0.5));
    }
    double low = Math.log(SHORTEST_SHARE * shortest);
    double high = Math.log(LONGEST_SHARE * longest);
    double[] grid = new double[THRESHOLDS];
    for (int i = 0; i < THRESHOLDS; i++) {
      grid[i] = Math.exp(low + (high - low) * i / (THRESHOLDS - 1));
    }
    return grid;
  }

  /** Golden section between the neighbours of the best threshold. */
  private ThresholdAdvice refined(double[] grid, int place) {
    double low = place <= 0 ? 0 : grid[place - 1];
    double high = grid[Math.min(place + 1, grid.length - 1)];
    double left = high - GOLDEN * (high - low);
    double right = low + GOLDEN * (high - low);
    ThresholdAdvice atLeft = at(left);
    ThresholdAdvice atRight = at(right);
    for (int i = 0; i < MOST_STEPS && high - low > ACCURACY * high; i++) {
      if (atLeft.costPerHour() <= atRight.costPerHour()) {
        high = right;
        right = left;
        atRight = atLeft;
        left = high - GOLDEN * (high - low);
        atLeft = at(left);
      } else {
        low = left;
        left = right;
        atLeft = atRight;
        right = low + GOLDEN * (high - low);
        atRight = at(right);
      }
    }
    return cheaper(atLeft, atRight);
  }

  private ThresholdAdvice block() {
    IntervalAdvice advice = BlockSearch.best(block);
    return new ThresholdAdvice(
        advice.intervalHours().orElse(Double.POSITIVE_INFINITY),
        advice.intervalHours(),
        advice.costPerHour());
  }

  /** The cheapest interval for a threshold. */
  private ThresholdAdvice at(double threshold) {
    AfterThreshold after = cost.from(threshold);
    // Without a threshold an interval of 0 is none.
    int first = threshold > 0 ? 0 : 1;
    int last = after.intervals() - 1;
    int best = first;
    for (int j = first + 1; j <= last; j++) {
      best = after.costAt(j) < after.costAt(best) ? j : best;
    }
    double forEver = after.costPerHour(Double.POSITIVE_INFINITY);
    double least = after.costAt(best);
    if (best == last || forEver <= least) {
      return new ThresholdAdvice(threshold, OptionalDouble.empty(), forEver);
    }
    double low = after.interval(Math.max(best - 1, first));
    Minimum closed = Minimum.between(after::costPerHour, low, after.interval(best + 1), 3);
    return closed.value() < least
        ? new ThresholdAdvice(threshold, OptionalDouble.of(closed.at()), closed.value())
        : new ThresholdAdvice(threshold, OptionalDouble.of(after.interval(best)), least);
  }
}

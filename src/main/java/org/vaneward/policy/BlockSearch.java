package org.vaneward.policy;

import java.util.Optional;
import java.util.OptionalDouble;
import org.vaneward.stats.numeric.Minimum;

/**
 * The interval of least long-run cost under {@link BlockCost}.
 *
 * <p>The cost is looked at on a grid finer than any ripple of the renewal functions, up to where
 * they have settled on their asymptotes, and the best stretch refined; beyond, the cost runs evenly
 * towards that of never rebuilding, which is always among the choices.
 */
public final class BlockSearch {
  /** Parts into which each stretch between edges is cut. */
  private static final int CUTS = 6;

  private final BlockCost cost;
  private final double[] grid;
  private final double[] value;

  private BlockSearch(BlockCost cost) {
    this.cost = cost;
    double[] edges = cost.edges();
    grid = new double[(edges.length - 1) * CUTS + 1];
    value = new double[grid.length];
    for (int j = 0; j < grid.length; j++) {
      int edge = Math.min(j / CUTS, edges.length - 2);
      double share = (double) (j - edge * CUTS) / CUTS;
      grid[j] = edges[edge] * Math.pow(edges[edge + 1] / edges[edge], share);
      value[j] = cost.costPerHour(grid[j]);
    }
  }

  /** The advice for {@code model}. */
  public static IntervalAdvice best(CostModel model) {
    return best(BlockCost.of(model));
  }

  /** The advice for the model of {@code cost}. */
  public static IntervalAdvice best(BlockCost cost) {
    return new BlockSearch(cost).search();
  }

  private IntervalAdvice search() {
    double never = cost.runToFailureCostPerHour();
    int best = 0;
    for (int j = 1; j < grid.length; j++) {
      best = value[j] < value[best] ? j : best;
    }
    if (best == grid.length - 1) {
      return none(never);
    }
    Minimum least =
        Minimum.between(
            x -> cost.costPerHour(Math.exp(x)),
            Math.log(grid[Math.max(best - 1, 0)]),
            Math.log(grid[best + 1]),
            3);
    double hours = Math.exp(least.at());
    double perHour = least.value();
    if (!(never - perHour >= IntervalSearch.LEAST_SAVING * never)) {
      return none(never);
    }
    return new IntervalAdvice(
        OptionalDouble.of(hours),
        perHour,
        never,
        Optional.of(window(hours, (1 + IntervalSearch.WINDOW_SHARE) * perHour, never)),
        1 / (1 + cost.expectedFailures(hours)),
        Optional.empty());
  }

  private IntervalAdvice none(double never) {
    return new IntervalAdvice(
        OptionalDouble.empty(), never, never, Optional.empty(), 0, Optional.of(reason()));
  }

  private NoInterval reason() {
    var positions = cost.model().positions();
    boolean anyRises = positions.stream().anyMatch(r -> r.announces() && Ageing.rises(r.life()));
    boolean anyHidden = positions.stream().anyMatch(r -> r.hiddenCostPerHour() > 0);
    return anyRises || anyHidden ? NoInterval.SAVING_NEGLIGIBLE : NoInterval.HAZARDS_DO_NOT_RISE;
  }

  private Window window(double hours, double ceiling, double never) {
    return new CostWindow(cost::costPerHour, grid, value, ceiling)
        .around(hours, cost.model().plannedCost(), never);
  }
}

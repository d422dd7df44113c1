package org.vaneward.policy;

import java.util.Optional;
import java.util.OptionalDouble;
import org.vaneward.stats.numeric.Roots;

/**
 * How much longer to run one pump whose parts have ages of their own.
 *
 * <p>With g the least long-run cost per hour, running on for s costs {@link RunCost#extraCost J(s)}
 * = ∫₀ˢ R (m − g) du more than average running. The pump is due where J is least over s ≥ 0: where
 * m, the price of an hour more, crosses g upwards for the last time that counts. For hazards that
 * rise that is the first and only crossing; where a young part's hazard falls first, the pump is
 * run through the bad stretch when what follows pays for it. When J is least at 0 the pump is due
 * already, since the point, looking back no further than the youngest part's fitting, from which m
 * has stood above g.
 *
 * @param dueHours further running until due; negative when that much too long has been run; empty
 *     when running to the next failure is cheapest
 * @param window where the expected extra cost, J(s) − J(due), is at most 2% of what the cycle costs
 *     at g: g times the oldest part's age and the mean further running. For a pump of new parts
 *     this is the window of the interval itself. Starts at 0 at the earliest, at {@code dueHours}
 *     when that is past
 * @param leastCostPerHour g
 */
public record RunOn(OptionalDouble dueHours, Optional<Window> window, double leastCostPerHour) {

  /** Steps in which to look back for the crossing. */
  private static final int STEPS_BACK = 400;

  /**
   * How much longer to run.
   *
   * @param run the pump's ages and costs
   * @param leastCostPerHour least long-run cost per hour of the same model
   */
  public static RunOn best(RunCost run, double leastCostPerHour) {
    if (!(leastCostPerHour > 0 && leastCostPerHour < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException(
          "a cost per hour is positive and finite, not " + leastCostPerHour);
    }
    return new Search(run, leastCostPerHour).search();
  }

  private static final class Search {
    private final RunCost run;
    private final double cost;
    private final double[] edges;

    Search(RunCost run, double cost) {
      this.run = run;
      this.cost = cost;
      this.edges = run.edges();
    }

    RunOn search() {
      int best = -1;
      double least = 0;
      for (int j = 0; j < edges.length; j++) {
        double extra = run.extraCost(edges[j], cost);
        if (extra < least) {
          least = extra;
          best = j;
        }
      }
      if (best == edges.length - 1) {
        return new RunOn(OptionalDouble.empty(), Optional.empty(), cost);
      }
      double due = refine(best);
      if (due > 0) {
        return found(due, due);
      }
      return found(since(), 0);
    }

    private double refine(int best) {
      double low = best <= 0 ? 0 : edges[best - 1];
      double high = edges[best + 1];
      if (best < 0 && !(above(0) < 0)) {
        return 0;
      }
      return Roots.between(this::above, low, high).orElse(best < 0 ? 0 : edges[best]);
    }

    private double above(double hours) {
      return run.marginalCostPerHour(hours) - cost;
    }

    /** The last time, looking back, that an hour more was worth running. */
    private double since() {
      double youngest = run.youngestAge();
      double later = 0;
      for (int k = 1; k <= STEPS_BACK && youngest > 0; k++) {
        double earlier = -youngest * k / STEPS_BACK;
        if (above(earlier) <= 0) {
          return later > earlier ? Roots.between(this::above, earlier, later).orElse(later) : later;
        }
        later = earlier;
      }
      return 0 - youngest;
    }

    private RunOn found(double due, double stop) {
      double least = stop > 0 ? run.extraCost(stop, cost) : 0;
      double from = due > 0 ? from(stop, least) : due;
      return new RunOn(
          OptionalDouble.of(due), Optional.of(new Window(from, to(stop, least))), cost);
    }

    /** Positive outside the window. */
    private double outside(double hours, double least) {
      double allowed =
          IntervalSearch.WINDOW_SHARE * cost * (run.oldestAge() + run.meanHours(hours));
      return run.extraCost(hours, cost) - least - allowed;
    }

    private double from(double stop, double least) {
      double inside = stop;
      for (int j = edges.length - 1; j >= 0; j--) {
        if (edges[j] < stop) {
          if (outside(edges[j], least) > 0) {
            return crossing(least, edges[j], inside);
          }
          inside = edges[j];
        }
      }
      return 0;
    }

    private OptionalDouble to(double stop, double least) {
      double inside = stop;
      for (double edge : edges) {
        if (edge > stop) {
          if (outside(edge, least) > 0) {
            return OptionalDouble.of(inside > 0 ? crossing(least, inside, edge) : 0);
          }
          inside = edge;
        }
      }
      return OptionalDouble.empty();
    }

    private double crossing(double least, double low, double high) {
      return Roots.between(s -> outside(s, least), low, high).orElse(low);
    }
  }
}

package org.vaneward.policy;

import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.DoubleUnaryOperator;
import org.vaneward.stats.numeric.Roots;

/**
 * How much longer to run one pump whose parts have ages of their own.
 *
 * <p>With g the least long-run cost per hour, running on for s costs {@link
 * DrawnRun#expectedExtraCost J(s)} = E ∫₀ˢ R (m − g) du more than average running. The pump is due
 * where J is least over s ≥ 0: where the price of an hour more, m, crosses g upwards for the last
 * time that counts. For hazards that rise that is the first and only crossing; where a young part's
 * hazard falls first, the pump is run through the bad stretch when what follows pays for it. When J
 * is least at 0 the pump is due already, since the point, looking back no further than the youngest
 * part's fitting, from which m has stood above g.
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
   * How much longer to run, in expectation over the draws.
   *
   * @param run the pump's ages and costs
   * @param leastCostPerHour least long-run cost per hour expected of pumps like it
   */
  public static RunOn best(DrawnRun run, double leastCostPerHour) {
    checked(leastCostPerHour);
    Search search =
        new Search(
            run,
            hours -> run.expectedExtraCost(hours, leastCostPerHour),
            hours -> run.expectedSlope(hours, leastCostPerHour));
    OptionalDouble due = search.due();
    if (due.isEmpty()) {
      return new RunOn(due, Optional.empty(), leastCostPerHour);
    }
    Window window = new WindowSearch(run, leastCostPerHour, due.getAsDouble()).window();
    return new RunOn(due, Optional.of(window), leastCostPerHour);
  }

  /**
   * How much longer to run were the lives those of one draw: {@link #dueHours} alone.
   *
   * @param leastCostPerHour least long-run cost per hour in that draw
   */
  public static OptionalDouble dueIn(DrawnRun run, int draw, double leastCostPerHour) {
    checked(leastCostPerHour);
    return new Search(
            run,
            hours -> run.extraCost(draw, hours, leastCostPerHour),
            hours -> run.slope(draw, hours, leastCostPerHour))
        .due();
  }

  private static void checked(double costPerHour) {
    if (!(costPerHour > 0 && costPerHour < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException(
          "a cost per hour is positive and finite, not " + costPerHour);
    }
  }

  /** Where an extra cost is least. */
  private static final class Search {
    private final double[] edges;
    private final double youngest;
    private final DoubleUnaryOperator extra;
    private final DoubleUnaryOperator slope;

    Search(DrawnRun run, DoubleUnaryOperator extra, DoubleUnaryOperator slope) {
      this.edges = run.edges();
      this.youngest = run.youngestAge();
      this.extra = extra;
      this.slope = slope;
    }

    OptionalDouble due() {
      int best = -1;
      double least = 0;
      for (int j = 0; j < edges.length; j++) {
        double one = extra.applyAsDouble(edges[j]);
        if (one < least) {
          least = one;
          best = j;
        }
      }
      if (best == edges.length - 1) {
        return OptionalDouble.empty();
      }
      double due = refine(best);
      return OptionalDouble.of(due > 0 ? due : since());
    }

    private double refine(int best) {
      double low = best <= 0 ? 0 : edges[best - 1];
      if (best < 0 && !(slope.applyAsDouble(0) < 0)) {
        return 0;
      }
      // An hour at the least of the edges may be worth running where one before was not.
      double from = best < 0 || slope.applyAsDouble(low) < 0 ? low : edges[best];
      return Roots.between(slope, from, edges[best + 1]).orElse(best < 0 ? 0 : edges[best]);
    }

    /** The last time, looking back, that an hour more was worth running. */
    private double since() {
      double later = 0;
      for (int k = 1; k <= STEPS_BACK && youngest > 0; k++) {
        double earlier = -youngest * k / STEPS_BACK;
        if (slope.applyAsDouble(earlier) <= 0) {
          return later > earlier ? Roots.between(slope, earlier, later).orElse(later) : later;
        }
        later = earlier;
      }
      return 0 - youngest;
    }
  }

  /** Where the expected extra cost stays small. */
  private static final class WindowSearch {
    /** Next to no further running; a sum over none is not given. */
    private static final double SOON = 1e-100;

    private final DrawnRun run;
    private final double cost;
    private final double due;
    private final double[] edges;
    private final double stop;
    private final double least;

    WindowSearch(DrawnRun run, double cost, double due) {
      this.run = run;
      this.cost = cost;
      this.due = due;
      this.edges = run.edges();
      this.stop = Math.max(0, due);
      this.least = stop > 0 ? run.expectedExtraCost(stop, cost) : 0;
    }

    Window window() {
      return new Window(due > 0 ? from() : due, to());
    }

    /** Positive outside the window. */
    private double outside(double hours) {
      double cycle = run.oldestAge() + run.expectedHours(hours);
      double allowed = IntervalSearch.WINDOW_SHARE * cost * cycle;
      return run.expectedExtraCost(hours, cost) - least - allowed;
    }

    private double from() {
      double inside = stop;
      for (int j = edges.length - 1; j >= 0; j--) {
        if (edges[j] < stop) {
          if (outside(edges[j]) > 0) {
            return crossing(edges[j], inside);
          }
          inside = edges[j];
        }
      }
      return outside(SOON) > 0 && inside > SOON ? crossing(SOON, inside) : 0;
    }

    private OptionalDouble to() {
      double inside = stop;
      for (double edge : edges) {
        if (edge > stop) {
          if (outside(edge) > 0) {
            return OptionalDouble.of(crossing(Math.max(inside, SOON), edge));
          }
          inside = edge;
        }
      }
      return OptionalDouble.empty();
    }

    private double crossing(double low, double high) {
      return Roots.between(this::outside, low, high).orElse(low);
    }
  }
}

package org.vaneward.policy;

import java.util.OptionalDouble;
import java.util.function.DoubleUnaryOperator;
import org.vaneward.stats.numeric.Roots;

/** The unbroken stretch of intervals round the best whose cost stays below a ceiling. */
final class CostWindow {
  private final DoubleUnaryOperator cost;
  private final double[] grid;
  private final double[] value;
  private final double ceiling;

  /**
   * A window.
   *
   * @param cost cost per hour by interval
   * @param grid intervals, ascending, between which the cost has no hidden valley
   * @param value the cost there
   * @param ceiling cost allowed, above the least
   */
  CostWindow(DoubleUnaryOperator cost, double[] grid, double[] value, double ceiling) {
    this.cost = cost;
    this.grid = grid;
    this.value = value;
    this.ceiling = ceiling;
  }

  /**
   * The window.
   *
   * @param best interval of least cost
   * @param planned cost of a planned rebuild: below the grid it alone is spread over the hours
   * @param never cost per hour of running to failure
   */
  Window around(double best, double planned, double never) {
    return new Window(from(best, planned), to(best, never));
  }

  /** Walks down to where the cost first exceeds the ceiling. */
  private double from(double best, double planned) {
    double inside = best;
    for (int j = grid.length - 1; j >= 0; j--) {
      if (grid[j] < best) {
        if (value[j] > ceiling) {
          return crossing(grid[j], inside);
        }
        inside = grid[j];
      }
    }
    return planned / ceiling;
  }

  private OptionalDouble to(double best, double never) {
    double inside = best;
    for (int j = 0; j < grid.length; j++) {
      if (grid[j] > best) {
        if (value[j] > ceiling) {
          return OptionalDouble.of(crossing(inside, grid[j]));
        }
        inside = grid[j];
      }
    }
    return never > ceiling ? beyond(inside) : OptionalDouble.empty();
  }

  /** Only where the cost goes on rising past the grid. */
  private OptionalDouble beyond(double last) {
    double high = 2 * last;
    while (cost.applyAsDouble(high) <= ceiling) {
      if (!(high < Double.MAX_VALUE / 4)) {
        return OptionalDouble.empty();
      }
      high *= 2;
    }
    return OptionalDouble.of(crossing(last, high));
  }

  private double crossing(double low, double high) {
    return Roots.between(t -> cost.applyAsDouble(t) - ceiling, low, high).orElse(high);
  }
}

package org.vaneward.stats.numeric;

import java.util.function.DoubleUnaryOperator;
import org.apache.commons.math3.exception.TooManyEvaluationsException;
import org.apache.commons.math3.optim.MaxEval;
import org.apache.commons.math3.optim.nonlinear.scalar.GoalType;
import org.apache.commons.math3.optim.univariate.BrentOptimizer;
import org.apache.commons.math3.optim.univariate.SearchInterval;
import org.apache.commons.math3.optim.univariate.UnivariateObjectiveFunction;
import org.apache.commons.math3.optim.univariate.UnivariatePointValuePair;

/**
 * The least value of a function of one variable on a bracket, and where on it that is.
 *
 * <p>The bracket is first looked over at equally spaced points, so that the best of several valleys
 * is taken when each is wider than two steps; Brent's method (Algorithms for Minimization without
 * Derivatives, 1973, ch. 5) then closes in. A value that is not a number counts as infinite.
 *
 * @param at where the least value is; the middle of the bracket when there is none
 * @param value the least value; infinite when there is none
 * @param place whether it lies inside the bracket
 */
public record Minimum(double at, double value, Place place) {
  /** Where on the bracket the least value was found. */
  public enum Place {
    /** Inside: a minimum proper. */
    INTERIOR,
    /** At the lower end: the function may fall further below it. */
    LOWER_EDGE,
    /** At the upper end: the function may fall further beyond it. */
    UPPER_EDGE,
    /** The function has no finite value at any point looked at. */
    NOWHERE
  }

  /** Points at which the bracket is looked over when the caller names no number. */
  public static final int POINTS = 65;

  /**
   * Relative accuracy of the place. Near a smooth minimum values differ by less than the last digit
   * over a relative width of about the square root of 2e-16: nothing finer can be asked.
   */
  public static final double RELATIVE_ACCURACY = 1e-9;

  private static final int MOST_EVALUATIONS = 500;

  /** The minimum of {@code f} on [low, high], looked over at {@link #POINTS} points. */
  public static Minimum between(DoubleUnaryOperator f, double low, double high) {
    return between(f, low, high, POINTS);
  }

  /**
   * The minimum of {@code f} on [low, high].
   *
   * @param points at how many equally spaced points, ends included, to look before closing in
   * @throws IllegalArgumentException unless {@code low < high}, both finite, and points at least 3
   */
  public static Minimum between(DoubleUnaryOperator f, double low, double high, int points) {
    Guards.bracket(low, high);
    if (points < 3) {
      throw new IllegalArgumentException("at least 3 points are needed to look, not " + points);
    }
    double step = (high - low) / (points - 1);
    int best = 0;
    double least = Double.POSITIVE_INFINITY;
    for (int i = 0; i < points; i++) {
      double y = guarded(f, place(low, high, step, i, points));
      if (y < least) {
        least = y;
        best = i;
      }
    }
    if (least == Double.POSITIVE_INFINITY) {
      return new Minimum(low + (high - low) / 2, least, Place.NOWHERE);
    }
    double left = place(low, high, step, Math.max(best - 1, 0), points);
    double right = place(low, high, step, Math.min(best + 1, points - 1), points);
    Minimum looked = new Minimum(place(low, high, step, best, points), least, edge(best, points));
    return better(looked, closeIn(f, left, right, looked.at()));
  }

  private static double place(double low, double high, double step, int i, int points) {
    return i == points - 1 ? high : low + i * step;
  }

  private static Place edge(int best, int points) {
    return best == 0 ? Place.LOWER_EDGE : best == points - 1 ? Place.UPPER_EDGE : Place.INTERIOR;
  }

  /** An end is given up only for a value that is truly less. */
  private static Minimum better(Minimum looked, Minimum closed) {
    if (looked.place() == Place.INTERIOR) {
      return closed.value() <= looked.value() ? closed : looked;
    }
    return closed.value() < looked.value() ? closed : looked;
  }

  private static Minimum closeIn(DoubleUnaryOperator f, double left, double right, double start) {
    double middle = start > left && start < right ? start : left + (right - left) / 2;
    double finest = Math.max(RELATIVE_ACCURACY * 1e-3 * (right - left), Double.MIN_NORMAL);
    try {
      UnivariatePointValuePair found =
          new BrentOptimizer(RELATIVE_ACCURACY, finest)
              .optimize(
                  new MaxEval(MOST_EVALUATIONS),
                  GoalType.MINIMIZE,
                  new UnivariateObjectiveFunction(x -> guarded(f, x)),
                  new SearchInterval(left, right, middle));
      return new Minimum(found.getPoint(), found.getValue(), Place.INTERIOR);
    } catch (TooManyEvaluationsException e) {
      return new Minimum(middle, Double.POSITIVE_INFINITY, Place.INTERIOR);
    }
  }

  /** An infinity would turn the parabola through three points into no number at all. */
  private static double guarded(DoubleUnaryOperator f, double x) {
    double y = f.applyAsDouble(x);
    return Double.isNaN(y) ? Double.POSITIVE_INFINITY : y;
  }
}

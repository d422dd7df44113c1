package org.vaneward.stats.numeric;

import java.util.OptionalDouble;
import java.util.function.DoubleUnaryOperator;
import org.apache.commons.math3.analysis.solvers.BrentSolver;
import org.apache.commons.math3.exception.TooManyEvaluationsException;

/**
 * Roots of a function of one variable, by Brent's method (R. P. Brent, Algorithms for Minimization
 * without Derivatives, 1973, ch. 4).
 *
 * <p>Nothing is thrown for a function that misbehaves: a bracket without a change of sign, or a
 * value that is not a number, gives an empty answer.
 */
public final class Roots {
  /** Relative width of the final bracket: a few units in the last place of a double. */
  public static final double RELATIVE_ACCURACY = 1e-15;

  private static final int MOST_EVALUATIONS = 500;

  /** No value of the function counts as zero but zero itself. */
  private static final double NO_SLACK = Double.MIN_VALUE;

  private Roots() {}

  /**
   * A root of {@code f} between {@code low} and {@code high}, to {@link #RELATIVE_ACCURACY} of its
   * size (and no finer than the bracket's width times 1e-30, for a root at zero).
   *
   * @param f continuous; infinite values are allowed at points that are not the root
   * @return the root; empty when {@code f} has the same sign at both ends or is not a number
   * @throws IllegalArgumentException unless {@code low < high}, both finite
   */
  public static OptionalDouble between(DoubleUnaryOperator f, double low, double high) {
    return between(f, low, high, 1e-30 * (high - low));
  }

  /**
   * A root of {@code f} between {@code low} and {@code high}, to {@code absoluteAccuracy} or {@link
   * #RELATIVE_ACCURACY}, whichever is coarser.
   *
   * @throws IllegalArgumentException unless {@code low < high}, both finite, and the accuracy is
   *     not negative
   */
  public static OptionalDouble between(
      DoubleUnaryOperator f, double low, double high, double absoluteAccuracy) {
    Guards.bracket(low, high);
    if (!(absoluteAccuracy >= 0)) {
      throw new IllegalArgumentException("an accuracy is not negative, as is " + absoluteAccuracy);
    }
    double atLow = f.applyAsDouble(low);
    double atHigh = f.applyAsDouble(high);
    if (atLow == 0) {
      return OptionalDouble.of(low);
    }
    if (atHigh == 0) {
      return OptionalDouble.of(high);
    }
    if (Double.isNaN(atLow) || Double.isNaN(atHigh) || (atLow < 0) == (atHigh < 0)) {
      return OptionalDouble.empty();
    }
    boolean[] notANumber = {false};
    double root;
    try {
      root =
          new BrentSolver(RELATIVE_ACCURACY, absoluteAccuracy, NO_SLACK)
              .solve(MOST_EVALUATIONS, x -> finite(f.applyAsDouble(x), notANumber), low, high);
    } catch (TooManyEvaluationsException e) {
      return OptionalDouble.empty();
    }
    return notANumber[0] ? OptionalDouble.empty() : OptionalDouble.of(root);
  }

  /** Interpolation through an infinite value would make a step of no size. */
  private static double finite(double y, boolean[] notANumber) {
    if (Double.isNaN(y)) {
      notANumber[0] = true;
      return 0;
    }
    return Math.max(-Double.MAX_VALUE / 4, Math.min(Double.MAX_VALUE / 4, y));
  }
}

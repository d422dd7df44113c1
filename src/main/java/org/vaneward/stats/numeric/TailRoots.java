package org.vaneward.stats.numeric;

import org.apache.commons.numbers.gamma.LogGamma;
import org.apache.commons.numbers.gamma.RegularizedBeta;
import org.apache.commons.numbers.gamma.RegularizedGamma;

/**
 * Gamma and beta quantiles.
 *
 * <p>In y = log x (gamma) or y = log(x / (1 - x)) (beta) the density is log-concave, and with it
 * the log of either tail. Newton's method on the log of the smaller tail therefore overshoots once
 * at most and then closes in from one side; a bracket catches what rounding or an unlucky start may
 * do.
 */
final class TailRoots {
  private static final int MOST_STEPS = 200;

  /** A step in y below this is beyond the digits of a double. */
  private static final double STILL = 4e-16;

  /** Steps in y are no longer than this: tails at the ends of the scale underflow. */
  private static final double LONGEST = 50;

  private static final double LEAST_LOG = Math.log(Double.MIN_VALUE);

  private TailRoots() {}

  /** Log of a tail and its derivative in y, the tail being the lower one or the upper one. */
  private interface LogTail {
    /**
     * The Newton step towards the root from {@code y}: (log of the wanted share - log of the tail)
     * / slope; not a number or infinite where the tail or its slope has underflowed.
     */
    double step(double y);

    /** Whether the root lies above {@code y}. */
    boolean rootIsAbove(double y);
  }

  static double gamma(double p, double shape) {
    boolean lower = p < 0.5;
    double logShare = lower ? Math.log(p) : Math.log1p(-p);
    // for small x the lower tail is x^shape / Gamma(shape + 1)
    double small = (Math.log(p) + LogGamma.value(shape + 1)) / shape;
    if (small < LEAST_LOG) {
      return 0;
    }
    double start = shape < 1 && lower ? small : wilsonHilferty(p, shape, small);
    return Math.exp(
        solve(
            start,
            new LogTail() {
              @Override
              public double step(double y) {
                double x = Math.exp(y);
                double tail = tail(x);
                double slope = x * RegularizedGamma.P.derivative(shape, x) / tail;
                return (logShare - Math.log(tail)) / (lower ? slope : -slope);
              }

              @Override
              public boolean rootIsAbove(double y) {
                return (Math.log(tail(Math.exp(y))) < logShare) == lower;
              }

              private double tail(double x) {
                return lower
                    ? RegularizedGamma.P.value(shape, x)
                    : RegularizedGamma.Q.value(shape, x);
              }
            }));
  }

  /** Log of the Wilson–Hilferty approximation; {@code small} where it has no value. */
  private static double wilsonHilferty(double p, double shape, double small) {
    double c = 1 / (9 * shape);
    double root = 1 - c + Quantiles.normal(p) * Math.sqrt(c);
    return root > 0.1 ? Math.log(shape) + 3 * Math.log(root) : small;
  }

  static double beta(double p, double a, double b) {
    boolean lower = p < 0.5;
    double logShare = lower ? Math.log(p) : Math.log1p(-p);
    double y =
        solve(
            Math.log(a / b),
            new LogTail() {
              @Override
              public double step(double y) {
                double x = odds(y);
                double rest = odds(-y);
                double tail = tail(y);
                double density =
                    y < 0
                        ? RegularizedBeta.derivative(x, a, b)
                        : RegularizedBeta.derivative(rest, b, a);
                double slope = x * rest * density / tail;
                return (logShare - Math.log(tail)) / (lower ? slope : -slope);
              }

              @Override
              public boolean rootIsAbove(double y) {
                return (Math.log(tail(y)) < logShare) == lower;
              }

              /** From the side of the scale where x or 1 - x is small and has its digits. */
              private double tail(double y) {
                boolean swapped = y >= 0;
                double x = odds(swapped ? -y : y);
                double first = swapped ? b : a;
                double second = swapped ? a : b;
                return lower == swapped
                    ? RegularizedBeta.complement(x, first, second)
                    : RegularizedBeta.value(x, first, second);
              }
            });
    return odds(y);
  }

  private static double odds(double y) {
    return 1 / (1 + Math.exp(-y));
  }

  private static double solve(double start, LogTail tail) {
    double low = Double.NEGATIVE_INFINITY;
    double high = Double.POSITIVE_INFINITY;
    double y = start;
    for (int i = 0; i < MOST_STEPS; i++) {
      if (tail.rootIsAbove(y)) {
        low = y;
      } else {
        high = y;
      }
      double step = tail.step(y);
      if (Math.abs(step) <= STILL * Math.max(1, Math.abs(y))) {
        return y + step;
      }
      double next = y + Math.max(-LONGEST, Math.min(LONGEST, step));
      if (!(next > low && next < high)) {
        next = inside(low, high);
        if (next == low || next == high) {
          return y;
        }
      }
      y = next;
    }
    return y;
  }

  private static double inside(double low, double high) {
    if (low == Double.NEGATIVE_INFINITY) {
      return high - LONGEST;
    }
    return high == Double.POSITIVE_INFINITY ? low + LONGEST : low + (high - low) / 2;
  }
}

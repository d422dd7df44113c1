package org.vaneward.stats.pooling;

import org.vaneward.stats.numeric.GaussHermite;

/**
 * Log-likelihood of one group as a function of its log shape, its scale's effect integrated out at
 * a scale of the typical group and a standard deviation between groups: values at whole multiples
 * of a spacing, as far from the peak as there is anything.
 */
final class ShapeCurve {
  /** Standard deviations beyond which a normal density is nothing. */
  private static final double REACH = 6.5;

  /** Spacings from which on a normal density is wide enough for sums over the nodes. */
  private static final double WIDE = 1.2;

  private static final GaussHermite NARROW_RULE = GaussHermite.of(8);
  private static final double LOG_ROOT_2_PI = Math.log(2 * Math.PI) / 2;
  private static final double LOG_ROOT_PI = Math.log(Math.PI) / 2;

  private final double spacing;
  private final int first;
  private final double[] log;

  /** Exponentials of the values less the peak. */
  private final double[] relative;

  private final double peak;
  private final double peakAt;

  /**
   * A curve.
   *
   * @param first place of the first value, in spacings from 0
   * @param log values, at least four. Kept, not copied.
   */
  ShapeCurve(double spacing, int first, double[] log) {
    this.spacing = spacing;
    this.first = first;
    this.log = log;
    relative = new double[log.length];
    int best = 0;
    for (int i = 1; i < log.length; i++) {
      best = log[i] > log[best] ? i : best;
    }
    peak = log[best];
    peakAt = (first + best) * spacing;
    for (int i = 0; i < log.length; i++) {
      relative[i] = Math.exp(log[i] - peak);
    }
  }

  /** The least log shape with a value. */
  double from() {
    return first * spacing;
  }

  /** The greatest log shape with a value. */
  double to() {
    return (first + log.length - 1) * spacing;
  }

  /** The value at a log shape, by cubic interpolation; beyond the last value it falls on. */
  double value(double b) {
    double at = b / spacing - first;
    if (!(at >= 0 && at <= log.length - 1)) {
      return beyond(b, 0);
    }
    int i = Math.max(1, Math.min(log.length - 3, (int) at));
    return Cubic.between(log[i - 1], log[i], log[i + 1], log[i + 2], at - i);
  }

  /** As if the curve were a parabola from its peak to its end, smoothed by a normal density. */
  private double beyond(double b, double sd) {
    double fallen = peak - (b > peakAt ? log[log.length - 1] : log[0]);
    double side = Math.max(b > peakAt ? to() - peakAt : peakAt - from(), spacing);
    double far = b - peakAt;
    return peak - far * far / 2 / (sd * sd + side * side / (2 * Math.max(fallen, 1)));
  }

  /**
   * Log of the mean of the likelihood over log shapes normally distributed around {@code b}.
   *
   * @param sd their standard deviation, positive
   */
  double blurred(double b, double sd) {
    return sd >= WIDE * spacing ? overNodes(b, sd) : byRule(b, sd);
  }

  private double byRule(double b, double sd) {
    double sum = 0;
    double top = value(b);
    for (int i = 0; i < NARROW_RULE.size(); i++) {
      double x = NARROW_RULE.point(i);
      sum +=
          Math.exp(
              NARROW_RULE.logWeight(i)
                  - x * x
                  - LOG_ROOT_PI
                  + value(b + Math.sqrt(2) * sd * x)
                  - top);
    }
    return top + Math.log(sum);
  }

  /**
   * The trapezoidal rule; the normal density from node to node by two multiplications, since its
   * ratio at neighbouring nodes changes by a constant factor.
   */
  private double overNodes(double b, double sd) {
    int low = Math.max(0, (int) Math.ceil((b - REACH * sd) / spacing) - first);
    int high = Math.min(log.length - 1, (int) Math.floor((b + REACH * sd) / spacing) - first);
    if (low > high) {
      return beyond(b, sd);
    }
    double step = spacing / sd;
    double z = ((first + low) * spacing - b) / sd;
    double density = Math.exp(-z * z / 2);
    double ratio = Math.exp(-step * (z + step / 2));
    double change = Math.exp(-step * step);
    double sum = 0;
    for (int i = low; i <= high; i++) {
      sum += relative[i] * density;
      density *= ratio;
      ratio *= change;
    }
    return sum > 0 ? peak + Math.log(sum * step) - LOG_ROOT_2_PI : beyond(b, sd);
  }
}

package org.vaneward.stats.pooling;

/**
 * Places of a standard deviation: unit sinh(x), x at whole multiples of a step from 0 on.
 *
 * <p>A posterior density is an even function of x, smooth within a strip whose width does not
 * depend on the data once the unit is the standard error of the best known group: the trapezoidal
 * rule then converges faster than any power of its step.
 *
 * @param unit of the standard deviation; 0 when it is held at 0, which is then the only place
 * @param step between two places
 */
record Spread(double unit, double step) {
  /** A density at 0 within so much of the greatest, on the log scale, is cut off there. */
  private static final double CUT = 2;

  /** A standard deviation that is held at 0. */
  static Spread none() {
    return new Spread(0, 1);
  }

  boolean isNone() {
    return unit == 0;
  }

  double at(double place) {
    return unit * Math.sinh(place * step);
  }

  /** Log of the derivative of the standard deviation in the place. */
  double logStretch(double place) {
    return isNone() ? 0 : Math.log(unit * step * Math.cosh(place * step));
  }

  /** The share of a place in the trapezoidal rule: the first one counts half. */
  double share(int place) {
    return place == 0 && !isNone() ? 0.5 : 1;
  }

  /** The last place whose standard deviation is below {@code sd}, at least 0. */
  int lastBelow(double sd) {
    return isNone() ? 0 : (int) Math.floor(asinh(sd / unit) / step);
  }

  private static double asinh(double x) {
    return Math.log(x + Math.sqrt(x * x + 1));
  }

  /**
   * How wide a density is, in places.
   *
   * @param logWeights of the places from {@code first} on, the shares left out
   * @return its standard deviation; that of the whole bell when it is cut in half at 0
   */
  double width(double[] logWeights, int first) {
    double top = Double.NEGATIVE_INFINITY;
    for (double w : logWeights) {
      top = Math.max(top, w);
    }
    double sum = 0;
    double mean = 0;
    double square = 0;
    for (int i = 0; i < logWeights.length; i++) {
      double w = share(first + i) * Math.exp(logWeights[i] - top);
      sum += w;
      mean += w * (first + i);
      square += w * (first + i) * (first + i);
    }
    boolean half = first == 0 && logWeights[0] > top - CUT;
    double centre = half ? 0 : mean / sum;
    return Math.sqrt(Math.max(square / sum - centre * centre, 0));
  }

  /** The same when a step is fine enough for a density so wide, in places; else a finer one. */
  Spread fineEnoughFor(double width, Precision precision) {
    return isNone() || width * precision.coarsest >= 1
        ? this
        : new Spread(unit, step * width * precision.finer);
  }
}

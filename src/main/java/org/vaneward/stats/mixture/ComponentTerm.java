package org.vaneward.stats.mixture;

import org.vaneward.stats.numeric.LogSpace;

/**
 * What one Weibull says of one life: the log of a density, of a survival or of the chance of an
 * interval, with its derivatives in log scale u and log shape s. A workspace, filled anew for every
 * row.
 *
 * <p>Ages come as logs y. With z = shape (y - u) the cumulative hazard is exp(z); the density is
 * that of the log age (the density of the age itself is smaller by the factor age, the same for
 * every parameter).
 */
final class ComponentTerm {
  /** Below this the hazard within an interval is worked with by its series. */
  private static final double SMALL = 1e-5;

  /** Above this exp(-x) is nothing beside 1. */
  private static final double LARGE = 700;

  double value;
  double u;
  double s;
  double uu;
  double us;
  double ss;

  /** Log density of the log age. */
  void failed(double y, double logShape, double shape, double logScale) {
    double z = shape * (y - logScale);
    double h = Math.exp(z);
    double slope = 1 - h;
    value = logShape + z - h;
    u = -shape * slope;
    s = 1 + z * slope;
    uu = -shape * shape * h;
    us = shape * (z * h - slope);
    ss = z * slope - z * z * h;
  }

  /** Log of the survival. */
  void outlived(double y, double shape, double logScale) {
    double z = shape * (y - logScale);
    double h = Math.exp(z);
    value = -h;
    u = shape * h;
    s = -z * h;
    uu = -shape * shape * h;
    us = shape * h * (1 + z);
    ss = -z * h * (1 + z);
  }

  /**
   * Log of the chance to fail in an interval.
   *
   * @param from log of its start; negative infinity for age 0
   * @param to log of its end
   * @param width log of end over start, which their difference would not give for a narrow one
   */
  void within(double from, double to, double width, double shape, double logScale) {
    if (from > Double.NEGATIVE_INFINITY) {
      outlived(from, shape, logScale);
    } else {
      clear();
    }
    double z = shape * (to - logScale);
    double x = shape * width;
    double v = x < LARGE ? x / Math.expm1(x) : 0;
    double logD = z + LogSpace.log1mExp(x);
    double d = Math.exp(logD);
    double w = d < SMALL ? 1 - d / 2 + d * d / 12 : d < LARGE ? d / Math.expm1(d) : 0;
    double slack = d < SMALL ? -d / 2 - d * d / 12 : 1 - d - w;
    double curve = w == 0 ? 0 : w * slack;
    double m = z + v;
    value += d < SMALL ? logD - d / 2 + d * d / 24 : LogSpace.log1mExp(d);
    u -= shape * w;
    uu += shape * shape * curve;
    s += w * m;
    us -= shape * (w + m * curve);
    ss += m * m * curve + w * (v == 0 ? m : m - v * (x + v));
  }

  private void clear() {
    value = 0;
    u = 0;
    s = 0;
    uu = 0;
    us = 0;
    ss = 0;
  }
}

package org.vaneward.stats.recurrence;

/**
 * A stretch (end - width, end] of log age, and the law on it with density proportional to e^(shape
 * s): that of the log age of one event of a power-law process known to lie in the stretch.
 *
 * <p>Near a shape of 0 the closed forms lose all their digits, so series take over.
 */
final class LogAgeWindow {
  /** Below this, five terms of the series have 12 digits and more. */
  private static final double SERIES = 0.3;

  private LogAgeWindow() {}

  /**
   * Mean distance of the log age below the end of the stretch.
   *
   * @param width positive; infinite when watched from age 0, and the shape is then positive
   */
  static double meanBelowEnd(double shape, double width) {
    return width == Double.POSITIVE_INFINITY ? 1 / shape : width * meanShare(shape * width);
  }

  /** Variance of the log age. */
  static double variance(double shape, double width) {
    return width == Double.POSITIVE_INFINITY
        ? 1 / (shape * shape)
        : width * width * varianceShare(shape * width);
  }

  /** Log of the share of (0, end] that lies in the stretch, by mean count: 1 - e^(-shape width). */
  static double logShare(double shape, double width) {
    return Math.log(-Math.expm1(-shape * width));
  }

  /** 1 / x - 1 / (e^x - 1). */
  private static double meanShare(double x) {
    if (Math.abs(x) > SERIES) {
      return 1 / x - 1 / Math.expm1(x);
    }
    double y = x * x;
    return 0.5 - x * (1.0 / 12 - y * (1.0 / 720 - y * (1.0 / 30_240 - y / 1_209_600)));
  }

  /** 1 / x² - 1 / (4 sinh²(x / 2)). */
  private static double varianceShare(double x) {
    if (Math.abs(x) > SERIES) {
      double s = 2 * Math.sinh(x / 2);
      return 1 / (x * x) - 1 / (s * s);
    }
    double y = x * x;
    return 1.0 / 12 - y * (1.0 / 240 - y * (1.0 / 6_048 - y * (1.0 / 172_800 - y / 5_322_240)));
  }

  /** Log of t / whole for t up to whole, to full accuracy also near 0. */
  static double logShareOf(double t, double whole) {
    return t > whole / 2 ? Math.log1p((t - whole) / whole) : Math.log(t) - Math.log(whole);
  }
}

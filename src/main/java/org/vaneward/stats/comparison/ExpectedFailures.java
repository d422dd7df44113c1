package org.vaneward.stats.comparison;

import org.vaneward.stats.distribution.Weibull;

/**
 * Failures to be expected of a part: the cumulative hazard it went through while it was watched.
 * For parts of one true law the failures less these sum to 0 on average, whatever ended observation
 * (the martingale residual: T. R. Fleming and D. P. Harrington, Counting Processes and Survival
 * Analysis, 1991, ch. 4, from memory).
 */
public final class ExpectedFailures {
  private ExpectedFailures() {}

  /**
   * The number for one part. Of a failure in an interval it is the mean of the cumulative hazard at
   * the failure, given that it lies in the interval.
   *
   * @param life the law
   * @param entry age at which observation started, at least 0
   * @param lower age of failure or censoring, or the last age known not failed
   * @param upper equal to {@code lower} for a failure at that age, infinite without a failure,
   *     otherwise the age by which it had failed
   */
  public static double of(Weibull life, double entry, double lower, double upper) {
    double before = life.cumulativeHazard(entry);
    double from = life.cumulativeHazard(lower);
    if (upper == lower || upper == Double.POSITIVE_INFINITY) {
      return from - before;
    }
    double width = life.cumulativeHazard(upper) - from;
    return from - before + meanWithin(width);
  }

  /** Mean of a unit exponential variable given that it is below {@code width}. */
  private static double meanWithin(double width) {
    return width < 1e-4 ? width / 2 - width * width / 12 : 1 - width / Math.expm1(width);
  }
}

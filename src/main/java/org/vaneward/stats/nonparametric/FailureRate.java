package org.vaneward.stats.nonparametric;

import org.vaneward.stats.Estimate;
import org.vaneward.stats.numeric.Quantiles;

/**
 * Failures per unit of exposure with exact Poisson limits.
 *
 * <p>Lower limit: half the chi-square quantile with 2r degrees of freedom over the exposure, 0 when
 * nothing failed; upper limit: half the quantile with 2r + 2 (F. Garwood, Biometrika 28, 1936;
 * NIST/SEMATECH e-Handbook of Statistical Methods, 8.4.5.1).
 */
public final class FailureRate {
  private FailureRate() {}

  /**
   * The rate with two-sided limits.
   *
   * @param failures failures counted, at least 0
   * @param exposure total time watched, positive
   * @param confidence of the two-sided limits, between 0 and 1
   * @throws IllegalArgumentException when an argument is out of its range
   */
  public static Estimate of(double failures, double exposure, double confidence) {
    if (!(failures >= 0 && failures < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException("a number of failures is 0 or more, not " + failures);
    }
    if (!(exposure > 0 && exposure < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException("an exposure is positive and finite, not " + exposure);
    }
    double tail = (1 - confidence) / 2;
    double lower = failures > 0 ? Quantiles.chiSquare(tail, 2 * failures) / 2 : 0;
    double upper = Quantiles.chiSquare(1 - tail, 2 * failures + 2) / 2;
    return new Estimate(failures / exposure, lower / exposure, upper / exposure);
  }
}

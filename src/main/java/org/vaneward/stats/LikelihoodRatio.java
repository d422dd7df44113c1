package org.vaneward.stats;

import org.vaneward.stats.numeric.Quantiles;

/**
 * Likelihood-ratio test of a model inside a larger one: twice the difference of their maximised
 * log-likelihoods, to be compared with a chi-square variable (S. S. Wilks 1938, a large-sample
 * result that holds where the smaller model is not on the edge of the larger one).
 *
 * @param statistic twice the difference of the log-likelihoods, at least 0
 * @param degreesOfFreedom how many parameters the larger model has more, at least 1
 * @param p chance of a statistic at least as large when the smaller model holds
 */
public record LikelihoodRatio(double statistic, int degreesOfFreedom, double p) {
  /**
   * Checks.
   *
   * @throws IllegalArgumentException when a number is out of its range
   */
  public LikelihoodRatio {
    if (!(statistic >= 0 && statistic < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException(
          "a likelihood-ratio statistic is finite and not negative, as is " + statistic);
    }
    if (degreesOfFreedom < 1) {
      throw new IllegalArgumentException(
          "degrees of freedom are at least 1, not " + degreesOfFreedom);
    }
    if (!(p >= 0 && p <= 1)) {
      throw new IllegalArgumentException("a p-value is between 0 and 1, not " + p);
    }
  }

  /**
   * The test of two maximised log-likelihoods of the same lives. A difference below 0 can only be
   * rounding of two maxima that agree, and counts as 0.
   *
   * @param logLikelihoodFull of the larger model, finite
   * @param logLikelihoodNull of the model inside it, finite
   * @param degreesOfFreedom how many parameters the larger model has more, at least 1
   * @throws IllegalArgumentException when a number is out of its range
   */
  public static LikelihoodRatio of(
      double logLikelihoodFull, double logLikelihoodNull, int degreesOfFreedom) {
    double difference = logLikelihoodFull - logLikelihoodNull;
    if (!(Math.abs(difference) < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException(
          "log-likelihoods are finite, not " + logLikelihoodFull + " and " + logLikelihoodNull);
    }
    double statistic = Math.max(0, 2 * difference);
    return new LikelihoodRatio(
        statistic, degreesOfFreedom, Quantiles.chiSquareTail(statistic, degreesOfFreedom));
  }
}

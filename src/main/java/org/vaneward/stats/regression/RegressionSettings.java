package org.vaneward.stats.regression;

import org.vaneward.stats.fit.WeibullFit.LimitMethod;

/**
 * What to ask of a regression. Defaults: two-sided limits of confidence 0.90, symmetric by the
 * covariance (Wald), and a likelihood-ratio test of each term.
 *
 * @param confidence of two-sided limits, between 0 and 1
 * @param limits how the limits of coefficients, of life ratios and of the shape are made; those of
 *     hazard ratios are always by the covariance
 * @param termTests whether each term is tested by leaving it out, which takes a fit for each
 */
public record RegressionSettings(double confidence, LimitMethod limits, boolean termTests) {
  /**
   * Checks.
   *
   * @throws IllegalArgumentException when the confidence is not between 0 and 1 or limits are to be
   *     lifted, which is known for a single group only
   */
  public RegressionSettings {
    if (!(confidence > 0 && confidence < 1)) {
      throw new IllegalArgumentException("a confidence is between 0 and 1, not " + confidence);
    }
    if (limits == LimitMethod.LIFTED) {
      throw new IllegalArgumentException("lifted limits are of a single group, not a regression");
    }
  }

  /** The defaults. */
  public static RegressionSettings defaults() {
    return new RegressionSettings(0.90, LimitMethod.WALD, true);
  }

  /** A copy with limits of another confidence. */
  public RegressionSettings withConfidence(double other) {
    return new RegressionSettings(other, limits, termTests);
  }

  /** A copy with limits made another way. */
  public RegressionSettings withLimits(LimitMethod other) {
    return new RegressionSettings(confidence, other, termTests);
  }

  /** A copy with or without tests of the terms. */
  public RegressionSettings withTermTests(boolean other) {
    return new RegressionSettings(confidence, limits, other);
  }
}

package org.vaneward.stats.pooling;

import org.vaneward.stats.DrawLimits;
import org.vaneward.stats.Estimate;

/**
 * Mean and equal-tailed limits of draws.
 *
 * @param confidence of the limits, between 0 and 1
 */
public record Summary(double confidence) {
  /**
   * Checks.
   *
   * @throws IllegalArgumentException unless the confidence is between 0 and 1
   */
  public Summary {
    if (!(confidence > 0 && confidence < 1)) {
      throw new IllegalArgumentException("a confidence is between 0 and 1, not " + confidence);
    }
  }

  /**
   * Of numbers given by their logarithms: the mean is taken of the logarithms and turned back.
   *
   * @param logs at least one. Not modified.
   */
  public Estimate onLogScale(double[] logs) {
    Estimate e = plain(logs);
    return new Estimate(Math.exp(e.estimate()), Math.exp(e.lower()), Math.exp(e.upper()));
  }

  Estimate plain(double[] x) {
    return DrawLimits.ofMean(x, confidence);
  }
}

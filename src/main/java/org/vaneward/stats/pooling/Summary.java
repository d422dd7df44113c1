package org.vaneward.stats.pooling;

import java.util.Arrays;
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
    double[] sorted = x.clone();
    Arrays.sort(sorted);
    double mean = Arrays.stream(sorted).average().orElse(Double.NaN);
    double tail = (1 - confidence) / 2;
    return new Estimate(mean, quantile(sorted, tail), quantile(sorted, 1 - tail));
  }

  /** Straight lines between the order statistics, the first at 0 and the last at 1. */
  static double quantile(double[] sorted, double p) {
    double at = p * (sorted.length - 1);
    int below = (int) at;
    int above = Math.min(below + 1, sorted.length - 1);
    return sorted[below] + (at - below) * (sorted[above] - sorted[below]);
  }
}

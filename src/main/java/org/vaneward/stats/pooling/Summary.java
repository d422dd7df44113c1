package org.vaneward.stats.pooling;

import java.util.Arrays;
import org.vaneward.stats.Estimate;

/** Mean and equal-tailed limits of draws. */
record Summary(double confidence) {
  /** Of numbers given by their logarithms: the mean is taken of the logarithms. */
  Estimate onLogScale(double[] logs) {
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
    int below = Math.min((int) at, sorted.length - 2);
    return sorted[below] + (at - below) * (sorted[below + 1] - sorted[below]);
  }
}

package org.vaneward.stats;

import java.util.Arrays;

/** Equal-tailed limits of a quantity known by its value in each draw. */
public final class DrawLimits {
  private DrawLimits() {}

  /**
   * An estimate with limits.
   *
   * @param estimate what to give as the estimate
   * @param values the quantity in each draw, at least one; infinite ones count at the end. Not
   *     modified.
   * @param confidence of the limits, between 0 and 1
   */
  public static Estimate of(double estimate, double[] values, double confidence) {
    double[] sorted = values.clone();
    Arrays.sort(sorted);
    double tail = (1 - confidence) / 2;
    return new Estimate(
        estimate, quantileOfSorted(sorted, tail), quantileOfSorted(sorted, 1 - tail));
  }

  /** The mean with limits, as {@link #of(double, double[], double)}. */
  public static Estimate ofMean(double[] values, double confidence) {
    return of(mean(values), values, confidence);
  }

  /** The mean over the draws. */
  public static double mean(double[] values) {
    return Arrays.stream(values).sum() / values.length;
  }

  /** The value that the share {@code p} of the draws does not exceed: {@link #quantileOfSorted}. */
  public static double quantile(double[] values, double p) {
    double[] sorted = values.clone();
    Arrays.sort(sorted);
    return quantileOfSorted(sorted, p);
  }

  /**
   * Of values in rising order: straight lines between the order statistics, the first at 0 and the
   * last at 1 (definition 7 of Hyndman and Fan 1996, The American Statistician 50, 361-365).
   */
  public static double quantileOfSorted(double[] sorted, double p) {
    double place = p * (sorted.length - 1);
    int below = (int) place;
    int above = Math.min(below + 1, sorted.length - 1);
    double share = place - below;
    if (share == 0 || sorted[below] == sorted[above]) {
      return sorted[below];
    }
    return sorted[below] + share * (sorted[above] - sorted[below]);
  }
}

package org.vaneward.policy;

import java.util.Arrays;
import org.vaneward.stats.Estimate;

/** Equal-tailed limits of a quantity known by its value in each draw. */
public final class DrawLimits {
  private DrawLimits() {}

  /**
   * An estimate with limits.
   *
   * @param estimate what to give as the estimate
   * @param values the quantity in each draw; infinite ones count at the end
   * @param confidence of the limits, between 0 and 1
   */
  public static Estimate of(double estimate, double[] values, double confidence) {
    double tail = (1 - confidence) / 2;
    return new Estimate(estimate, quantile(values, tail), quantile(values, 1 - tail));
  }

  /** The value that the share {@code p} of the draws does not exceed, between order statistics. */
  public static double quantile(double[] values, double p) {
    double[] sorted = values.clone();
    Arrays.sort(sorted);
    double place = p * (sorted.length - 1);
    int below = (int) Math.floor(place);
    int above = Math.min(below + 1, sorted.length - 1);
    double share = place - below;
    if (share == 0 || sorted[below] == sorted[above]) {
      return sorted[below];
    }
    return sorted[below] + share * (sorted[above] - sorted[below]);
  }
}

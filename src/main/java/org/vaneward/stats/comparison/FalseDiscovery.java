package org.vaneward.stats.comparison;

import org.vaneward.stats.numeric.SortOrder;

/**
 * P-values adjusted so that a list cut at q holds, on average, no more than the share q of false
 * finds, for tests that are independent or go up together (Y. Benjamini and Y. Hochberg, Journal of
 * the Royal Statistical Society B 57, 1995).
 */
public final class FalseDiscovery {
  private FalseDiscovery() {}

  /**
   * Adjusted p-values of tests that do not weigh alike: each p over its weight, the weights scaled
   * to a mean of 1, then as below. Weights chosen without a look at the p-values leave the share of
   * false finds what it is (C. R. Genovese, K. Roeder and L. Wasserman, Biometrika 93, 2006). So
   * questions put to a hundred pumps need not drown one that is put to three crews.
   *
   * @param p between 0 and 1. Not modified.
   * @param weight positive, one for each. Not modified.
   * @return in the order given
   * @throws IllegalArgumentException when a number is out of its range or one is missing
   */
  public static double[] weighted(double[] p, double[] weight) {
    if (p.length != weight.length) {
      throw new IllegalArgumentException(
          "there is a weight for each p-value, not " + weight.length + " for " + p.length);
    }
    double sum = 0;
    for (double one : weight) {
      if (!(one > 0 && one < Double.POSITIVE_INFINITY)) {
        throw new IllegalArgumentException("a weight is positive, not " + one);
      }
      sum += one;
    }
    double[] over = new double[p.length];
    for (int i = 0; i < p.length; i++) {
      if (!(p[i] >= 0 && p[i] <= 1)) {
        throw new IllegalArgumentException("a p-value is between 0 and 1, not " + p[i]);
      }
      over[i] = p[i] * sum / (p.length * weight[i]);
    }
    return stepUp(over);
  }

  /**
   * Adjusted p-values: the least q at which each test is on the list. For the test with the i-th
   * least p of m it is the least of p_(j) m / j over j from i on, and at most 1.
   *
   * @param p between 0 and 1. Not modified.
   * @return in the order given
   * @throws IllegalArgumentException when one is not between 0 and 1
   */
  public static double[] adjusted(double... p) {
    for (double one : p) {
      if (!(one >= 0 && one <= 1)) {
        throw new IllegalArgumentException("a p-value is between 0 and 1, not " + one);
      }
    }
    return stepUp(p);
  }

  private static double[] stepUp(double[] p) {
    int[] order = SortOrder.ascending(p);
    double[] adjusted = new double[p.length];
    double least = 1;
    for (int i = p.length - 1; i >= 0; i--) {
      least = Math.min(least, p[order[i]] * p.length / (i + 1));
      adjusted[order[i]] = least;
    }
    return adjusted;
  }
}

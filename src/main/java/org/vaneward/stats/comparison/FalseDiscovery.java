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

package org.vaneward.stats.nonparametric;

import org.vaneward.stats.numeric.Quantiles;

/** Shares failed at which to plot the i-th of n failures, also for ranks that are not whole. */
public final class PlottingPositions {
  private PlottingPositions() {}

  /**
   * Exact median rank: the median of beta(rank, n - rank + 1). The true share failed at the i-th of
   * n failures is as likely above it as below it.
   *
   * @param rank above 0 and below n + 1
   * @param n number of lives
   * @throws IllegalArgumentException when the rank is out of its range
   */
  public static double medianRank(double rank, double n) {
    return rank(0.5, rank, n);
  }

  /**
   * Rank at a share other than one half: 0.05 and 0.95 give the band of 90% about a plotted point.
   *
   * @param p between 0 and 1
   * @param rank above 0 and below n + 1
   * @param n number of lives
   * @throws IllegalArgumentException when an argument is out of its range
   */
  public static double rank(double p, double rank, double n) {
    check(rank, n);
    return Quantiles.beta(p, rank, n - rank + 1);
  }

  /**
   * Benard's approximation of the median rank, (rank - 0.3) / (n + 0.4), good to about 0.005 at the
   * ends of small samples (A. Benard and E. C. Bos-Levenbach, Statistica Neerlandica 7, 1953; from
   * memory).
   *
   * @param rank above 0 and below n + 1
   * @param n number of lives
   * @throws IllegalArgumentException when the rank is out of its range
   */
  public static double benard(double rank, double n) {
    check(rank, n);
    return (rank - 0.3) / (n + 0.4);
  }

  private static void check(double rank, double n) {
    if (!(rank > 0 && rank < n + 1 && n < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException(
          "a rank is above 0 and below " + (n + 1) + ", not " + rank);
    }
  }
}

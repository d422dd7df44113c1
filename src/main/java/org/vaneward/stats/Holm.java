package org.vaneward.stats;

import java.util.Arrays;
import java.util.Comparator;

/**
 * Holm's adjustment of p-values for looking at several at once: held against a level, the adjusted
 * values keep the chance of any false finding at or below it, whatever the tests' dependence (S.
 * Holm, A simple sequentially rejective multiple test procedure, Scandinavian Journal of Statistics
 * 6, 1979, 65–70).
 */
public final class Holm {
  private Holm() {}

  /**
   * The adjusted p-values, in the order of those given: the smallest of m times m, the next times m
   * - 1, and so on, none below the one before it and none above 1.
   *
   * @param p p-values, each between 0 and 1. Not modified.
   * @throws IllegalArgumentException when one is not between 0 and 1
   */
  public static double[] adjust(double... p) {
    Integer[] order = new Integer[p.length];
    for (int i = 0; i < p.length; i++) {
      if (!(p[i] >= 0 && p[i] <= 1)) {
        throw new IllegalArgumentException("a p-value is between 0 and 1, not " + p[i]);
      }
      order[i] = i;
    }
    Arrays.sort(order, Comparator.comparingDouble(i -> p[i]));
    double[] adjusted = new double[p.length];
    double least = 0;
    for (int rank = 0; rank < p.length; rank++) {
      least = Math.max(least, Math.min(1, (p.length - rank) * p[order[rank]]));
      adjusted[order[rank]] = least;
    }
    return adjusted;
  }
}

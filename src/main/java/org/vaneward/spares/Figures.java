package org.vaneward.spares;

import java.util.Arrays;

/**
 * What a number may come to: its mean over the futures, and levels it stays at or below in a share
 * of them.
 *
 * @param mean the mean
 * @param p10 level not exceeded in 10% of the futures
 * @param p50 in half of them
 * @param p80 in 80%
 * @param p90 in 90%
 * @param p95 in 95%
 */
public record Figures(double mean, double p10, double p50, double p80, double p90, double p95) {

  /** Of one value for each future, at least one. */
  public static Figures of(double[] values) {
    return sorting(values.clone());
  }

  /** The same; the array is sorted. */
  static Figures sorting(double[] values) {
    double total = 0;
    for (double value : values) {
      total += value;
    }
    sort(values);
    return new Figures(
        total / values.length,
        at(values, 0.1),
        at(values, 0.5),
        at(values, 0.8),
        at(values, 0.9),
        at(values, 0.95));
  }

  private static void sort(double[] values) {
    double least = Double.POSITIVE_INFINITY;
    double most = Double.NEGATIVE_INFINITY;
    boolean whole = true;
    for (double value : values) {
      least = Math.min(least, value);
      most = Math.max(most, value);
      whole &= value == Math.rint(value);
    }
    if (whole && most - least < values.length) {
      sortWhole(values, least, (int) (most - least) + 1);
    } else {
      Arrays.sort(values);
    }
  }

  /** Whole numbers close together, as counts are, by how often each comes. */
  private static void sortWhole(double[] values, double least, int kinds) {
    int[] times = new int[kinds];
    for (double value : values) {
      times[(int) (value - least)]++;
    }
    int at = 0;
    for (int k = 0; k < kinds; k++) {
      Arrays.fill(values, at, at + times[k], least + k);
      at += times[k];
    }
  }

  /** The same levels with a mean that is known better. */
  public Figures withMean(double better) {
    return new Figures(better, p10, p50, p80, p90, p95);
  }

  /** The least value that at least the share {@code p} does not exceed. */
  private static double at(double[] sorted, double p) {
    int rank = (int) Math.ceil(p * sorted.length - 1e-9);
    return sorted[Math.max(1, rank) - 1];
  }
}

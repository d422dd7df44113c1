package org.vaneward.stats.nonparametric;

import java.util.Arrays;

/** Sorts long numbers; many of them digit by digit, which takes no comparisons. */
final class AgeSort {
  /** Numbers from which the counts of digits are worth their while. */
  private static final int MANY = 4096;

  private static final int BITS = 11;
  private static final int VALUES = 1 << BITS;
  private static final int DIGITS = (Long.SIZE + BITS - 1) / BITS;

  private AgeSort() {}

  /**
   * The numbers in order.
   *
   * @param keys used as room to work in, and perhaps returned
   */
  static long[] sorted(long[] keys) {
    if (keys.length < MANY) {
      Arrays.sort(keys);
      return keys;
    }
    int[][] counts = counts(keys);
    long[] from = keys;
    long[] to = new long[keys.length];
    for (int d = 0; d < DIGITS; d++) {
      int[] start = counts[d];
      if (start[digit(keys[0], d)] < keys.length) {
        sum(start);
        for (long key : from) {
          to[start[digit(key, d)]++] = key;
        }
        long[] last = from;
        from = to;
        to = last;
      }
    }
    return from;
  }

  /** How many numbers have each value of each digit. */
  private static int[][] counts(long[] keys) {
    int[][] counts = new int[DIGITS][VALUES];
    for (long key : keys) {
      for (int d = 0; d < DIGITS; d++) {
        counts[d][digit(key, d)]++;
      }
    }
    return counts;
  }

  /** Turns counts into the sums of those before. */
  private static void sum(int[] counts) {
    int before = 0;
    for (int i = 0; i < counts.length; i++) {
      int count = counts[i];
      counts[i] = before;
      before += count;
    }
  }

  /** A digit, the last being 0; negative numbers come before the others. */
  private static int digit(long key, int d) {
    return (int) ((key ^ Long.MIN_VALUE) >>> (d * BITS)) & (VALUES - 1);
  }
}

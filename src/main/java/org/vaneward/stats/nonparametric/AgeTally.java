package org.vaneward.stats.nonparametric;

import java.util.Arrays;

/**
 * Counts at distinct ages, in order; at one age first the lives that failed, then those suspended.
 *
 * <p>An age and what happened are one long number, whose order is that of the ages: the bits of a
 * positive double are in its order, and the last bit tells a suspension. Such numbers sort several
 * times faster than objects or indices.
 */
final class AgeTally {
  private final long[] keys;
  private final double[] counts;
  private final double[] onward;

  private AgeTally(long[] keys, double[] counts) {
    this.keys = keys;
    this.counts = counts;
    onward = new double[keys.length + 1];
    for (int i = keys.length - 1; i >= 0; i--) {
      onward[i] = onward[i + 1] + counts[i];
    }
  }

  int size() {
    return keys.length;
  }

  double age(int i) {
    return Double.longBitsToDouble((keys[i] ^ Long.MIN_VALUE) >>> 1);
  }

  boolean failed(int i) {
    return (keys[i] & 1) == 0;
  }

  double count(int i) {
    return counts[i];
  }

  /** Count at entry {@code i} and all after it; also for the one after the last. */
  double onward(int i) {
    return onward[i];
  }

  /** Collects ages, then sorts them. */
  static final class Builder {
    private final long[] keys;

    /** Empty when all are 1. */
    private final double[] counts;

    private int size;

    /**
     * A builder.
     *
     * @param capacity most ages that may come
     * @param ones whether all counts will be 1
     */
    Builder(int capacity, boolean ones) {
      keys = new long[capacity];
      counts = new double[ones ? 0 : capacity];
    }

    /**
     * Adds lives.
     *
     * @param age not negative
     */
    void add(double age, boolean failed, double count) {
      keys[size] = (Double.doubleToRawLongBits(age) << 1 | (failed ? 0 : 1)) ^ Long.MIN_VALUE;
      if (counts.length > 0) {
        counts[size] = count;
      }
      size++;
    }

    AgeTally build() {
      boolean inPlace = counts.length == 0 && size == keys.length;
      long[] sorted = AgeSort.sorted(inPlace ? keys : Arrays.copyOf(keys, size));
      double[] rows = new double[size];
      int distinct = 0;
      for (int i = 0; i < size; i++) {
        if (distinct == 0 || sorted[i] != sorted[distinct - 1]) {
          sorted[distinct++] = sorted[i];
        }
        rows[distinct - 1]++;
      }
      long[] ages = Arrays.copyOf(sorted, distinct);
      return new AgeTally(ages, counts.length == 0 ? rows : sums(ages));
    }

    private double[] sums(long[] ages) {
      double[] sums = new double[ages.length];
      for (int i = 0; i < size; i++) {
        sums[Arrays.binarySearch(ages, keys[i])] += counts[i];
      }
      return sums;
    }
  }
}

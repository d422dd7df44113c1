package org.vaneward.stats.mixture;

import java.util.Arrays;
import java.util.Comparator;
import org.vaneward.stats.Observations;

/**
 * Lives in one order, equal rows made one, ages as logs about a centre: neither the order of the
 * lives nor how their counts are written can change a fit.
 */
final class Rows {
  final int size;

  /** Log entry age; negative infinity for 0. */
  final double[] entry;

  /** Log of the age of failure or of the end of observation; the interval's start. */
  final double[] lower;

  /** Log of the interval's end; equal to lower when exact, infinite when right-censored. */
  final double[] upper;

  /** Log of upper over lower, with all its digits. */
  final double[] width;

  final double[] count;
  final double failures;

  /** What to add to logs of ages here to have the log ages of the lives. */
  final double centre;

  /** Sum of the log ages of exact failures, about the centre, and the counts of them. */
  final double exactLogAges;

  final double exact;

  private Rows(Observations lives, int[] order) {
    int n = order.length;
    entry = new double[n];
    lower = new double[n];
    upper = new double[n];
    width = new double[n];
    count = new double[n];
    centre = centre(lives);
    int last = -1;
    double sum = 0;
    double sumExact = 0;
    double failed = 0;
    for (int k = 0; k < n; k++) {
      int i = order[k];
      if (last >= 0 && same(lives, order[k - 1], i)) {
        count[last] += lives.count(i);
      } else {
        last++;
        entry[last] = Math.log(lives.entry(i)) - centre;
        lower[last] = Math.log(lives.lower(i)) - centre;
        upper[last] = Math.log(lives.upper(i)) - centre;
        width[last] = Math.log1p((lives.upper(i) - lives.lower(i)) / lives.lower(i));
        count[last] = lives.count(i);
      }
      failed += lives.isRightCensored(i) ? 0 : lives.count(i);
      if (lives.isExact(i)) {
        sumExact += lives.count(i);
        sum += lives.count(i) * lower[last];
      }
    }
    size = last + 1;
    failures = failed;
    exact = sumExact;
    exactLogAges = sum;
  }

  static Rows of(Observations lives) {
    return new Rows(lives, order(lives));
  }

  private static int[] order(Observations lives) {
    Integer[] order = new Integer[lives.size()];
    Arrays.setAll(order, i -> i);
    Arrays.sort(
        order,
        Comparator.<Integer>comparingDouble(lives::lower)
            .thenComparingDouble(lives::upper)
            .thenComparingDouble(lives::entry)
            .thenComparingDouble(lives::count));
    return Arrays.stream(order).mapToInt(i -> i).toArray();
  }

  /** The same lives in the one order. */
  static Observations sorted(Observations lives) {
    Observations.Builder sorted = Observations.builder();
    for (int i : order(lives)) {
      sorted.add(lives.get(i));
    }
    return sorted.build();
  }

  private static boolean same(Observations lives, int i, int j) {
    return lives.lower(i) == lives.lower(j)
        && lives.upper(i) == lives.upper(j)
        && lives.entry(i) == lives.entry(j);
  }

  /** Log of the greatest finite age. */
  private static double centre(Observations lives) {
    double greatest = 0;
    for (int i = 0; i < lives.size(); i++) {
      greatest = Math.max(greatest, lives.lower(i));
      greatest = lives.isRightCensored(i) ? greatest : Math.max(greatest, lives.upper(i));
    }
    return greatest > 0 ? Math.log(greatest) : 0;
  }

  boolean isExact(int i) {
    return lower[i] == upper[i];
  }

  boolean isRightCensored(int i) {
    return upper[i] == Double.POSITIVE_INFINITY;
  }

  /** Log age that stands for a failure: the middle of its interval in log age. */
  double failedAt(int i) {
    if (isExact(i)) {
      return lower[i];
    }
    return lower[i] == Double.NEGATIVE_INFINITY ? upper[i] - 0.7 : (lower[i] + upper[i]) / 2;
  }
}

package org.vaneward.stats.regression;

import java.util.Arrays;
import org.vaneward.stats.Observations;

/** Failures known to an interval, as columns. An interval from age 0 starts at minus infinity. */
final class Intervals {
  final int size;
  final int[] cell;
  final double[] from;
  final double[] to;

  /** Log of end over start, which their difference would not give for a narrow interval. */
  final double[] width;

  final double[] count;

  Intervals(Observations lives, int[] cellOf) {
    int n = 0;
    for (int i = 0; i < cellOf.length; i++) {
      if (isInterval(lives, i)) {
        n++;
      }
    }
    size = n;
    cell = new int[n];
    from = new double[n];
    to = new double[n];
    width = new double[n];
    count = new double[n];
    int k = 0;
    for (int i = 0; k < n; i++) {
      if (isInterval(lives, i)) {
        double lower = lives.lower(i);
        cell[k] = cellOf[i];
        from[k] = Math.log(lower);
        to[k] = Math.log(lives.upper(i));
        width[k] = Math.log1p((lives.upper(i) - lower) / lower);
        count[k] = lives.count(i);
        k++;
      }
    }
  }

  private static boolean isInterval(Observations lives, int i) {
    return !lives.isExact(i) && !lives.isRightCensored(i);
  }

  double failures() {
    return Arrays.stream(count).sum();
  }
}

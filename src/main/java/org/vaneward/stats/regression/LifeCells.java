package org.vaneward.stats.regression;

import org.vaneward.stats.Observations;

/** The lives by cell: what every regression on the same cells shares. */
final class LifeCells {
  final int cells;
  final Exposure exposure;
  final Intervals intervals;
  final double lives;
  final double failures;
  final double exactFailures;

  /** Summed log ages of exact failures. */
  final double exactLogAges;

  /** Log age that all others are taken from: about the middle of the ages at failure. */
  final double centre;

  /** Greatest distance between two log ages. */
  final double spread;

  /** Failures of each cell, of all kinds. */
  final double[] cellFailures;

  LifeCells(Observations observed, int[] cellOf, int cells) {
    this.cells = cells;
    lives = observed.lives();
    exposure = new Exposure(observed, cellOf, cells);
    intervals = new Intervals(observed, cellOf);
    cellFailures = new double[cells];
    double exact = 0;
    double sum = 0;
    for (int c = 0; c < cells; c++) {
      cellFailures[c] = exposure.exact(c);
      exact += exposure.exact(c);
      if (exposure.exact(c) > 0) {
        sum += exposure.exactSum(c) + exposure.exact(c) * exposure.top(c);
      }
    }
    exactFailures = exact;
    exactLogAges = sum;
    double ends = sum;
    for (int i = 0; i < intervals.size; i++) {
      cellFailures[intervals.cell[i]] += intervals.count[i];
      ends += intervals.count[i] * intervals.to[i];
    }
    failures = exact + intervals.failures();
    centre = failures > 0 ? ends / failures : 0;
    spread = spread(observed);
  }

  private static double spread(Observations observed) {
    double least = Double.POSITIVE_INFINITY;
    double most = 0;
    for (int i = 0; i < observed.size(); i++) {
      double upper = observed.upper(i);
      most = Math.max(most, upper < Double.POSITIVE_INFINITY ? upper : observed.lower(i));
      least = Math.min(least, observed.lower(i) > 0 ? observed.lower(i) : upper);
      if (observed.entry(i) > 0) {
        least = Math.min(least, observed.entry(i));
      }
    }
    return most > least ? Math.log(most) - Math.log(least) : 0;
  }

  boolean wasSeenToRun(int cell) {
    return exposure.top(cell) > Double.NEGATIVE_INFINITY;
  }
}

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
    spread = spread();
  }

  private double spread() {
    double least = exposure.least();
    double most = Double.NEGATIVE_INFINITY;
    for (int c = 0; c < cells; c++) {
      most = Math.max(most, exposure.top(c));
    }
    for (int i = 0; i < intervals.size; i++) {
      most = Math.max(most, intervals.to[i]);
      boolean started = intervals.from[i] > Double.NEGATIVE_INFINITY;
      least = Math.min(least, started ? intervals.from[i] : intervals.to[i]);
    }
    return most > least ? most - least : 0;
  }

  boolean wasSeenToRun(int cell) {
    return exposure.top(cell) > Double.NEGATIVE_INFINITY;
  }
}

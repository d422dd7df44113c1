package org.vaneward.stats.bootstrap;

import org.vaneward.stats.Observation;
import org.vaneward.stats.Observations;

/** Rows of lives with other counts. */
final class Rows {
  private Rows() {}

  /** The lives without one of those row {@code left} stands for. */
  static Observations without(Observations lives, int left) {
    Observations.Builder rest = Observations.builder();
    for (int i = 0; i < lives.size(); i++) {
      double count = i == left ? lives.count(i) - 1 : lives.count(i);
      if (count > 0) {
        add(lives, i, count, rest);
      }
    }
    return rest.build();
  }

  /** Adds row {@code row} with another count. */
  static void add(Observations lives, int row, double count, Observations.Builder sample) {
    double entry = lives.entry(row);
    if (lives.isExact(row)) {
      sample.addFailure(entry, lives.upper(row), count);
    } else if (lives.isRightCensored(row)) {
      sample.addRightCensored(entry, lives.lower(row), count);
    } else {
      sample.add(new Observation.Interval(entry, lives.lower(row), lives.upper(row), count));
    }
  }
}

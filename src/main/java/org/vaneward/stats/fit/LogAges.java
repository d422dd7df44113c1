package org.vaneward.stats.fit;

import java.util.Arrays;
import org.vaneward.stats.Observations;

/** Lives sorted by kind, as log ages counted from the mean log age of the failures. */
final class LogAges {
  final Observations lives;
  final double centre;
  final Rows lateFailures = new Rows();
  final Rows survivors = new Rows();
  final Rows intervals = new Rows();
  double exact;
  double sum;
  double squares;
  double logAges;
  double lowest = Double.POSITIVE_INFINITY;
  double highest = Double.NEGATIVE_INFINITY;
  double greatestRun;
  double leastExact = Double.POSITIVE_INFINITY;

  static LogAges of(Observations lives) {
    LogAges ages = new LogAges(lives);
    for (int i = 0; i < lives.size(); i++) {
      ages.add(i);
    }
    return ages;
  }

  private LogAges(Observations lives) {
    this.lives = lives;
    double total = 0;
    double weights = 0;
    for (int i = 0; i < lives.size(); i++) {
      if (!lives.isRightCensored(i)) {
        double upper = Math.log(lives.upper(i));
        double log = lives.lower(i) > 0 ? (Math.log(lives.lower(i)) + upper) / 2 : upper;
        total += lives.count(i) * log;
        weights += lives.count(i);
      }
    }
    centre = weights > 0 ? total / weights : 0;
  }

  private void add(int i) {
    double lower = lives.lower(i);
    double x = centred(lower);
    double entry = centred(lives.entry(i));
    double n = lives.count(i);
    if (lower > lives.entry(i)) {
      greatestRun = Math.max(greatestRun, lower);
    }
    if (lives.isRightCensored(i)) {
      survivors.add(x, 0, 0, entry, n);
    } else if (!lives.isExact(i)) {
      double width = Math.log1p((lives.upper(i) - lower) / lower);
      intervals.add(x, centred(lives.upper(i)), width, entry, n);
    } else {
      leastExact = Math.min(leastExact, lower);
      logAges += n * Math.log(lower);
      addExact(x, entry, n);
    }
  }

  private void addExact(double x, double entry, double n) {
    if (entry > Double.NEGATIVE_INFINITY) {
      lateFailures.add(x, 0, 0, entry, n);
      return;
    }
    exact += n;
    sum += n * x;
    squares += n * x * x;
  }

  /** Log age from the centre; negative infinity at age 0. */
  private double centred(double age) {
    if (!(age > 0)) {
      return Double.NEGATIVE_INFINITY;
    }
    double log = Math.log(age);
    lowest = Math.min(lowest, log);
    highest = Math.max(highest, log);
    return log - centre;
  }

  /** Rows of one kind: centred log ages. */
  static final class Rows {
    double[] from = new double[8];
    double[] to = new double[8];
    double[] width = new double[8];
    double[] entry = new double[8];
    double[] count = new double[8];
    int size;
    boolean late;

    void add(double from, double to, double width, double entry, double count) {
      if (size == this.from.length) {
        resize(2 * size);
      }
      this.from[size] = from;
      this.to[size] = to;
      this.width[size] = width;
      this.entry[size] = entry;
      this.count[size] = count;
      late |= entry > Double.NEGATIVE_INFINITY;
      size++;
    }

    private void resize(int room) {
      from = Arrays.copyOf(from, room);
      to = Arrays.copyOf(to, room);
      width = Arrays.copyOf(width, room);
      entry = Arrays.copyOf(entry, room);
      count = Arrays.copyOf(count, room);
    }

    Rows trimmed() {
      resize(size);
      return this;
    }
  }
}

package org.vaneward.stats.fit;

import org.vaneward.stats.Observations;
import org.vaneward.stats.numeric.Chunks;

/**
 * The lives of one group, by kind, as log ages less the log of the greatest age to which a life was
 * seen to run (the centre), with the sums over them that no parameter changes.
 */
final class LifeColumns {
  final double centre;

  /** Greatest distance between two log ages. */
  final double spread;

  /** Lives observed from age 0: how far they ran. */
  final double[] end;

  final double[] endCount;

  /** Lives that came under observation later: how far they ran, and from where. */
  final double[] lateEnd;

  final double[] lateEntry;
  final double[] lateCount;

  /** Interval failures; an interval from age 0 starts at negative infinity. */
  final double[] from;

  final double[] to;

  /** Log of end over start, which their difference would not give for a narrow interval. */
  final double[] width;

  final double[] intervalCount;

  /** All kinds. */
  final double lives;

  final double intervalFailures;

  /** Failures at known ages: how many, the sums of their log ages, centred and not, and squares. */
  final double exact;

  final double exactSum;
  final double exactSquares;
  final double exactLogAges;

  /** 1 when all rows were taken, 2 when every second was, and so on. */
  final int every;

  private final Observations rows;

  /**
   * The first row and each one so many rows on.
   *
   * @param every 1 for all rows
   */
  LifeColumns(Observations rows, int every) {
    this.rows = rows;
    this.every = every;
    int n = (rows.size() + every - 1) / every;
    Part[] parts = new Part[Chunks.count(n)];
    Chunks.run(n, (chunk, first, last) -> parts[chunk] = tally(first, last));
    Part all = new Part();
    for (Part part : parts) {
      all.join(part);
    }
    centre = all.ran > 0 ? Math.log(all.ran) : 0;
    spread = all.greatest > all.least ? Math.log(all.greatest) - Math.log(all.least) : 0;
    end = new double[all.early];
    endCount = new double[all.early];
    lateEnd = new double[all.late];
    lateEntry = new double[all.late];
    lateCount = new double[all.late];
    from = new double[all.intervals];
    to = new double[all.intervals];
    width = new double[all.intervals];
    intervalCount = new double[all.intervals];
    Sums[] sums = new Sums[parts.length];
    Chunks.run(n, (chunk, first, last) -> sums[chunk] = fill(first, last, parts[chunk]));
    Sums sum = new Sums();
    for (Sums part : sums) {
      sum.add(part);
    }
    lives = sum.lives;
    intervalFailures = sum.intervalFailures;
    exact = sum.exact;
    exactSum = sum.exactSum;
    exactSquares = sum.exactSquares;
    exactLogAges = sum.exactLogAges;
  }

  /** How many rows of each kind a chunk has, and its extreme ages. */
  private static final class Part {
    /** Rows of each kind; once joined, those of the chunks before. */
    private int early;

    private int late;
    private int intervals;
    private double ran;
    private double least = Double.POSITIVE_INFINITY;
    private double greatest;

    void age(double age) {
      least = age > 0 && age < least ? age : least;
      greatest = age > greatest ? age : greatest;
    }

    /** Adds the next chunk's part, and leaves there where its rows begin. */
    void join(Part next) {
      ran = Math.max(ran, next.ran);
      least = Math.min(least, next.least);
      greatest = Math.max(greatest, next.greatest);
      int earlyBefore = early;
      int lateBefore = late;
      int intervalsBefore = intervals;
      early += next.early;
      late += next.late;
      intervals += next.intervals;
      next.early = earlyBefore;
      next.late = lateBefore;
      next.intervals = intervalsBefore;
    }
  }

  private Part tally(int first, int last) {
    Part part = new Part();
    for (int j = first; j < last; j++) {
      int i = j * every;
      double ran = rows.lower(i);
      double entry = rows.entry(i);
      double upper = rows.upper(i);
      if (ran > entry) {
        part.ran = Math.max(part.ran, ran);
        part.age(ran);
        if (entry > 0) {
          part.age(entry);
          part.late++;
        } else {
          part.early++;
        }
      }
      if (ran < upper && upper < Double.POSITIVE_INFINITY) {
        part.age(ran);
        part.age(upper);
        part.intervals++;
      }
    }
    return part;
  }

  /** Sums over a chunk. */
  private static final class Sums {
    private double lives;
    private double intervalFailures;
    private double exact;
    private double exactSum;
    private double exactSquares;
    private double exactLogAges;

    void add(Sums other) {
      lives += other.lives;
      intervalFailures += other.intervalFailures;
      exact += other.exact;
      exactSum += other.exactSum;
      exactSquares += other.exactSquares;
      exactLogAges += other.exactLogAges;
    }

    void exact(double logAge, double centred, double count) {
      exact += count;
      exactSum += count * centred;
      exactSquares += count * centred * centred;
      exactLogAges += count * logAge;
    }
  }

  private Sums fill(int first, int last, Part start) {
    int early = start.early;
    int late = start.late;
    int interval = start.intervals;
    Sums sums = new Sums();
    for (int j = first; j < last; j++) {
      int i = j * every;
      double ran = rows.lower(i);
      double entry = rows.entry(i);
      double upper = rows.upper(i);
      double count = rows.count(i);
      double logRan = Math.log(ran);
      sums.lives += count;
      if (ran == upper) {
        sums.exact(logRan, logRan - centre, count);
      } else if (upper < Double.POSITIVE_INFINITY) {
        sums.intervalFailures += count;
        from[interval] = logRan - centre;
        to[interval] = Math.log(upper) - centre;
        width[interval] = Math.log1p((upper - ran) / ran);
        intervalCount[interval++] = count;
      }
      if (ran > entry) {
        if (entry > 0) {
          lateEnd[late] = logRan - centre;
          lateEntry[late] = Math.log(entry) - centre;
          lateCount[late++] = count;
        } else {
          end[early] = logRan - centre;
          endCount[early++] = count;
        }
      }
    }
    return sums;
  }
}

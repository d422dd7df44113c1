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
    Sums sum = new Sums(0, 0, 0, 0, 0);
    for (Sums part : sums) {
      sum = sum.plus(part);
    }
    lives = sum.lives;
    intervalFailures = sum.intervalFailures;
    exact = sum.exact;
    exactSum = sum.exactSum;
    exactSquares = sum.exactSquares;
    exactLogAges = exactSum + exact * centre;
  }

  /** How many rows of each kind a chunk has, and its extreme ages. */
  private static final class Part {
    /** Rows of each kind; once joined, those of the chunks before. */
    private int early;

    private int late;
    private int intervals;

    /** Greatest age to which a life was seen to run. */
    private double ran;

    private double least = Double.POSITIVE_INFINITY;
    private double greatest;

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
    int run = 0;
    double longest = 0;
    double least = Double.POSITIVE_INFINITY;
    for (int j = first; j < last; j++) {
      int i = j * every;
      double ran = rows.lower(i);
      double entry = rows.entry(i);
      least = ran < least && ran > 0 ? ran : least;
      if (ran > entry) {
        run++;
        longest = ran > longest ? ran : longest;
        if (entry > 0) {
          least = Math.min(least, entry);
          part.late++;
        }
      }
      if (isInterval(i)) {
        least = Math.min(least, rows.upper(i));
        part.greatest = Math.max(part.greatest, rows.upper(i));
        part.intervals++;
      }
    }
    part.early = run - part.late;
    part.ran = longest;
    part.least = least;
    part.greatest = Math.max(part.greatest, longest);
    return part;
  }

  /** One comparison, nearly always false: whether exact or censored no processor foresees. */
  private boolean isInterval(int i) {
    double gap = rows.upper(i) - rows.lower(i);
    return Math.min(gap, 1 / gap) > 0;
  }

  /** Sums over a chunk. */
  private record Sums(
      double lives, double intervalFailures, double exact, double exactSum, double exactSquares) {
    Sums plus(Sums other) {
      return new Sums(
          lives + other.lives,
          intervalFailures + other.intervalFailures,
          exact + other.exact,
          exactSum + other.exactSum,
          exactSquares + other.exactSquares);
    }
  }

  private Sums fill(int first, int last, Part start) {
    int early = start.early;
    int late = start.late;
    double all = 0;
    double exactOnes = 0;
    double sum = 0;
    double squares = 0;
    for (int j = first; j < last; j++) {
      int i = j * every;
      double ran = rows.lower(i);
      double entry = rows.entry(i);
      double count = rows.count(i);
      all += count;
      if (ran > entry) {
        double y = Math.log(ran) - centre;
        // A factor of 1 or 0 in the place of a branch that no processor foresees.
        double failed = count * (ran == rows.upper(i) ? 1 : 0);
        exactOnes += failed;
        sum += failed * y;
        squares += failed * y * y;
        if (entry > 0) {
          lateEnd[late] = y;
          lateEntry[late] = Math.log(entry) - centre;
          lateCount[late++] = count;
        } else {
          end[early] = y;
          endCount[early++] = count;
        }
      }
    }
    return new Sums(all, fillIntervals(first, last, start), exactOnes, sum, squares);
  }

  private double fillIntervals(int first, int last, Part start) {
    int interval = start.intervals;
    double failures = 0;
    for (int j = first; j < last && to.length > 0; j++) {
      int i = j * every;
      if (isInterval(i)) {
        double lower = rows.lower(i);
        double upper = rows.upper(i);
        from[interval] = Math.log(lower) - centre;
        to[interval] = Math.log(upper) - centre;
        width[interval] = Math.log1p((upper - lower) / lower);
        intervalCount[interval++] = rows.count(i);
        failures += rows.count(i);
      }
    }
    return failures;
  }
}

package org.vaneward.stats.nonparametric;

import java.util.ArrayList;
import java.util.List;
import org.vaneward.stats.Observations;
import org.vaneward.stats.numeric.SortOrder;

/**
 * Johnson's adjusted ranks: the rank each failure would have had on average, had the suspended
 * lives been run to failure (L. G. Johnson, The Statistical Treatment of Fatigue Experiments, 1964;
 * from memory). They place failures on probability paper.
 *
 * <p>Lives are put in order of age, at equal ages failures before suspensions. The first rank is
 * counted from 0; each failure adds (n + 1 - previous rank) / (1 + lives at or after it in that
 * order). Lives alike (a count above 1) are that many lives one after the other.
 *
 * <p>Ranks know neither interval failures nor late entry: such lives are left out and counted.
 */
public sealed interface AdjustedRanks {
  /** Most failures that are ranked: each is a point of its own. */
  double MOST_FAILURES = 1e7;

  /**
   * The ranks.
   *
   * @param points one for each failure, in order of age
   * @param lives number of lives n taken in
   * @param leftOutIntervals interval failures left out
   * @param leftOutLate other lives left out because they came under observation late
   */
  record Ranked(List<Point> points, double lives, double leftOutIntervals, double leftOutLate)
      implements AdjustedRanks {
    /** Copies. */
    public Ranked {
      points = List.copyOf(points);
    }
  }

  /**
   * There are no ranks.
   *
   * @param reason why, in one short phrase
   */
  record NotRanked(String reason) implements AdjustedRanks {}

  /**
   * One failure.
   *
   * @param age its age
   * @param order its place among all lives in order, from 1
   * @param increment what it added to the rank
   * @param rank its adjusted rank
   * @param lives number of lives n
   */
  record Point(double age, double order, double increment, double rank, double lives) {
    /** Exact median rank, worked out when asked for. */
    public double medianRank() {
      return PlottingPositions.medianRank(rank, lives);
    }

    /** Benard's approximation of the median rank. */
    public double benard() {
      return PlottingPositions.benard(rank, lives);
    }
  }

  /** The ranks of the failures among the lives. */
  static AdjustedRanks of(Observations lives) {
    int[] rows = new int[lives.size()];
    int taken = 0;
    double n = 0;
    double failures = 0;
    double intervals = 0;
    double late = 0;
    for (int i = 0; i < lives.size(); i++) {
      double count = lives.count(i);
      if (!lives.isExact(i) && !lives.isRightCensored(i)) {
        intervals += count;
      } else if (lives.entry(i) > 0) {
        late += count;
      } else if (count != Math.rint(count)) {
        return new NotRanked("a count of lives is not a whole number");
      } else {
        rows[taken++] = i;
        n += count;
        failures += lives.isExact(i) ? count : 0;
      }
    }
    if (!(failures > 0)) {
      return new NotRanked("no failures at a known age among lives watched from new");
    }
    if (failures > MOST_FAILURES) {
      return new NotRanked("too many failures to rank one by one");
    }
    return new Ranked(points(lives, ordered(lives, rows, taken), n), n, intervals, late);
  }

  /** Rows in order of age, at equal ages failures first. */
  private static int[] ordered(Observations lives, int[] rows, int taken) {
    int[] failuresFirst = new int[taken];
    int next = 0;
    for (int pass = 0; pass < 2; pass++) {
      for (int r = 0; r < taken; r++) {
        if (lives.isExact(rows[r]) == (pass == 0)) {
          failuresFirst[next++] = rows[r];
        }
      }
    }
    double[] ages = new double[taken];
    for (int r = 0; r < taken; r++) {
      ages[r] = lives.lower(failuresFirst[r]);
    }
    int[] order = SortOrder.ascending(ages);
    for (int r = 0; r < taken; r++) {
      order[r] = failuresFirst[order[r]];
    }
    return order;
  }

  private static List<Point> points(Observations lives, int[] order, double n) {
    List<Point> points = new ArrayList<>();
    double before = 0;
    double rank = 0;
    for (int row : order) {
      double count = lives.count(row);
      if (lives.isExact(row)) {
        for (int c = 0; c < count; c++) {
          double increment = (n + 1 - rank) / (1 + n - before - c);
          rank += increment;
          points.add(new Point(lives.lower(row), before + c + 1, increment, rank, n));
        }
      }
      before += count;
    }
    return points;
  }
}

package org.vaneward.stats.bootstrap;

import java.util.Arrays;
import org.vaneward.stats.Observation;
import org.vaneward.stats.Observations;

/** How failures come to be known: at once, or at looks. */
final class Looks {
  /** Width of a life whose failure shows at once. */
  private static final double AT_ONCE = 0;

  /** Width of a life that is looked at once. */
  private static final double ONCE = Double.POSITIVE_INFINITY;

  private final Observations lives;

  /** By row: what lies between two looks. */
  private final double[] width;

  /** Rows that failed, with their counts added up. */
  private final int[] failed;

  private final double[] failedBefore;
  private final boolean allExact;

  private Looks(Observations lives, double[] width, int[] failed, double[] failedBefore) {
    this.lives = lives;
    this.width = width;
    this.failed = failed;
    this.failedBefore = failedBefore;
    allExact = Arrays.stream(width).allMatch(w -> w == AT_ONCE);
  }

  static Looks of(Observations lives) {
    boolean again = lookedAtAgain(lives);
    double[] width = new double[lives.size()];
    int[] failed = new int[lives.size()];
    double[] sums = new double[lives.size()];
    int n = 0;
    double sum = 0;
    for (int i = 0; i < lives.size(); i++) {
      if (lives.isRightCensored(i)) {
        continue;
      }
      if (!lives.isExact(i)) {
        width[i] = again ? lives.upper(i) - lives.lower(i) : ONCE;
      }
      failed[n] = i;
      sum += lives.count(i);
      sums[n++] = sum;
    }
    return new Looks(lives, width, Arrays.copyOf(failed, n), Arrays.copyOf(sums, n));
  }

  /** Whether any life was found good at a look before the one that found it failed. */
  private static boolean lookedAtAgain(Observations lives) {
    for (int i = 0; i < lives.size(); i++) {
      if (!lives.isExact(i) && !lives.isRightCensored(i) && lives.lower(i) > lives.entry(i)) {
        return true;
      }
    }
    return false;
  }

  /** Whether every failure showed at once; so too when nothing failed. */
  boolean allExact() {
    return allExact;
  }

  /** A row that failed, by its count. */
  int pick(double u) {
    int at = Arrays.binarySearch(failedBefore, u * failedBefore[failed.length - 1]);
    int first = at >= 0 ? at + 1 : -at - 1;
    return failed[Math.min(first, failed.length - 1)];
  }

  /**
   * Records a life drawn in place of a row that failed.
   *
   * @param age at failure
   * @param end when it is censored, unless it was found failed by then; may be infinite
   */
  void record(int row, double age, double end, double count, Observations.Builder sample) {
    double entry = lives.entry(row);
    double look = lives.upper(row);
    if (width[row] == ONCE) {
      end = look;
    }
    if (age > end) {
      sample.addRightCensored(entry, end, count);
    } else {
      add(width[row], entry, age, look, end, count, sample);
    }
  }

  /** Records a failure by the censoring age of a right-censored row, as another row's was. */
  void recordLike(int other, int row, double age, double count, Observations.Builder sample) {
    double end = lives.lower(row);
    add(width[other], lives.entry(row), age, end, end, count, sample);
  }

  private static void add(
      double width,
      double entry,
      double age,
      double look,
      double end,
      double count,
      Observations.Builder sample) {
    if (width == AT_ONCE) {
      sample.addFailure(entry, age, count);
      return;
    }
    double lower = entry;
    double upper = end;
    if (width < ONCE) {
      double steps = Math.ceil((age - look) / width);
      lower = Math.max(entry, look + (steps - 1) * width);
      upper = Math.min(end, look + steps * width);
    }
    // looks too close together to be told apart at this age make it exact
    if (lower < age && age <= upper && upper < Double.POSITIVE_INFINITY) {
      sample.add(new Observation.Interval(entry, lower, upper, count));
    } else {
      sample.addFailure(entry, age, count);
    }
  }
}

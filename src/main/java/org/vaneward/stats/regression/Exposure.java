package org.vaneward.stats.regression;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.vaneward.stats.Observations;

/**
 * The ages to which lives were seen to run, by cell, as logs below the greatest of the cell, and
 * the sums over them that a Weibull likelihood needs at a shape.
 *
 * <p>With r the log age less the greatest of the cell, the moments at shape b are M_j = sum of n
 * r^j exp(b r), less the same at entry. Each is the derivative in b of the one before, so five of
 * them at one shape give the first three at a shape near by, by Taylor's series: the remainder of
 * M_0 is at most 0.18 n (change of b / b)^5. A large sample is so passed over only a few times.
 */
final class Exposure {
  /** Moments kept at a shape passed over. */
  private static final int KEPT = 5;

  /** Moments handed out. */
  static final int MOMENTS = 3;

  private static final int MOST_PASSES_KEPT = 3;

  private final int cells;
  private final Segments segments;
  private final double[] logAge;
  private final double[] count;

  /** Log of age over entry age; infinite for lives observed from age 0, empty when all are. */
  private final double[] width;

  private final double[] top;
  private final double[] exact;
  private final double[] exactSum;
  private final double[] firstExact;
  private double exactSquare;
  private double least = Double.POSITIVE_INFINITY;
  private final List<Pass> passes = new ArrayList<>();

  /**
   * Moments at a shape.
   *
   * @param shape where
   * @param moments {@link #KEPT} for each cell
   */
  @SuppressWarnings("ArrayRecordComponent") // stays within this class
  private record Pass(double shape, double[] moments) {}

  Exposure(Observations lives, int[] cellOf, int cells) {
    this.cells = cells;
    int[] start = new int[cells + 1];
    boolean late = false;
    for (int i = 0; i < cellOf.length; i++) {
      if (lives.lower(i) > lives.entry(i)) {
        start[cellOf[i] + 1]++;
        late |= lives.entry(i) > 0;
      }
    }
    for (int c = 0; c < cells; c++) {
      start[c + 1] += start[c];
    }
    int[] rowAt = new int[start[cells]];
    int[] next = Arrays.copyOf(start, cells);
    for (int i = 0; i < cellOf.length; i++) {
      if (lives.lower(i) > lives.entry(i)) {
        rowAt[next[cellOf[i]]++] = i;
      }
    }
    segments = new Segments(start);
    logAge = new double[rowAt.length];
    count = new double[rowAt.length];
    width = late ? new double[rowAt.length] : new double[0];
    top = new double[cells];
    exact = new double[cells];
    exactSum = new double[cells];
    firstExact = new double[cells];
    fill(lives, rowAt);
  }

  private void fill(Observations lives, int[] rowAt) {
    SegmentSums sums = new SegmentSums(segments.count());
    segments.each(s -> look(lives, rowAt, s, sums));
    gather(sums);
  }

  private void look(Observations lives, int[] rowAt, int s, SegmentSums sums) {
    double reference = Math.log(lives.lower(rowAt[segments.from[s]]));
    double lowest = reference;
    double highest = reference;
    double failed = 0;
    double sum = 0;
    double square = 0;
    double first = Double.POSITIVE_INFINITY;
    for (int i = segments.from[s]; i < segments.to[s]; i++) {
      int row = rowAt[i];
      double y = Math.log(lives.lower(row));
      double n = lives.count(row);
      logAge[i] = y;
      count[i] = n;
      lowest = Math.min(lowest, y);
      highest = Math.max(highest, y);
      if (lives.isExact(row)) {
        double from = y - reference;
        failed += n;
        sum += n * from;
        square += n * from * from;
        first = Math.min(first, from);
      }
    }
    sums.put(s, reference, highest, failed, sum, square, first);
    sums.least[s] = width.length > 0 ? Math.min(lowest, entries(lives, rowAt, s)) : lowest;
  }

  /** Fills the stays of a segment; log of the least entry age above 0, or infinity. */
  private double entries(Observations lives, int[] rowAt, int s) {
    double lowest = Double.POSITIVE_INFINITY;
    for (int i = segments.from[s]; i < segments.to[s]; i++) {
      double entry = lives.entry(rowAt[i]);
      width[i] = Math.log1p((lives.lower(rowAt[i]) - entry) / entry);
      if (entry > 0) {
        lowest = Math.min(lowest, Math.log(entry));
      }
    }
    return lowest;
  }

  private void gather(SegmentSums sums) {
    Arrays.fill(top, Double.NEGATIVE_INFINITY);
    Arrays.fill(firstExact, Double.POSITIVE_INFINITY);
    for (int s = 0; s < segments.count(); s++) {
      int c = segments.cell[s];
      top[c] = Math.max(top[c], sums.most[s]);
      least = Math.min(least, sums.least[s]);
    }
    for (int s = 0; s < segments.count(); s++) {
      int c = segments.cell[s];
      double shift = sums.reference[s] - top[c];
      exact[c] += sums.failed[s];
      exactSum[c] += sums.sum[s] + sums.failed[s] * shift;
      exactSquare += sums.square[s] + shift * (2 * sums.sum[s] + sums.failed[s] * shift);
      firstExact[c] = Math.min(firstExact[c], sums.leastFailed[s] + shift);
    }
  }

  /** What one look at the rows gives, segment by segment: ages are from a reference age. */
  private static final class SegmentSums {
    final double[] reference;
    final double[] least;
    final double[] most;
    final double[] failed;
    final double[] sum;
    final double[] square;
    final double[] leastFailed;

    SegmentSums(int segments) {
      reference = new double[segments];
      least = new double[segments];
      most = new double[segments];
      failed = new double[segments];
      sum = new double[segments];
      square = new double[segments];
      leastFailed = new double[segments];
    }

    void put(
        int s,
        double from,
        double highest,
        double failures,
        double total,
        double squares,
        double first) {
      reference[s] = from;
      most[s] = highest;
      failed[s] = failures;
      sum[s] = total;
      square[s] = squares;
      leastFailed[s] = first;
    }
  }

  boolean isEmpty() {
    return logAge.length == 0;
  }

  /** Whether any life came under observation after age 0. */
  boolean hasEntries() {
    return width.length > 0;
  }

  /** Log of the greatest age to which a life of the cell was seen to run; negative infinity. */
  double top(int cell) {
    return top[cell];
  }

  /** Log of the least age at which a life came under observation or ended; infinite. */
  double least() {
    return least;
  }

  /** Failures at known ages in a cell. */
  double exact(int cell) {
    return exact[cell];
  }

  /** Their summed log ages, each less {@link #top}. */
  double exactSum(int cell) {
    return exactSum[cell];
  }

  /** The least of those; infinite without any. */
  double firstExact(int cell) {
    return firstExact[cell];
  }

  /** Standard deviation of log ages at failure within cells; 0 when there is none. */
  double deviationWithinCells() {
    double total = 0;
    double rest = exactSquare;
    for (int c = 0; c < cells; c++) {
      if (exact[c] > 0) {
        total += exact[c];
        rest -= exactSum[c] * exactSum[c] / exact[c];
      }
    }
    return total > 0 ? Math.sqrt(Math.max(0, rest / total)) : 0;
  }

  /**
   * {@link #MOMENTS} moments for each cell at a shape.
   *
   * @param reach relative change of shape over which moments at another shape may be carried
   */
  double[] moments(double shape, double reach) {
    Pass nearest = null;
    double least = reach;
    for (Pass pass : passes) {
      double far = Math.abs(shape / pass.shape - 1);
      if (far <= least) {
        least = far;
        nearest = pass;
      }
    }
    if (nearest == null) {
      nearest = new Pass(shape, pass(shape));
      if (passes.size() == MOST_PASSES_KEPT) {
        passes.remove(0);
      }
      passes.add(nearest);
    }
    return carried(nearest, shape - nearest.shape);
  }

  private double[] carried(Pass pass, double d) {
    double[] at = new double[MOMENTS * cells];
    double[] m = pass.moments;
    for (int c = 0; c < cells; c++) {
      int k = KEPT * c;
      at[MOMENTS * c] =
          m[k] + d * (m[k + 1] + d / 2 * (m[k + 2] + d / 3 * (m[k + 3] + d / 4 * m[k + 4])));
      at[MOMENTS * c + 1] = m[k + 1] + d * (m[k + 2] + d / 2 * (m[k + 3] + d / 3 * m[k + 4]));
      at[MOMENTS * c + 2] = m[k + 2] + d * (m[k + 3] + d / 2 * m[k + 4]);
    }
    return at;
  }

  private double[] pass(double shape) {
    double[] sums = new double[KEPT * segments.count()];
    segments.each(s -> sum(s, shape, sums));
    double[] moments = new double[KEPT * cells];
    for (int s = 0; s < segments.count(); s++) {
      for (int j = 0; j < KEPT; j++) {
        moments[KEPT * segments.cell[s] + j] += sums[KEPT * s + j];
      }
    }
    return moments;
  }

  private void sum(int segment, double shape, double[] sums) {
    double sum0 = 0;
    double sum1 = 0;
    double sum2 = 0;
    double sum3 = 0;
    double sum4 = 0;
    double highest = top[segments.cell[segment]];
    for (int i = segments.from[segment]; i < segments.to[segment]; i++) {
      double y = logAge[i] - highest;
      double e = count[i] * Math.exp(shape * y);
      if (width.length > 0 && width[i] < Double.POSITIVE_INFINITY) {
        late(segment, shape, width[i], y, e, sums);
        continue;
      }
      sum0 += e;
      e *= y;
      sum1 += e;
      e *= y;
      sum2 += e;
      e *= y;
      sum3 += e;
      sum4 += e * y;
    }
    int at = KEPT * segment;
    sums[at] += sum0;
    sums[at + 1] += sum1;
    sums[at + 2] += sum2;
    sums[at + 3] += sum3;
    sums[at + 4] += sum4;
  }

  /** End less entry: differences of powers by w = y - x, which loses nothing for a short stay. */
  private static void late(int segment, double shape, double w, double y, double e, double[] sums) {
    double x = y - w;
    double left = -e * Math.expm1(-shape * w);
    double power = 1;
    double difference = 0;
    for (int j = 0; j < KEPT; j++) {
      sums[KEPT * segment + j] += difference * e + power * left;
      difference = y * difference + w * power;
      power *= x;
    }
  }
}

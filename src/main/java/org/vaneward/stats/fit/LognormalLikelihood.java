package org.vaneward.stats.fit;

import org.vaneward.stats.Observations;
import org.vaneward.stats.fit.LogAges.Rows;
import org.vaneward.stats.fit.WeibullLikelihood.Derivatives;

/**
 * Lognormal log-likelihood of one group of lives: exact, right-censored, interval, with entry ages.
 *
 * <p>Log ages are counted from the mean log age of the failures, x = log age - centre. With shape =
 * 1 / spread and k = (location - centre) / spread, z = shape x - k is standard normal.
 *
 * <p>For a given shape the log-likelihood is concave in k, also with entry ages: its second
 * derivative is, summed over lives, the variance of z within what is known of the life less its
 * variance within what could have been known from its entry on, and the variance of a log-concave
 * density falls when it is cut to a part of its range.
 */
final class LognormalLikelihood implements LogAgeLikelihood {
  private final double centre;
  private final double spread;
  private final double failures;
  private final boolean hasExposure;
  private final boolean onlyAtTheGreatestAge;

  // Exact failures observed from age 0.
  private final double exact;
  private final double sum;
  private final double squares;

  /** Sum of the log ages of all exact failures, which turns the density into that of the ages. */
  private final double logAges;

  private final Rows lateFailures;
  private final Rows survivors;
  private final Rows intervals;

  private LognormalLikelihood(LogAges r) {
    centre = r.centre;
    spread = r.highest > r.lowest ? r.highest - r.lowest : 0;
    failures = r.lives.failures();
    hasExposure = r.greatestRun > 0;
    onlyAtTheGreatestAge = r.leastExact < Double.POSITIVE_INFINITY && r.leastExact == r.greatestRun;
    exact = r.exact;
    sum = r.sum;
    squares = r.squares;
    logAges = r.logAges;
    lateFailures = r.lateFailures.trimmed();
    survivors = r.survivors.trimmed();
    intervals = r.intervals.trimmed();
  }

  static LognormalLikelihood of(Observations lives) {
    return new LognormalLikelihood(LogAges.of(lives));
  }

  @Override
  public double centre() {
    return centre;
  }

  /** Whether any life was seen to run for a while; if not, nothing keeps the location up. */
  boolean hasExposure() {
    return hasExposure;
  }

  boolean hasIntervals() {
    return intervals.size > 0;
  }

  /** Whether there are failures at known ages and all are at the greatest age of all. */
  boolean exactOnlyAtTheGreatestAge() {
    return onlyAtTheGreatestAge;
  }

  @Override
  public double failures() {
    return failures;
  }

  @Override
  public double spread() {
    return spread;
  }

  /** So it is for exact and right-censored lives from age 0, which always have a maximum. */
  @Override
  public boolean singlePeaked() {
    return intervals.size == 0 && !survivors.late && lateFailures.size == 0;
  }

  @Override
  public Point at(double logShape) {
    return slice(logShape).profile();
  }

  @Override
  public Section slice(double logShape) {
    return new Section(logShape);
  }

  /** The log-likelihood at one shape. */
  final class Section implements Slice {
    private final double logShape;
    private final double shape;
    private final double k;
    private final NormalTerm total = new NormalTerm();
    private final NormalTerm term = new NormalTerm();
    private final NormalTerm spare = new NormalTerm();

    Section(double logShape) {
      this.logShape = logShape;
      shape = Math.exp(logShape);
      k = climb();
    }

    @Override
    public double shape() {
      return shape;
    }

    @Override
    public double k() {
      return k;
    }

    @Override
    public double value(double atK) {
      sum(atK);
      return total.value;
    }

    @Override
    public Derivatives derivatives(double atK) {
      sum(atK);
      return total.derivatives();
    }

    @Override
    public Derivatives inK(double atK) {
      return derivatives(atK);
    }

    @Override
    public Point profile() {
      Derivatives d = derivatives(k);
      if (!(Math.abs(d.value()) < Double.POSITIVE_INFINITY && d.kk() <= 0)) {
        return new Point(Double.NEGATIVE_INFINITY, 0, 0);
      }
      if (d.kk() == 0) {
        // Narrow and far inside every interval: all has happened as it must, wherever k is.
        return new Point(d.value(), d.s(), d.ss());
      }
      return new Point(d.value(), d.s(), d.ss() - d.ks() * d.ks() / d.kk());
    }

    private void sum(double atK) {
      total.clear();
      exactFromTheStart(atK);
      double b = shape;
      for (int i = 0; i < lateFailures.size; i++) {
        term.failure(b * lateFailures.from[i], b * lateFailures.entry[i], atK, logShape);
        total.add(lateFailures.count[i], term);
      }
      for (int i = 0; i < survivors.size; i++) {
        term.survivor(b * survivors.from[i], b * survivors.entry[i], atK);
        total.add(survivors.count[i], term);
      }
      Rows in = intervals;
      for (int i = 0; i < in.size; i++) {
        term.between(b * in.from[i], b * in.to[i], b * in.width[i], b * in.entry[i], atK, spare);
        total.add(in.count[i], term);
      }
    }

    private void exactFromTheStart(double atK) {
      double w = shape * sum;
      double ww = shape * shape * squares;
      double z = w - exact * atK;
      double zw = ww - atK * w;
      total.value = exact * (logShape - NormalTail.LOG_ROOT_2_PI) - (zw - atK * z) / 2 - logAges;
      total.k = z;
      total.s = exact - zw;
      total.kk = -exact;
      total.ks = w;
      total.ss = -ww - zw;
    }

    /** Safeguarded Newton for the best k: the slope falls in k. */
    private double climb() {
      double low = Double.NEGATIVE_INFINITY;
      double high = Double.POSITIVE_INFINITY;
      double at = 0;
      double before = Double.POSITIVE_INFINITY;
      for (int i = 0; i < MOST_STEPS; i++) {
        sum(at);
        if (total.k > 0) {
          low = at;
        } else {
          high = at;
        }
        double longest = 2 * (1 + Math.abs(at));
        double step = Math.max(-longest, Math.min(longest, -total.k / total.kk));
        double next = at + step;
        if (!(next > low && next < high) && high - low < Double.POSITIVE_INFINITY) {
          next = low + (high - low) / 2;
        }
        double size = Math.abs(next - at);
        if (!(size > FINEST * (1 + Math.abs(at))) || (size < ALMOST && size >= before)) {
          return at;
        }
        before = size;
        at = next;
      }
      return at;
    }
  }
}

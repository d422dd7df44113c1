package org.vaneward.stats.pooling;

import org.vaneward.stats.Observations;
import org.vaneward.stats.numeric.LazyCurve;

/**
 * Weibull log-likelihood of one group, made for many evaluations: the lives enter only through sums
 * that depend on the shape alone.
 *
 * <p>Ages enter as y = log age - centre, the centre being the log of the greatest age to which a
 * life of the group was seen to run. With k = shape (log scale - centre) the log-likelihood is
 *
 * <pre>
 *   d log shape + shape sum(y) - d k - exp(log M0 - k) - sum(log t) + sum log(1 - exp(-D))
 * </pre>
 *
 * with d and the sums over exact failures, M0 the sum of exp(shape y) over the ages to which lives
 * were seen to run less the same at their entry, and D the cumulative hazard within the interval of
 * each interval failure. It is concave in k. Log M0 is a smooth function of log shape and is
 * interpolated.
 */
final class GroupLikelihood {
  /** Widest cells, in log shape, on which log M0 is interpolated. */
  private static final double CELL = 0.5;

  final double lives;
  final double failures;
  final double exact;
  final double centre;

  /** Whether any life was seen to run for a while. */
  final boolean exposed;

  private final double exactSum;
  private final double exactLogAges;
  private final Runs runs;
  private final LazyCurve logRun;
  private final Intervals intervals;

  private GroupLikelihood(Observations data) {
    lives = data.lives();
    failures = data.failures();
    runs = new Runs(data);
    exposed = runs.size > 0;
    intervals = new Intervals(data);
    centre = exposed ? runs.greatest : intervals.greatest();
    runs.centreOn(centre);
    intervals.centreOn(centre);
    logRun = new LazyCurve(b -> runs.logSum(Math.exp(b)), CELL);
    double count = 0;
    double sum = 0;
    double logAges = 0;
    for (int i = 0; i < data.size(); i++) {
      if (data.isExact(i)) {
        double logAge = Math.log(data.upper(i));
        count += data.count(i);
        sum += data.count(i) * (logAge - centre);
        logAges += data.count(i) * logAge;
      }
    }
    exact = count;
    exactSum = sum;
    exactLogAges = logAges;
  }

  static GroupLikelihood of(Observations data) {
    return new GroupLikelihood(data);
  }

  boolean hasIntervals() {
    return intervals.size() > 0;
  }

  /** Whether all failures, if any, are known and at the greatest age: no shape is too large. */
  boolean risesWithShape() {
    return !hasIntervals() && exactSum == 0;
  }

  /** Log of the sum of M0 at a shape, ages measured from the centre; not interpolated. */
  double logRunDirect(double shape) {
    return runs.logSum(shape);
  }

  /** The log-likelihood at one shape. */
  Slice slice(double logShape) {
    return new Slice(logShape);
  }

  /** The log-likelihood at one shape, a concave function of k. Holds its last point. */
  final class Slice {
    final double shape;
    final double logShape;

    /** Log M0; negative infinity when no life was seen to run. */
    final double logRunSum;

    private final double fixed;
    private final Intervals.Slice between;

    /** Log-likelihood at the last k. */
    double value;

    /** Its first derivative in k. */
    double slope;

    /** Its second derivative in k. */
    double curvature;

    private Slice(double logShape) {
      this.logShape = logShape;
      shape = Math.exp(logShape);
      logRunSum = exposed ? logRun.value(logShape) : Double.NEGATIVE_INFINITY;
      fixed = exact * logShape + shape * exactSum - exactLogAges;
      between = intervals.slice(logShape);
    }

    double failures() {
      return failures;
    }

    /** Whether nothing speaks against a scale without bounds: no failures. */
    boolean isFlatAbove() {
      return !(failures > 0);
    }

    /** Whether nothing speaks against a scale as good as 0: no life was seen to run. */
    boolean isFlatBelow() {
      return !exposed;
    }

    double centre() {
      return centre;
    }

    boolean hasIntervals() {
      return GroupLikelihood.this.hasIntervals();
    }

    /** Value and derivatives at {@code k}. */
    void at(double k) {
      double hazard = Math.exp(logRunSum - k);
      value = fixed - exact * k - hazard;
      slope = hazard - exact;
      curvature = -hazard;
      if (intervals.size() > 0) {
        between.at(k);
        value += between.value;
        slope += between.slope;
        curvature += between.curvature;
      }
    }

    double valueAt(double k) {
      at(k);
      return value;
    }
  }

  /** The stretches of age over which lives were seen to run. */
  private static final class Runs {
    final int size;
    final double greatest;
    private final double[] end;

    /** Negative infinity for lives observed from age 0. */
    private final double[] start;

    private final double[] count;

    Runs(Observations data) {
      int n = 0;
      for (int i = 0; i < data.size(); i++) {
        n += data.lower(i) > data.entry(i) ? 1 : 0;
      }
      size = n;
      end = new double[n];
      start = new double[n];
      count = new double[n];
      double top = Double.NEGATIVE_INFINITY;
      int at = 0;
      for (int i = 0; i < data.size(); i++) {
        if (data.lower(i) > data.entry(i)) {
          end[at] = Math.log(data.lower(i));
          start[at] = Math.log(data.entry(i));
          count[at] = data.count(i);
          top = Math.max(top, end[at]);
          at++;
        }
      }
      greatest = top;
    }

    void centreOn(double centre) {
      for (int i = 0; i < size; i++) {
        end[i] -= centre;
        start[i] -= centre;
      }
    }

    double logSum(double shape) {
      double sum = 0;
      for (int i = 0; i < size; i++) {
        double e = count[i] * Math.exp(shape * end[i]);
        sum +=
            start[i] == Double.NEGATIVE_INFINITY ? e : -e * Math.expm1(shape * (start[i] - end[i]));
      }
      return Math.log(sum);
    }
  }
}

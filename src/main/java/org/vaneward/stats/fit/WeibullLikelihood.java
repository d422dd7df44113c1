package org.vaneward.stats.fit;

import org.vaneward.stats.Observations;
import org.vaneward.stats.numeric.LogSpace;

/**
 * Weibull log-likelihood of one group of lives: exact, right-censored, interval, with entry ages.
 *
 * <p>Ages enter as y = log age - centre, the centre being the log of the greatest age to which a
 * life was seen to run; so exp(shape y) of those ages never exceeds 1, whatever the unit. With k =
 * shape (log scale - centre) the cumulative hazard is exp(shape y - k), and the log-likelihood is
 *
 * <pre>
 *   d log shape + shape sum(y) - d k - exp(-k) M0 - sum(log t) + sum log(1 - exp(-D))
 * </pre>
 *
 * with d and the sums over exact failures, M0 the sum of exp(shape y) over the ages to which lives
 * were seen to run less the same at their entry, and D the cumulative hazard within the interval of
 * each interval failure. For a given shape it is concave in k.
 */
final class WeibullLikelihood implements LogAgeLikelihood {
  /** Rows of the part that gives a first guess of the shape, when there are many more. */
  private static final int PART = 8192;

  private final Observations rows;
  private final LifeColumns lives;
  private final PowerSums powers;

  private WeibullLikelihood(Observations rows, int every) {
    this.rows = rows;
    lives = new LifeColumns(rows, every);
    powers = new PowerSums(lives);
  }

  static WeibullLikelihood of(Observations rows) {
    return new WeibullLikelihood(rows, 1);
  }

  /** Log of the greatest age to which a life was seen to run. */
  @Override
  public double centre() {
    return lives.centre;
  }

  /** Number of lives, counts summed. */
  double lives() {
    return lives.lives;
  }

  /** Whether any life was seen to run for a while; if not, nothing keeps the scale from 0. */
  boolean hasExposure() {
    return lives.end.length + lives.lateEnd.length > 0;
  }

  boolean hasIntervals() {
    return lives.to.length > 0;
  }

  /** Whether there are failures at known ages and all are at the greatest age of all. */
  boolean exactOnlyAtTheGreatestAge() {
    return lives.exact > 0 && lives.exactSum == 0;
  }

  @Override
  public double failures() {
    return lives.exact + lives.intervalFailures;
  }

  @Override
  public double spread() {
    return lives.spread;
  }

  /** So it is for exact and right-censored lives from age 0: Cauchy–Schwarz. */
  @Override
  public boolean singlePeaked() {
    return !hasIntervals() && lives.lateEnd.length == 0;
  }

  /** From the scatter of the failures; with very many rows, the best shape of a part of them. */
  @Override
  public double start() {
    boolean fromPart = rows.size() >= 8 * PART && lives.every == 1;
    double guess = fromPart ? bestOfPart(rows.size() / PART) : Math.log(shapeByScatter());
    return Math.abs(guess) < Double.POSITIVE_INFINITY ? guess : LogAgeLikelihood.super.start();
  }

  private double bestOfPart(int every) {
    WeibullLikelihood part = new WeibullLikelihood(rows, every);
    return part.lives.exactSum < 0 ? ShapeSearch.maximum(part).logShape() : Double.NaN;
  }

  /**
   * Log ages have the standard deviation pi / sqrt(6) / shape when all lives fail, and those of the
   * few that fail early 1 / shape.
   */
  private double shapeByScatter() {
    double mean = lives.exactSum / lives.exact;
    double variance = lives.exactSquares / lives.exact - mean * mean;
    double share = lives.exact / lives.lives;
    return (1 + (Math.PI / Math.sqrt(6) - 1) * share) / Math.sqrt(variance);
  }

  @Override
  public Point at(double logShape) {
    Slice slice = slice(logShape);
    return slice.profile();
  }

  @Override
  public Slice slice(double logShape) {
    return new Slice(logShape);
  }

  /**
   * Log-likelihood and its derivatives in log scale u and log shape s.
   *
   * @return the value, then the derivatives u, s, uu, us, ss
   */
  double[] derivatives(double logScale, double logShape) {
    return slice(logShape).atScale(logScale);
  }

  /** Log-likelihood with its derivatives in k and log shape s, k held fixed in s. */
  record Derivatives(double value, double k, double s, double kk, double ks, double ss) {}

  /** The log-likelihood at one shape, a concave function of k. */
  final class Slice implements LogAgeLikelihood.Slice {
    /** Below this a hazard within an interval is worked with by its series. */
    private static final double SMALL = 1e-5;

    /** Above this exp(-hazard) is nothing beside 1. */
    private static final double LARGE = 700;

    final double shape;
    private final double logShape;
    private final PowerSums.Sums sums;

    /** Log of exp(shape to) - exp(shape from) for each interval. */
    private final double[] logGap;

    /** Best k; infinite without failures, towards which the log-likelihood rises to 0. */
    final double k;

    Slice(double logShape) {
      this.logShape = logShape;
      shape = Math.exp(logShape);
      sums = powers.at(shape);
      logGap = new double[lives.to.length];
      for (int i = 0; i < logGap.length; i++) {
        logGap[i] = shape * lives.to[i] + LogSpace.log1mExp(shape * lives.width[i]);
      }
      k = hasIntervals() ? climb() : Math.log(sums.m0() / lives.exact);
    }

    /** Safeguarded Newton for the best k: the slope falls in k, and bounds are known. */
    private double climb() {
      double low = Math.log(sums.m0() / (lives.exact + lives.intervalFailures));
      double high = lives.exact > 0 ? Math.log(sums.m0() / lives.exact) : Double.POSITIVE_INFINITY;
      double at = low;
      double before = Double.POSITIVE_INFINITY;
      for (int i = 0; i < MOST_STEPS; i++) {
        Derivatives d = inK(at);
        if (d.k > 0) {
          low = at;
        } else {
          high = at;
        }
        double next = at - d.k / d.kk;
        if (!(next >= low && next <= high)) {
          next = high < Double.POSITIVE_INFINITY ? low + (high - low) / 2 : low + 2;
        }
        double step = Math.abs(next - at);
        if (step <= FINEST * (1 + Math.abs(at)) || (step < ALMOST && step >= before)) {
          return next;
        }
        before = step;
        at = next;
      }
      return at;
    }

    @Override
    public double shape() {
      return shape;
    }

    @Override
    public double k() {
      return k;
    }

    double failures() {
      return WeibullLikelihood.this.failures();
    }

    /** As {@link WeibullLikelihood#derivatives}. */
    double[] atScale(double logScale) {
      double u = logScale - centre();
      double b = shape;
      double atK = b * u;
      Derivatives d = derivatives(atK);
      return new double[] {
        d.value,
        b * d.k,
        d.s + atK * d.k,
        b * b * d.kk,
        b * (atK * d.kk + d.ks + d.k),
        d.ss + 2 * atK * d.ks + atK * atK * d.kk + atK * d.k
      };
    }

    @Override
    public double value(double atK) {
      return inK(atK).value;
    }

    /** Value and derivatives in k alone; the others are not computed and 0. */
    @Override
    public Derivatives inK(double atK) {
      double hazard = Math.exp(Math.log(sums.m0()) - atK);
      double value =
          lives.exact * (logShape - atK) + shape * lives.exactSum - hazard - lives.exactLogAges;
      double dk = hazard - lives.exact;
      double dkk = -hazard;
      for (int i = 0; i < lives.to.length; i++) {
        double logD = logGap[i] - atK;
        double d = Math.exp(logD);
        double n = lives.intervalCount[i];
        if (d < SMALL) {
          value += n * (logD - d / 2 + d * d / 24);
          dk -= n * (1 - d / 2 + d * d / 12);
          dkk -= n * (d / 2 - d * d / 6);
        } else if (d < LARGE) {
          double w = d / Math.expm1(d);
          value += n * LogSpace.log1mExp(d);
          dk -= n * w;
          dkk += n * w * (1 - d - w);
        }
      }
      return new Derivatives(value, dk, 0, dkk, 0, 0);
    }

    @Override
    public Derivatives derivatives(double atK) {
      Derivatives inK = inK(atK);
      double b = shape;
      double scale = Math.exp(-atK);
      double s = lives.exact + b * lives.exactSum - scale * b * sums.m1();
      double ks = scale * b * sums.m1();
      double ss = b * lives.exactSum - scale * (b * sums.m1() + b * b * sums.m2());
      for (int i = 0; i < lives.to.length; i++) {
        double d = Math.exp(logGap[i] - atK);
        if (!(d < LARGE)) {
          continue;
        }
        double n = lives.intervalCount[i];
        double w = d < SMALL ? 1 - d / 2 + d * d / 12 : d / Math.expm1(d);
        double slack = d < SMALL ? -d / 2 - d * d / 12 : 1 - d - w;
        double mean = lives.to[i];
        double square = lives.to[i] * lives.to[i];
        if (lives.from[i] > Double.NEGATIVE_INFINITY) {
          double rest = lives.width[i] / Math.expm1(b * lives.width[i]);
          mean += rest;
          square += rest * (lives.to[i] + lives.from[i]);
        }
        s += n * w * b * mean;
        ks -= n * w * b * mean * slack;
        ss += n * w * (b * mean + b * b * (square - mean * mean * (d + w)));
      }
      return new Derivatives(inK.value, inK.k, s, inK.kk, ks, ss);
    }

    @Override
    public Point profile() {
      if (!(sums.m0() > 0 && Math.abs(k) < Double.POSITIVE_INFINITY)) {
        return new Point(Double.NEGATIVE_INFINITY, 0, 0);
      }
      Derivatives d = derivatives(k);
      return new Point(d.value, d.s, d.ss - d.ks * d.ks / d.kk);
    }

    /** Without failures the log-likelihood rises to 0 as k grows. */
    @Override
    public double edge(double drop, boolean above) {
      if (failures() == 0 && drop > 0) {
        return above ? Double.POSITIVE_INFINITY : Math.log(sums.m0() / drop);
      }
      return LogAgeLikelihood.Slice.super.edge(drop, above);
    }
  }
}

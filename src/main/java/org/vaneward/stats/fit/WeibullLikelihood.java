package org.vaneward.stats.fit;

import java.util.Arrays;
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
  private final double centre;
  private final double spread;

  /** Ends of lives observed from age 0. */
  private final double[] end;

  private final double[] endCount;

  /** Ends and entries of lives that came under observation later. */
  private final double[] lateEnd;

  private final double[] lateEntry;
  private final double[] lateCount;

  /** Interval failures; an interval from age 0 starts at negative infinity. */
  private final double[] from;

  private final double[] to;

  /** Log of end over start, which their difference would not give for a narrow interval. */
  private final double[] width;

  private final double[] intervalCount;
  private final double intervalFailures;

  private final double exact;
  private final double exactSum;
  private final double exactLogAges;

  private WeibullLikelihood(Columns columns, double lowest, double highest) {
    centre = columns.centre();
    spread = highest > lowest ? highest - lowest : 0;
    end = columns.end.minus(centre);
    endCount = columns.endCount.values();
    lateEnd = columns.lateEnd.minus(centre);
    lateEntry = columns.lateEntry.minus(centre);
    lateCount = columns.lateCount.values();
    from = columns.from.minus(centre);
    to = columns.to.minus(centre);
    width = columns.width.values();
    intervalCount = columns.intervalCount.values();
    intervalFailures = Arrays.stream(intervalCount).sum();
    exact = columns.exact;
    exactLogAges = columns.exactLogAges;
    exactSum = columns.exactSum;
  }

  static WeibullLikelihood of(Observations lives) {
    Columns columns = new Columns();
    double lowest = Double.POSITIVE_INFINITY;
    double highest = Double.NEGATIVE_INFINITY;
    for (int i = 0; i < lives.size(); i++) {
      columns.add(lives, i);
    }
    for (Column column : columns.ages()) {
      for (int i = 0; i < column.size; i++) {
        double age = column.array[i];
        if (age > Double.NEGATIVE_INFINITY) {
          lowest = Math.min(lowest, age);
          highest = Math.max(highest, age);
        }
      }
    }
    columns.sumExact(lives);
    return new WeibullLikelihood(columns, lowest, highest);
  }

  /** Log of the greatest age to which a life was seen to run. */
  @Override
  public double centre() {
    return centre;
  }

  /** Whether any life was seen to run for a while; if not, nothing keeps the scale from 0. */
  boolean hasExposure() {
    return end.length + lateEnd.length > 0;
  }

  boolean hasIntervals() {
    return to.length > 0;
  }

  /** Whether there are failures at known ages and all are at the greatest age of all. */
  boolean exactOnlyAtTheGreatestAge() {
    return exact > 0 && exactSum == 0;
  }

  @Override
  public double failures() {
    return exact + intervalFailures;
  }

  @Override
  public double spread() {
    return spread;
  }

  /** So it is for exact and right-censored lives from age 0: Cauchy–Schwarz. */
  @Override
  public boolean singlePeaked() {
    return to.length == 0 && lateEnd.length == 0;
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
    Slice slice = slice(logShape);
    double u = logScale - centre;
    double b = slice.shape;
    double k = b * u;
    Derivatives at = slice.derivatives(k);
    return new double[] {
      at.value,
      b * at.k,
      at.s + k * at.k,
      b * b * at.kk,
      b * (k * at.kk + at.ks + at.k),
      at.ss + 2 * k * at.ks + k * k * at.kk + k * at.k
    };
  }

  /** Log-likelihood with its derivatives in k and log shape s, k held fixed in s. */
  record Derivatives(double value, double k, double s, double kk, double ks, double ss) {}

  /** The log-likelihood at one shape, a concave function of k. */
  final class Slice implements LogAgeLikelihood.Slice {
    /** Below this a hazard within an interval is worked with by its series. */
    private static final double SMALL = 1e-5;

    /** Above this exp(-hazard) is nothing beside 1. */
    private static final double LARGE = 700;

    /** A step in k, relative, of a few units in the last place. */
    private static final double FINEST = 4e-15;

    /** Steps in k below this that no longer shrink are rounding. */
    private static final double ALMOST = 1e-9;

    private static final int MOST_STEPS = 200;

    final double shape;
    private final double logShape;
    private double m0;
    private double m1;
    private double m2;

    /** Log of exp(shape to) - exp(shape from) for each interval. */
    private final double[] logGap;

    /** Best k; infinite without failures, towards which the log-likelihood rises to 0. */
    final double k;

    Slice(double logShape) {
      this.logShape = logShape;
      shape = Math.exp(logShape);
      sumPowers();
      logGap = new double[to.length];
      for (int i = 0; i < to.length; i++) {
        logGap[i] = shape * to[i] + LogSpace.log1mExp(shape * width[i]);
      }
      k = to.length == 0 ? Math.log(m0 / exact) : climb();
    }

    private void sumPowers() {
      double sum0 = 0;
      double sum1 = 0;
      double sum2 = 0;
      for (int i = 0; i < end.length; i++) {
        double y = end[i];
        double e = endCount[i] * Math.exp(shape * y);
        double ey = e * y;
        sum0 += e;
        sum1 += ey;
        sum2 += ey * y;
      }
      for (int i = 0; i < lateEnd.length; i++) {
        double y = lateEnd[i];
        double x = lateEntry[i];
        double e = lateCount[i] * Math.exp(shape * y);
        double gone = Math.expm1(shape * (x - y));
        double left = 1 + gone;
        sum0 -= e * gone;
        sum1 += e * ((y - x) * left - y * gone);
        sum2 += e * ((y - x) * (y + x) * left - y * y * gone);
      }
      m0 = sum0;
      m1 = sum1;
      m2 = sum2;
    }

    /** Safeguarded Newton for the best k: the slope falls in k, and bounds are known. */
    private double climb() {
      double low = Math.log(m0 / (exact + intervalFailures));
      double high = exact > 0 ? Math.log(m0 / exact) : Double.POSITIVE_INFINITY;
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

    @Override
    public double value(double atK) {
      return inK(atK).value;
    }

    /** Value and derivatives in k alone; the others are not computed and 0. */
    private Derivatives inK(double atK) {
      double hazard = Math.exp(Math.log(m0) - atK);
      double value = exact * (logShape - atK) + shape * exactSum - hazard - exactLogAges;
      double dk = hazard - exact;
      double dkk = -hazard;
      for (int i = 0; i < to.length; i++) {
        double logD = logGap[i] - atK;
        double d = Math.exp(logD);
        double n = intervalCount[i];
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
      double s = exact + b * exactSum - scale * b * m1;
      double ks = scale * b * m1;
      double ss = b * exactSum - scale * (b * m1 + b * b * m2);
      for (int i = 0; i < to.length; i++) {
        double d = Math.exp(logGap[i] - atK);
        if (!(d < LARGE)) {
          continue;
        }
        double n = intervalCount[i];
        double w = d < SMALL ? 1 - d / 2 + d * d / 12 : d / Math.expm1(d);
        double slack = d < SMALL ? -d / 2 - d * d / 12 : 1 - d - w;
        double mean = to[i];
        double square = to[i] * to[i];
        if (from[i] > Double.NEGATIVE_INFINITY) {
          double rest = width[i] / Math.expm1(b * width[i]);
          mean += rest;
          square += rest * (to[i] + from[i]);
        }
        s += n * w * b * mean;
        ks -= n * w * b * mean * slack;
        ss += n * w * (b * mean + b * b * (square - mean * mean * (d + w)));
      }
      return new Derivatives(inK.value, inK.k, s, inK.kk, ks, ss);
    }

    @Override
    public Point profile() {
      if (!(m0 > 0 && Math.abs(k) < Double.POSITIVE_INFINITY)) {
        return new Point(Double.NEGATIVE_INFINITY, 0, 0);
      }
      Derivatives d = derivatives(k);
      return new Point(d.value, d.s, d.ss - d.ks * d.ks / d.kk);
    }

    /**
     * Where the log-likelihood has dropped from its best at this shape: below the best k or above.
     *
     * @param drop by how much, at least 0
     */
    @Override
    public double edge(double drop, boolean above) {
      if (!(drop > 0)) {
        return k;
      }
      if (failures() == 0) {
        return above ? Double.POSITIVE_INFINITY : Math.log(m0 / drop);
      }
      double best = value(k);
      double curvature = -inK(k).kk;
      double step = Math.sqrt(2 * drop / curvature);
      double at = outside(best - drop, above ? step : -step);
      double before = Double.POSITIVE_INFINITY;
      for (int i = 0; i < MOST_STEPS; i++) {
        Derivatives d = inK(at);
        double move = (best - drop - d.value) / d.k;
        double size = Math.abs(move);
        at += move;
        // From outside, Newton on a concave function closes in from one side.
        if (!(size > FINEST * (1 + Math.abs(at))) || (size < ALMOST && size >= before)) {
          return at;
        }
        before = size;
      }
      return at;
    }

    private double outside(double level, double step) {
      double at = k + step;
      for (int i = 0; i < MOST_STEPS && value(at) > level; i++) {
        at = k + (at - k) * 1.5;
      }
      return at;
    }
  }

  /** A growing column of numbers. */
  private static final class Column {
    private double[] array = new double[16];
    private int size;

    void add(double x) {
      if (size == array.length) {
        array = Arrays.copyOf(array, 2 * size);
      }
      array[size++] = x;
    }

    double[] values() {
      return Arrays.copyOf(array, size);
    }

    double[] minus(double centre) {
      double[] shifted = values();
      for (int i = 0; i < shifted.length; i++) {
        shifted[i] -= centre;
      }
      return shifted;
    }
  }

  /** The lives sorted by kind, as log ages. */
  private static final class Columns {
    final Column end = new Column();
    final Column endCount = new Column();
    final Column lateEnd = new Column();
    final Column lateEntry = new Column();
    final Column lateCount = new Column();
    final Column from = new Column();
    final Column to = new Column();
    final Column width = new Column();
    final Column intervalCount = new Column();
    double exact;
    double exactSum;
    double exactLogAges;
    private double greatest = Double.NEGATIVE_INFINITY;

    Column[] ages() {
      return new Column[] {end, lateEnd, lateEntry, from, to};
    }

    double centre() {
      return greatest > Double.NEGATIVE_INFINITY ? greatest : 0;
    }

    void add(Observations lives, int i) {
      double count = lives.count(i);
      double ran = lives.lower(i);
      double logRan = Math.log(ran);
      if (ran > lives.entry(i)) {
        greatest = Math.max(greatest, logRan);
        addExposure(lives.entry(i), logRan, count);
      }
      if (!lives.isExact(i) && !lives.isRightCensored(i)) {
        from.add(logRan);
        to.add(Math.log(lives.upper(i)));
        width.add(Math.log1p((lives.upper(i) - ran) / ran));
        intervalCount.add(count);
      }
    }

    private void addExposure(double entry, double logRan, double count) {
      if (entry > 0) {
        lateEnd.add(logRan);
        lateEntry.add(Math.log(entry));
        lateCount.add(count);
      } else {
        end.add(logRan);
        endCount.add(count);
      }
    }

    /** Sums over exact failures, once the centre is known: no digits are lost to the unit. */
    void sumExact(Observations lives) {
      for (int i = 0; i < lives.size(); i++) {
        if (lives.isExact(i)) {
          double logAge = Math.log(lives.upper(i));
          exact += lives.count(i);
          exactLogAges += lives.count(i) * logAge;
          exactSum += lives.count(i) * (logAge - centre());
        }
      }
    }
  }
}

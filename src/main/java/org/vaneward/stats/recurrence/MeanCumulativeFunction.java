package org.vaneward.stats.recurrence;

import java.util.AbstractList;
import java.util.List;
import java.util.Optional;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.numeric.Quantiles;

/**
 * Mean number of events for each unit by an age: the sum over event ages of events / units at risk.
 *
 * <p>A unit is at risk at the ages of (start, end]. The standard error is robust (J. F. Lawless and
 * C. Nadeau, Technometrics 37, 1995, 158–168; W. Nelson, ibid., 147–157, with n² in place of n(n -
 * 1)): the variance is the sum over units of the square of
 *
 * <pre>
 * {@code   R_i(t) = sum over event ages s <= t at which i is at risk of (own events - d/n) / n }
 * </pre>
 *
 * with d events among n units at risk. It asks only that units are alike and independent of each
 * other, not that the events of one unit are; the Poisson one, the root of the sum of d / n², asks
 * for both. From one event age to the next the sum of squares V grows by 2 sum(R_i x_i) - 2 (d/n²)
 * P + sum(x_i²) - d²/n³, with x_i = own events / n and P the sum of R over units at risk, which
 * changes only when a unit leaves: so the work is linear in events and units.
 *
 * <p>What it assumes: why a unit is no longer watched has nothing to do with its events.
 *
 * @see MeanCumulativeDifference
 */
public final class MeanCumulativeFunction {
  /** A variance below this share of the sums it is left of is rounding. */
  private static final double ROUNDING = 1e-14;

  /**
   * The function at one event age.
   *
   * @param age the age
   * @param atRisk units under observation at that age
   * @param events events at that age
   * @param mean mean number of events of a unit by that age, those at it included
   * @param stdError robust standard error; 0 when the units at risk do not differ
   * @param lower lower limit, symmetric about log mean; 0 when the units do not differ, as then
   *     nothing is known of how much they might
   * @param upper upper limit; infinite when the units do not differ
   * @param plainLower lower limit, symmetric about the mean; may be below 0
   * @param plainUpper upper limit, symmetric about the mean
   * @param poissonStdError standard error if all events were independent
   */
  public record Point(
      double age,
      int atRisk,
      int events,
      double mean,
      double stdError,
      double lower,
      double upper,
      double plainLower,
      double plainUpper,
      double poissonStdError) {}

  private final EventAges ages;
  private final int[] atRisk;
  private final double[] mean;
  private final double[] variance;
  private final double[] poisson;
  private final double z;
  private final double confidence;
  private final double greatestEnd;

  private MeanCumulativeFunction(EventHistories histories, double confidence) {
    z = Quantiles.twoSidedNormal(confidence);
    this.confidence = confidence;
    greatestEnd = histories.greatestEnd();
    ages = new EventAges(histories);
    int n = ages.distinct.length;
    atRisk = new int[n];
    mean = new double[n];
    variance = new double[n];
    poisson = new double[n];
    new Running(histories.size()).fill();
  }

  /**
   * The function of some units, from age 0 to the greatest age at which one is watched.
   *
   * @param histories the units; without events there are no points and the mean is 0
   * @param confidence of two-sided limits, between 0 and 1
   * @throws IllegalArgumentException when the confidence is not between 0 and 1
   */
  public static MeanCumulativeFunction of(EventHistories histories, double confidence) {
    return new MeanCumulativeFunction(histories, confidence);
  }

  /** Number of distinct event ages. */
  public int size() {
    return mean.length;
  }

  /** Confidence of the limits. */
  public double confidence() {
    return confidence;
  }

  /** Greatest age at which a unit was watched: nothing is known beyond. */
  public double greatestEnd() {
    return greatestEnd;
  }

  /** The function at event age {@code k}, counted from 0. */
  public Point point(int k) {
    double error = Math.sqrt(variance[k]);
    boolean known = error > 0;
    double factor = known ? Math.exp(z * error / mean[k]) : Double.POSITIVE_INFINITY;
    double half = known ? z * error : Double.POSITIVE_INFINITY;
    return new Point(
        ages.distinct[k],
        atRisk[k],
        ages.eventFrom[k + 1] - ages.eventFrom[k],
        mean[k],
        error,
        mean[k] / factor,
        mean[k] * factor,
        mean[k] - half,
        mean[k] + half,
        Math.sqrt(poisson[k]));
  }

  /** The points as a list that makes each when it is asked for. */
  public List<Point> points() {
    return new AbstractList<>() {
      @Override
      public Point get(int index) {
        return point(index);
      }

      @Override
      public int size() {
        return MeanCumulativeFunction.this.size();
      }
    };
  }

  /**
   * Mean number of events by an age, with limits symmetric on the log scale. Before the first event
   * it is 0 and has no upper limit.
   *
   * @param age at least 0
   * @return empty beyond the greatest age at which a unit was watched
   * @throws IllegalArgumentException when the age is negative or not a number
   */
  public Optional<Estimate> at(double age) {
    if (!watched(age)) {
      return Optional.empty();
    }
    int k = ages.firstAbove(age) - 1;
    if (k < 0) {
      return Optional.of(new Estimate(0, 0, Double.POSITIVE_INFINITY));
    }
    Point point = point(k);
    return Optional.of(new Estimate(point.mean(), point.lower(), point.upper()));
  }

  boolean watched(double age) {
    if (!(age >= 0)) {
      throw new IllegalArgumentException("an age is 0 or more, not " + age);
    }
    return age <= greatestEnd;
  }

  double meanAt(double age) {
    int k = ages.firstAbove(age) - 1;
    return k < 0 ? 0 : mean[k];
  }

  double varianceAt(double age) {
    int k = ages.firstAbove(age) - 1;
    return k < 0 ? 0 : variance[k];
  }

  /** The sums that run along the ages. */
  private final class Running {
    /** R_i of a unit at risk is own[i] - drift; of one that has left it no longer matters. */
    private final double[] own;

    private final boolean[] inside;
    private final boolean[] gone;
    private final int[] eventsNow;
    private double drift;
    private double sumAtRisk;
    private int n;

    /** The sum of squares with what its additions lost to rounding. */
    private double squares;

    private double lost;
    private double turnover;

    Running(int units) {
      own = new double[units];
      inside = new boolean[units];
      gone = new boolean[units];
      eventsNow = new int[units];
    }

    void fill() {
      double total = 0;
      double independent = 0;
      for (int k = 0; k < mean.length; k++) {
        leave(k);
        enter(k);
        double d = ages.eventFrom[k + 1] - ages.eventFrom[k];
        total += d / n;
        independent += d / n / n;
        step(k, d);
        atRisk[k] = n;
        mean[k] = total;
        poisson[k] = independent;
        double value = squares + lost;
        variance[k] = value > ROUNDING * turnover ? value : 0;
      }
    }

    private void leave(int k) {
      for (int p = ages.leaveFrom[k]; p < ages.leaveFrom[k + 1]; p++) {
        int i = ages.leaveUnit[p];
        gone[i] = true;
        if (inside[i]) {
          sumAtRisk -= own[i] - drift;
          n--;
        }
      }
    }

    /** A unit watched only between two event ages is never at risk: it is gone already. */
    private void enter(int k) {
      for (int p = ages.enterFrom[k]; p < ages.enterFrom[k + 1]; p++) {
        int i = ages.enterUnit[p];
        if (!gone[i]) {
          inside[i] = true;
          own[i] = drift;
          n++;
        }
      }
    }

    private void step(int k, double d) {
      int from = ages.eventFrom[k];
      int to = ages.eventFrom[k + 1];
      for (int p = from; p < to; p++) {
        eventsNow[ages.eventUnit[p]]++;
      }
      double delta = d / n / n;
      add(-2 * delta * sumAtRisk);
      add(-n * delta * delta);
      for (int p = from; p < to; p++) {
        int i = ages.eventUnit[p];
        if (eventsNow[i] > 0) {
          double x = (double) eventsNow[i] / n;
          add(2 * (own[i] - drift) * x);
          add(x * x);
          own[i] += x;
          eventsNow[i] = 0;
        }
      }
      drift += delta;
    }

    /** Neumaier's compensated addition. */
    private void add(double term) {
      double sum = squares + term;
      lost += Math.abs(squares) >= Math.abs(term) ? (squares - sum) + term : (term - sum) + squares;
      squares = sum;
      turnover += Math.abs(term);
    }
  }
}

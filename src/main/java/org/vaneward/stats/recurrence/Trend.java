package org.vaneward.stats.recurrence;

import java.util.Arrays;
import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.simple.RandomSource;
import org.apache.commons.statistics.distribution.ChiSquaredDistribution;
import org.vaneward.stats.numeric.Quantiles;
import org.vaneward.stats.recurrence.TestOutcome.NotTestable;
import org.vaneward.stats.recurrence.TestOutcome.Tested;

/**
 * Tests of a constant rate of events against a trend. Each unit may have a rate of its own.
 *
 * <p>If the rate is constant, the m events of a unit are spread evenly over its observation, given
 * their number. A last event that ended the observation takes no part: m is then one less, and the
 * observation ends at it. With T the end of an event's own unit, both counted from where watching
 * began:
 *
 * <ul>
 *   <li>Laplace: [sum(t) - sum(T) / 2] / root of (sum(T²) / 12), standard normal (D. R. Cox and P.
 *       A. W. Lewis, The Statistical Analysis of Series of Events, 1966, ch. 3). Positive: events
 *       come faster with age.
 *   <li>MIL-HDBK-189: 2 sum(log(T / t)), chi-square with 2 m degrees of freedom (MIL-HDBK-189,
 *       Reliability Growth Management, 1981, appendix C, from memory). Small: events come faster
 *       with age. Two-sided p: twice the smaller tail.
 *   <li>Anderson–Darling, on t / T: finds trends that are not monotonic too, such as a bathtub (J.
 *       T. Kvaløy and B. H. Lindqvist, Reliability Engineering and System Safety 60, 1998, 13–28,
 *       from memory). Its p-value is by simulation of even spread with a fixed seed. Several units
 *       are pooled.
 * </ul>
 *
 * <p>A small p says "not a constant rate", which a renewal process need not have either: see {@link
 * LewisRobinson} for renewal against trend.
 */
public final class Trend {
  private static final int DRAWS = 9_999;
  private static final long SEED = 189;

  /** From here on the law of the statistic no longer depends on the number of events. */
  private static final int AS_GOOD_AS_MANY = 300;

  private static final String NO_EVENTS = "no events";
  private static final String ONLY_THE_LAST = "the only event is the one that ended observation";

  private Trend() {}

  /** Laplace's test. */
  public static TestOutcome laplace(EventHistories histories) {
    double[] places = places(histories);
    if (places.length == 0) {
      return none(histories);
    }
    double greatest = greatestWindow(histories);
    double sum = 0;
    double squares = 0;
    int next = 0;
    for (int i = 0; i < histories.size(); i++) {
      double window = (histories.end(i) - histories.start(i)) / greatest;
      for (int j = 0; j < counted(histories, i); j++) {
        sum += (places[next++] - 0.5) * window;
        squares += window * window;
      }
    }
    double statistic = sum / Math.sqrt(squares / 12);
    return new Tested(statistic, 0, places.length, 2 * Quantiles.normalShare(-Math.abs(statistic)));
  }

  /** The MIL-HDBK-189 test. */
  public static TestOutcome milHdbk189(EventHistories histories) {
    double[] places = places(histories);
    if (places.length == 0) {
      return none(histories);
    }
    double sum = 0;
    for (double place : places) {
      sum -= 2 * Math.log(place);
    }
    double freedom = 2.0 * places.length;
    ChiSquaredDistribution law = ChiSquaredDistribution.of(freedom);
    double tail = Math.min(law.cumulativeProbability(sum), law.survivalProbability(sum));
    return new Tested(sum, freedom, places.length, Math.min(1, 2 * tail));
  }

  /** The Anderson–Darling test. */
  public static TestOutcome andersonDarling(EventHistories histories) {
    double[] places = places(histories);
    if (places.length == 0) {
      return none(histories);
    }
    Arrays.sort(places);
    double statistic = andersonDarling(places);
    return new Tested(statistic, 0, places.length, andersonDarlingTail(statistic, places.length));
  }

  /** Share of draws of evenly spread events whose statistic is at least as great. */
  static double andersonDarlingTail(double statistic, int events) {
    double[] drawn = new double[Math.min(events, AS_GOOD_AS_MANY)];
    UniformRandomProvider random = RandomSource.L64_X128_MIX.create(SEED);
    int asFar = 0;
    for (int draw = 0; draw < DRAWS; draw++) {
      for (int i = 0; i < drawn.length; i++) {
        drawn[i] = random.nextDouble();
      }
      Arrays.sort(drawn);
      asFar += andersonDarling(drawn) >= statistic ? 1 : 0;
    }
    return (1.0 + asFar) / (1.0 + DRAWS);
  }

  /** Of rising values between 0 and 1; an event at the very end is the limit from below. */
  private static double andersonDarling(double[] u) {
    int n = u.length;
    double sum = 0;
    for (int i = 0; i < n; i++) {
      double low = Math.log(Math.max(u[i], Double.MIN_NORMAL));
      double high = Math.log1p(-Math.min(u[n - 1 - i], Math.nextDown(1.0)));
      sum += (2.0 * i + 1) * (low + high);
    }
    return -n - sum / n;
  }

  /** Events of unit {@code i} that take part. */
  static int counted(EventHistories histories, int i) {
    return histories.events(i) - (histories.endedByEvent(i) ? 1 : 0);
  }

  /** Where the events that take part lie in their units' observation, in (0, 1]. */
  static double[] places(EventHistories histories) {
    double[] places = new double[histories.events()];
    int n = 0;
    for (int i = 0; i < histories.size(); i++) {
      double start = histories.start(i);
      double window = histories.end(i) - start;
      for (int j = 0; j < counted(histories, i); j++) {
        places[n++] = (histories.age(i, j) - start) / window;
      }
    }
    return Arrays.copyOf(places, n);
  }

  private static double greatestWindow(EventHistories histories) {
    double greatest = 0;
    for (int i = 0; i < histories.size(); i++) {
      greatest = Math.max(greatest, histories.end(i) - histories.start(i));
    }
    return greatest;
  }

  private static NotTestable none(EventHistories histories) {
    return new NotTestable(histories.events() == 0 ? NO_EVENTS : ONLY_THE_LAST);
  }
}

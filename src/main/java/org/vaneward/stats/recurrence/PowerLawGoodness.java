package org.vaneward.stats.recurrence;

import java.util.Arrays;
import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.simple.RandomSource;
import org.vaneward.stats.numeric.Roots;
import org.vaneward.stats.recurrence.TestOutcome.NotTestable;
import org.vaneward.stats.recurrence.TestOutcome.Tested;

/**
 * Does a power law describe the events? The Cramér–von Mises statistic of MIL-HDBK-189 (1981,
 * appendix C, from memory), for one unit or several that share a shape, each with a rate of its
 * own:
 *
 * <pre>{@code   1 / (12 M) + sum over i = 1..M of (w(i) - (2 i - 1) / (2 M))² }</pre>
 *
 * <p>over the M events that did not end their observation, in rising order of w = (t^b - a^b) /
 * (T^b - a^b), with (a, T] the window of the event's unit. The shape b is (M - 1) / M times its
 * conditional estimate given each unit's number of events: (M - 1) / sum(log(T / t)) for units
 * watched from 0.
 *
 * <p>The p-value is the share of drawn histories, with the same windows and numbers of events, that
 * lie at least as far off once their own shape is estimated; the seed is fixed. For units watched
 * from 0 the statistic has one law whatever the shape, so the test is exact but for the draws.
 */
public final class PowerLawGoodness {
  private static final int DRAWS = 1_999;
  private static final int FEWEST_DRAWS = 199;

  /** Events drawn in all, about: more events, fewer draws. */
  private static final double WORK = 4e6;

  private static final double FARTHEST = 80;
  private static final long SEED = 1981;

  private final int[] number;
  private final double[] width;
  private final int total;

  PowerLawGoodness(EventHistories histories) {
    number = new int[histories.size()];
    width = new double[histories.size()];
    int sum = 0;
    for (int i = 0; i < number.length; i++) {
      number[i] = Trend.counted(histories, i);
      width[i] = PowerLawLikelihood.width(histories, i);
      sum += number[i];
    }
    total = sum;
  }

  /** The test; a small p says that a power law does not describe the events. */
  public static TestOutcome test(EventHistories histories) {
    PowerLawGoodness goodness = new PowerLawGoodness(histories);
    if (goodness.total < 2) {
      return new NotTestable("fewer than two events within observation");
    }
    double[] below = goodness.belowEnd(histories);
    double shape = goodness.shape(below);
    if (Double.isNaN(shape)) {
      return new NotTestable("no shape can be estimated");
    }
    double statistic = goodness.statistic(below, shape);
    double p = goodness.p(shape, statistic);
    return new Tested(statistic, 0, goodness.total, p);
  }

  /** How far the events lie below the ends of their windows, in log age. */
  private double[] belowEnd(EventHistories histories) {
    double[] below = new double[total];
    int n = 0;
    for (int i = 0; i < number.length; i++) {
      for (int j = 0; j < number[i]; j++) {
        below[n++] = -LogAgeWindow.logShareOf(histories.age(i, j), histories.end(i));
      }
    }
    return below;
  }

  /** Conditional estimate of the shape; not a number when there is none. */
  private double shape(double[] below) {
    double mean = Arrays.stream(below).sum() / total;
    if (!(mean > 0)) {
      return Double.NaN;
    }
    if (allFromZero()) {
      return 1 / mean;
    }
    double start = Math.log(1 / mean);
    return Roots.between(
            x -> Math.log(expected(Math.exp(x))) - Math.log(mean),
            start - FARTHEST / 2,
            start + FARTHEST / 2)
        .stream()
        .map(Math::exp)
        .findFirst()
        .orElse(Double.NaN);
  }

  private boolean allFromZero() {
    for (int i = 0; i < width.length; i++) {
      if (number[i] > 0 && width[i] < Double.POSITIVE_INFINITY) {
        return false;
      }
    }
    return true;
  }

  /** Mean distance of an event below the end of its window, over the events there are. */
  private double expected(double shape) {
    double sum = 0;
    for (int i = 0; i < number.length; i++) {
      if (number[i] > 0) {
        sum += number[i] * LogAgeWindow.meanBelowEnd(shape, width[i]);
      }
    }
    return sum / total;
  }

  private double statistic(double[] below, double shape) {
    double b = shape * (total - 1) / total;
    double[] w = new double[total];
    int n = 0;
    for (int i = 0; i < number.length; i++) {
      double outside = Math.exp(-b * width[i]);
      for (int j = 0; j < number[i]; j++, n++) {
        w[n] = (Math.exp(-b * below[n]) - outside) / (1 - outside);
      }
    }
    Arrays.sort(w);
    double sum = 1.0 / (12.0 * total);
    for (int i = 0; i < total; i++) {
      double off = w[i] - (2.0 * i + 1) / (2.0 * total);
      sum += off * off;
    }
    return sum;
  }

  /** Share of drawn histories of that shape that lie at least as far off. */
  double p(double shape, double statistic) {
    int draws = (int) Math.max(FEWEST_DRAWS, Math.min(DRAWS, WORK / total));
    UniformRandomProvider random = RandomSource.L64_X128_MIX.create(SEED);
    double[] below = new double[total];
    int asFar = 0;
    int made = 0;
    for (int draw = 0; draw < draws; draw++) {
      int n = 0;
      for (int i = 0; i < number.length; i++) {
        double share = -Math.expm1(-shape * width[i]);
        for (int j = 0; j < number[i]; j++) {
          below[n++] = -Math.log1p(-share * random.nextDouble()) / shape;
        }
      }
      double own = shape(below);
      if (!Double.isNaN(own)) {
        made++;
        asFar += statistic(below, own) >= statistic ? 1 : 0;
      }
    }
    return (1.0 + asFar) / (1.0 + made);
  }
}

package org.vaneward.stats.nonparametric;

import java.util.List;
import java.util.OptionalDouble;
import org.vaneward.stats.Observations;
import org.vaneward.stats.numeric.Quantiles;

/**
 * Product-limit estimate of the survival function (Kaplan and Meier, Journal of the American
 * Statistical Association 53, 1958) and Nelson–Aalen estimate of the cumulative hazard beside it.
 *
 * <p>A life is at risk at ages in (entry, age]; at equal ages failures come before suspensions.
 * Standard errors are Greenwood's; limits are symmetric in log(-log S). Interval failures have no
 * place in this estimate: they are left out and counted, and while any are left out the curve is
 * too high; {@link Turnbull} takes them in.
 *
 * @param points one for each age at which a life failed, in order of age
 * @param confidence of the two-sided limits
 * @param lives number of lives taken in
 * @param events number of failures taken in
 * @param leftOut number of interval failures left out
 * @param lastAge greatest age to which a life was seen to run; the curve ends there; 0 without
 *     lives
 */
public record ProductLimit(
    List<Point> points,
    double confidence,
    double lives,
    double events,
    double leftOut,
    double lastAge) {
  public ProductLimit {
    points = points instanceof PointColumns ? points : List.copyOf(points);
  }

  /**
   * The curve just after an age at which lives failed.
   *
   * @param age the age
   * @param survival share that outlives it
   * @param stdError Greenwood's standard error of the survival; NaN once the survival is 0
   * @param lower lower limit of the survival; NaN once the survival is 0
   * @param upper upper limit of the survival; NaN once the survival is 0
   * @param atRisk lives at risk just before
   * @param events lives that failed at this age
   * @param cumulativeHazard Nelson–Aalen: sum of events / at risk
   * @param cumulativeHazardStdError root of the sum of events / at risk squared
   */
  public record Point(
      double age,
      double survival,
      double stdError,
      double lower,
      double upper,
      double atRisk,
      double events,
      double cumulativeHazard,
      double cumulativeHazardStdError) {}

  /**
   * The estimate.
   *
   * @param confidence of the two-sided limits, between 0 and 1
   * @throws IllegalArgumentException when the confidence is not between 0 and 1
   */
  public static ProductLimit of(Observations lives, double confidence) {
    double z = Quantiles.twoSidedNormal(confidence);
    int late = 0;
    boolean ones = true;
    for (int i = 0; i < lives.size(); i++) {
      late += lives.entry(i) > 0 ? 1 : 0;
      ones &= lives.count(i) == 1;
    }
    AgeTally.Builder ends = new AgeTally.Builder(lives.size(), ones);
    AgeTally.Builder entries = new AgeTally.Builder(late, ones);
    double leftOut = 0;
    for (int i = 0; i < lives.size(); i++) {
      double count = lives.count(i);
      boolean failed = lives.isExact(i);
      if (!failed && !lives.isRightCensored(i)) {
        leftOut += count;
        continue;
      }
      ends.add(lives.lower(i), failed, count);
      if (lives.entry(i) > 0) {
        entries.add(lives.entry(i), false, count);
      }
    }
    AgeTally ended = ends.build();
    int last = ended.size() - 1;
    PointColumns points = points(ended, entries.build(), z);
    return new ProductLimit(
        points,
        confidence,
        ended.onward(0),
        points.failures(),
        leftOut,
        last < 0 ? 0 : ended.age(last));
  }

  private static PointColumns points(AgeTally ended, AgeTally entered, double z) {
    int n = 0;
    for (int i = 0; i < ended.size(); i++) {
      n += ended.failed(i) ? 1 : 0;
    }
    double[] age = new double[n];
    double[] atRisk = new double[n];
    double[] events = new double[n];
    int point = 0;
    int entry = 0;
    for (int i = 0; i < ended.size(); i++) {
      if (ended.failed(i)) {
        age[point] = ended.age(i);
        while (entry < entered.size() && entered.age(entry) < age[point]) {
          entry++;
        }
        atRisk[point] = ended.onward(i) - entered.onward(entry);
        events[point++] = ended.count(i);
      }
    }
    return new PointColumns(age, atRisk, events, z);
  }

  /**
   * Share that outlives {@code age}: a step function that drops at the ages of failure.
   *
   * @return empty beyond {@link #lastAge}, where nothing was seen, unless the curve is 0 by then
   */
  public OptionalDouble survivalAt(double age) {
    int low = 0;
    int high = points.size();
    while (low < high) {
      int middle = (low + high) >>> 1;
      if (points.get(middle).age() <= age) {
        low = middle + 1;
      } else {
        high = middle;
      }
    }
    double survival = low == 0 ? 1 : points.get(low - 1).survival();
    return survival == 0 || age <= lastAge ? OptionalDouble.of(survival) : OptionalDouble.empty();
  }

  /**
   * The age at which the curve falls to 0 although lives still fail after it: with delayed entry,
   * when all the few lives at risk early on fail. The curve then says nothing; one conditional on
   * having reached a later age does. Empty when this did not happen.
   */
  public OptionalDouble zeroTooSoon() {
    for (int i = 0; i + 1 < points.size(); i++) {
      if (points.get(i).survival() == 0) {
        return OptionalDouble.of(points.get(i).age());
      }
    }
    return OptionalDouble.empty();
  }
}

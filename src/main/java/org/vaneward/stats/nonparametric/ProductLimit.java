package org.vaneward.stats.nonparametric;

import java.util.ArrayList;
import java.util.Arrays;
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
    points = List.copyOf(points);
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
    int n = lives.size();
    double[] ends = new double[n];
    double[] entries = new double[n];
    double[] failures = new double[n];
    int taken = 0;
    int failed = 0;
    for (int i = 0; i < n; i++) {
      if (lives.isExact(i) || lives.isRightCensored(i)) {
        ends[taken] = lives.lower(i);
        entries[taken++] = lives.entry(i);
        if (lives.isExact(i)) {
          failures[failed++] = lives.upper(i);
        }
      }
    }
    Weights atEnd = new Weights(Arrays.copyOf(ends, taken));
    Weights atEntry = new Weights(Arrays.copyOf(entries, taken));
    Weights atFailure = new Weights(Arrays.copyOf(failures, failed));
    double leftOut = 0;
    for (int i = 0; i < n; i++) {
      double count = lives.count(i);
      if (!lives.isExact(i) && !lives.isRightCensored(i)) {
        leftOut += count;
        continue;
      }
      atEnd.add(lives.lower(i), count);
      atEntry.add(lives.entry(i), count);
      if (lives.isExact(i)) {
        atFailure.add(lives.upper(i), count);
      }
    }
    return new ProductLimit(
        points(atEnd, atEntry, atFailure, z),
        confidence,
        atEnd.total(),
        atFailure.total(),
        leftOut,
        atEnd.greatest());
  }

  private static List<Point> points(Weights atEnd, Weights atEntry, Weights atFailure, double z) {
    double[] ended = atEnd.fromAgeOn();
    double[] entered = atEntry.fromAgeOn();
    List<Point> points = new ArrayList<>(atFailure.ages.length);
    double survival = 1;
    double greenwood = 0;
    double hazard = 0;
    double hazardVariance = 0;
    int end = 0;
    int entry = 0;
    for (int i = 0; i < atFailure.ages.length; i++) {
      double age = atFailure.ages[i];
      double d = atFailure.weights[i];
      while (atEnd.ages[end] < age) {
        end++;
      }
      while (entry < atEntry.ages.length && atEntry.ages[entry] < age) {
        entry++;
      }
      double atRisk = ended[end] - entered[entry];
      survival *= atRisk > d ? 1 - d / atRisk : 0;
      greenwood += d / (atRisk * (atRisk - d));
      hazard += d / atRisk;
      hazardVariance += d / (atRisk * atRisk);
      points.add(point(age, survival, greenwood, z, atRisk, d, hazard, Math.sqrt(hazardVariance)));
    }
    return points;
  }

  private static Point point(
      double age,
      double survival,
      double greenwood,
      double z,
      double atRisk,
      double events,
      double hazard,
      double hazardStdError) {
    double stdError = Double.NaN;
    double lower = Double.NaN;
    double upper = Double.NaN;
    if (survival > 0) {
      stdError = survival * Math.sqrt(greenwood);
      double logSurvival = Math.log(survival);
      double factor = Math.exp(z * Math.sqrt(greenwood) / -logSurvival);
      lower = Math.exp(logSurvival * factor);
      upper = Math.exp(logSurvival / factor);
    }
    return new Point(age, survival, stdError, lower, upper, atRisk, events, hazard, hazardStdError);
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

  /** Counts at distinct ages, in order. */
  private static final class Weights {
    private final double[] ages;
    private final double[] weights;

    Weights(double[] unsorted) {
      Arrays.sort(unsorted);
      int distinct = 0;
      for (int i = 0; i < unsorted.length; i++) {
        if (distinct == 0 || unsorted[i] != unsorted[distinct - 1]) {
          unsorted[distinct++] = unsorted[i];
        }
      }
      ages = Arrays.copyOf(unsorted, distinct);
      weights = new double[distinct];
    }

    void add(double age, double count) {
      weights[Arrays.binarySearch(ages, age)] += count;
    }

    double greatest() {
      return ages.length == 0 ? 0 : ages[ages.length - 1];
    }

    double total() {
      return fromAgeOn()[0];
    }

    /** Sum of the counts at each age and after it; one more entry, 0, for after all of them. */
    double[] fromAgeOn() {
      double[] sums = new double[ages.length + 1];
      for (int i = ages.length - 1; i >= 0; i--) {
        sums[i] = sums[i + 1] + weights[i];
      }
      return sums;
    }
  }
}

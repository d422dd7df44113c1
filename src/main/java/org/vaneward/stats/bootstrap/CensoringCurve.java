package org.vaneward.stats.bootstrap;

import java.util.Arrays;
import java.util.Comparator;
import java.util.stream.IntStream;
import org.vaneward.stats.Observations;

/**
 * Product limit of the ages at which observation ends: the estimate of Kaplan and Meier with the
 * parts of failure and censoring exchanged.
 *
 * <p>At equal ages failures come before suspensions, so a life that failed at an age is not at risk
 * of being censored at it. A life is at risk from its entry age on. Kept as a cumulative hazard
 * -log(1 - share), from which draws conditional on having reached any age are one search.
 */
final class CensoringCurve {
  /** Hazard of an age at which all that are left are censored: nobody comes past it. */
  private static final double CERTAIN = 1000;

  private final double[] ages;
  private final double[] hazards;

  private CensoringCurve(double[] ages, double[] hazards) {
    this.ages = ages;
    this.hazards = hazards;
  }

  static CensoringCurve of(Observations lives) {
    int[] byEnd = order(lives, Comparator.comparingDouble(i -> end(lives, i)));
    int[] byEntry = order(lives, Comparator.comparingDouble(lives::entry));
    double[] ages = new double[byEnd.length];
    double[] hazards = new double[byEnd.length];
    int found = 0;
    int entered = 0;
    double atRisk = 0;
    double sum = 0;
    int at = 0;
    while (at < byEnd.length) {
      double age = end(lives, byEnd[at]);
      for (; entered < byEntry.length && lives.entry(byEntry[entered]) < age; entered++) {
        atRisk += lives.count(byEntry[entered]);
      }
      double censored = 0;
      for (; at < byEnd.length && end(lives, byEnd[at]) == age; at++) {
        if (lives.isRightCensored(byEnd[at])) {
          censored += lives.count(byEnd[at]);
        } else {
          atRisk -= lives.count(byEnd[at]);
        }
      }
      if (censored > 0) {
        // what is left over by rounding of counts that are not whole is nobody
        boolean all = atRisk - censored <= 1e-9 * atRisk;
        sum += all ? CERTAIN : -Math.log1p(-censored / atRisk);
        ages[found] = age;
        hazards[found++] = sum;
        atRisk = all ? 0 : atRisk - censored;
      }
    }
    return new CensoringCurve(Arrays.copyOf(ages, found), Arrays.copyOf(hazards, found));
  }

  private static int[] order(Observations lives, Comparator<Integer> by) {
    return IntStream.range(0, lives.size()).boxed().sorted(by).mapToInt(i -> i).toArray();
  }

  /** Age up to which a life was watched. */
  private static double end(Observations lives, int i) {
    return lives.isRightCensored(i) ? lives.lower(i) : lives.upper(i);
  }

  /** Cumulative hazard of being censored before {@code age}. */
  double before(double age) {
    int at = Arrays.binarySearch(ages, age);
    int first = at >= 0 ? at : -at - 1;
    return first == 0 ? 0 : hazards[first - 1];
  }

  /** First age at which the cumulative hazard reaches a level; infinite when it never does. */
  double reaches(double level) {
    int at = Arrays.binarySearch(hazards, level);
    int first = at >= 0 ? at : -at - 1;
    return first == ages.length ? Double.POSITIVE_INFINITY : ages[first];
  }
}

package org.vaneward.stats.comparison;

import java.util.Arrays;
import java.util.OptionalDouble;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.numeric.Quantiles;
import org.vaneward.stats.numeric.Roots;

/**
 * How failures change with a number: by what the rate is multiplied for each unit of it.
 *
 * <p>Each row has failures, an expected number (see {@link RateRatio}), a stratum and a number x.
 * Given the failures of a stratum, each falls to row i with a chance in proportion to its expected
 * number times exp(b x); b is found by maximum likelihood, a concave problem in one unknown. With x
 * 0 and 1 this is the ratio of {@link RateRatio}. The test is the likelihood ratio's, the limits
 * are the profile's (large-sample results: P. McCullagh and J. A. Nelder, Generalized Linear
 * Models, 2nd ed. 1989, ch. 6 and 7, from memory); {@code dispersion} divides the statistic.
 */
public sealed interface RateSlope {
  /**
   * A slope.
   *
   * @param ratio by what the rate is multiplied for each unit of the number, with limits
   * @param statistic likelihood-ratio statistic of no effect, over the dispersion
   * @param p its two-sided p-value, by the chi-square distribution with one degree of freedom
   */
  record Fitted(Estimate ratio, double statistic, double p) implements RateSlope {
    /** One-sided p-value: chance of as steep a rise or steeper if there were none. */
    public double pRises() {
      return ratio.estimate() > 1 ? p / 2 : 1 - p / 2;
    }
  }

  /**
   * There is none.
   *
   * @param reason why, in one short phrase
   */
  record NotEstimable(String reason) implements RateSlope {}

  /**
   * Fits a slope.
   *
   * @param failures of each row, at least 0. Not modified.
   * @param expected of each row, at least 0. Not modified.
   * @param stratum of each row, from 0 on. Not modified.
   * @param x the number of each row, finite. Not modified.
   * @param dispersion how many times the variance of chance the failures have, at least 1
   * @param confidence of the two-sided limits, between 0 and 1
   */
  static RateSlope fit(
      double[] failures,
      double[] expected,
      int[] stratum,
      double[] x,
      double dispersion,
      double confidence) {
    return new Likelihood(failures, expected, stratum, x).fit(dispersion, confidence);
  }

  /** The conditional log-likelihood of b, with x centred and scaled. */
  final class Likelihood {
    private static final double FARTHEST = 60;

    private final double[] failures;
    private final double[] expected;
    private final int[] stratum;
    private final double[] x;
    private final double[] total;
    private final double deviation;

    private Likelihood(double[] failures, double[] expected, int[] stratum, double[] raw) {
      this.failures = failures;
      this.expected = expected;
      this.stratum = stratum;
      total = new double[Arrays.stream(stratum).max().orElse(-1) + 1];
      for (int i = 0; i < raw.length; i++) {
        total[stratum[i]] += failures[i];
      }
      double mean = Arrays.stream(raw).average().orElse(0);
      double squares = 0;
      for (double one : raw) {
        squares += (one - mean) * (one - mean);
      }
      deviation = Math.sqrt(squares / Math.max(1, raw.length));
      x = new double[raw.length];
      for (int i = 0; i < x.length && deviation > 0; i++) {
        x[i] = (raw[i] - mean) / deviation;
      }
    }

    private RateSlope fit(double dispersion, double confidence) {
      if (!(Arrays.stream(total).sum() > 0)) {
        return new NotEstimable("no failures");
      }
      if (!(deviation > 0) || !(at(0)[2] > 0)) {
        return new NotEstimable("the number does not vary among parts that can be compared");
      }
      double side = at(0)[1] >= 0 ? 1 : -1;
      if (allAtEnd(side)) {
        return new NotEstimable("all failures lie at one end of the number");
      }
      double far = 0.25;
      while (far <= FARTHEST && side * at(side * far)[1] > 0) {
        far *= 2;
      }
      OptionalDouble peak =
          far > FARTHEST
              ? OptionalDouble.empty()
              : Roots.between(b -> at(b)[1], Math.min(0, side * far), Math.max(0, side * far));
      if (peak.isEmpty()) {
        return new NotEstimable("all failures lie at one end of the number");
      }
      return fitted(peak.getAsDouble(), dispersion, confidence);
    }

    /**
     * Whether each failure lies where the number is greatest, or least, in its stratum: the
     * likelihood then rises for ever, and far out its slope is no more than rounding.
     */
    private boolean allAtEnd(double side) {
      double[] end = new double[total.length];
      Arrays.fill(end, Double.NEGATIVE_INFINITY);
      for (int i = 0; i < x.length; i++) {
        if (expected[i] > 0) {
          end[stratum[i]] = Math.max(end[stratum[i]], side * x[i]);
        }
      }
      for (int i = 0; i < x.length; i++) {
        if (failures[i] > 0 && side * x[i] < end[stratum[i]]) {
          return false;
        }
      }
      return true;
    }

    private Fitted fitted(double peak, double dispersion, double confidence) {
      double top = at(peak)[0];
      double statistic = Math.max(0, 2 * (top - at(0)[0])) / dispersion;
      double drop = Quantiles.chiSquare(confidence, 1) * dispersion / 2;
      double lower = limit(peak, -1, top - drop);
      double upper = limit(peak, 1, top - drop);
      Estimate ratio = new Estimate(perUnit(peak), perUnit(lower), perUnit(upper));
      return new Fitted(ratio, statistic, Quantiles.chiSquareTail(statistic, 1));
    }

    private double perUnit(double b) {
      return Math.exp(b / deviation);
    }

    private double limit(double peak, double side, double level) {
      for (double far = 0.5; far <= FARTHEST; far *= 2) {
        double end = peak + side * far;
        if (at(end)[0] < level) {
          return Roots.between(b -> at(b)[0] - level, Math.min(peak, end), Math.max(peak, end))
              .orElse(side * Double.POSITIVE_INFINITY);
        }
      }
      return side * Double.POSITIVE_INFINITY;
    }

    /** Value, slope and curvature (with its sign turned) of the log-likelihood at b. */
    private double[] at(double b) {
      double[] sum = new double[total.length];
      double[] first = new double[total.length];
      double[] second = new double[total.length];
      double value = 0;
      double slope = 0;
      for (int i = 0; i < x.length; i++) {
        double weight = expected[i] * Math.exp(b * x[i]);
        sum[stratum[i]] += weight;
        first[stratum[i]] += weight * x[i];
        second[stratum[i]] += weight * x[i] * x[i];
        value += failures[i] * b * x[i];
        slope += failures[i] * x[i];
      }
      double curvature = 0;
      for (int s = 0; s < total.length; s++) {
        if (total[s] > 0 && sum[s] > 0) {
          double mean = first[s] / sum[s];
          value -= total[s] * Math.log(sum[s]);
          slope -= total[s] * mean;
          curvature += total[s] * Math.max(0, second[s] / sum[s] - mean * mean);
        }
      }
      return new double[] {value, slope, curvature};
    }
  }
}

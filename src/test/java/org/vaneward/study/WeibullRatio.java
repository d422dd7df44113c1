package org.vaneward.study;

import java.util.Arrays;

/**
 * Likelihood-ratio statistics of a true Weibull shape, scale and 10% life, written down once more
 * by the plain definition for exact and right-censored lives from age 0: what a profile limit holds
 * or does not hold, without computing the limit.
 *
 * <p>With q the age by which the share 1 - exp(-c) has failed, the log-likelihood is r log shape +
 * r log c + (shape - 1) sum(log t) - r shape log q - c sum (t/q)^shape, concave in the shape.
 */
final class WeibullRatio {
  /** Cumulative hazard at the 10% life. */
  static final double TENTH = -Math.log(0.9);

  private final double[] logAge;
  private final int failures;
  private final double sumFailed;

  /**
   * The failures come first.
   *
   * @param logAge logs of all ages, those of failures first
   */
  WeibullRatio(double[] logAge, int failures) {
    this.logAge = logAge.clone();
    this.failures = failures;
    sumFailed = Arrays.stream(logAge, 0, failures).sum();
  }

  /**
   * Twice the drop from the best log-likelihood to the best at a true value.
   *
   * @return of shape, of scale, of the 10% life; empty when the maximum is not finite
   */
  double[] statistics(double shape, double logScale) {
    double best = bestShape();
    if (!(best < 1e6)) {
      return new double[0];
    }
    double top = atShape(best);
    return new double[] {
      2 * (top - atShape(shape)),
      2 * (top - atQuantile(logScale, 1)),
      2 * (top - atQuantile(logScale + Math.log(TENTH) / shape, TENTH))
    };
  }

  /** The best shape, by Newton's method on the profile. */
  double bestShape() {
    double greatest = Arrays.stream(logAge).max().orElseThrow();
    double low = 0;
    double high = Double.POSITIVE_INFINITY;
    double b = 1;
    for (int i = 0; i < 200; i++) {
      double s0 = 0;
      double s1 = 0;
      double s2 = 0;
      for (double y : logAge) {
        double off = y - greatest;
        double e = Math.exp(b * off);
        s0 += e;
        s1 += e * off;
        s2 += e * off * off;
      }
      double mean = s1 / s0;
      double slope = failures / b + sumFailed - failures * (greatest + mean);
      double curve = -failures / (b * b) - failures * (s2 / s0 - mean * mean);
      if (slope > 0) {
        low = b;
      } else {
        high = b;
      }
      double next = b - slope / curve;
      if (!(next > low && next < high)) {
        next = high < Double.POSITIVE_INFINITY ? (low + high) / 2 : 2 * b;
      }
      if (Math.abs(next - b) <= 1e-12 * b || next > 1e7) {
        return next;
      }
      b = next;
    }
    return b;
  }

  /** Log of the best scale for a shape. */
  double bestLogScale(double b) {
    double greatest = Arrays.stream(logAge).max().orElseThrow();
    double sum = 0;
    for (double y : logAge) {
      sum += Math.exp(b * (y - greatest));
    }
    return greatest + Math.log(sum / failures) / b;
  }

  /** Log-likelihood at a shape and the best scale for it. */
  double atShape(double b) {
    double greatest = Arrays.stream(logAge).max().orElseThrow();
    double sum = 0;
    for (double y : logAge) {
      sum += Math.exp(b * (y - greatest));
    }
    double r = failures;
    return r * Math.log(b) + (b - 1) * sumFailed - r * (Math.log(sum / r) + b * greatest) - r;
  }

  /** Best log-likelihood with the age of cumulative hazard c held. */
  double atQuantile(double logAgeHeld, double c) {
    double low = 0;
    double high = Double.POSITIVE_INFINITY;
    double b = 1;
    double r = failures;
    for (int i = 0; i < 200; i++) {
      double slope = r / b + sumFailed - r * logAgeHeld;
      double curve = -r / (b * b);
      for (double y : logAge) {
        double off = y - logAgeHeld;
        double h = c * Math.exp(b * off);
        slope -= h * off;
        curve -= h * off * off;
      }
      if (slope > 0) {
        low = b;
      } else {
        high = b;
      }
      double next = b - slope / curve;
      if (!(next > low && next < high)) {
        next = high < Double.POSITIVE_INFINITY ? (low + high) / 2 : 2 * b;
      }
      if (Math.abs(next - b) <= 1e-12 * b) {
        b = next;
        break;
      }
      b = next;
    }
    double hazard = 0;
    for (double y : logAge) {
      hazard += c * Math.exp(b * (y - logAgeHeld));
    }
    return r * Math.log(b) + r * Math.log(c) + (b - 1) * sumFailed - r * b * logAgeHeld - hazard;
  }
}

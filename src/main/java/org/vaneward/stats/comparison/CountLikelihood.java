package org.vaneward.stats.comparison;

import org.apache.commons.numbers.gamma.LogGamma;

/**
 * Log-likelihood of negative binomial counts with exposure, in the mean rate m and the spread phi =
 * 1 / shape, where it goes over into the Poisson one without loss as phi goes to 0:
 *
 * <p>sum over units of [sum over j below y of log(1 + j phi) - (1 / phi + y) log(1 + phi m t) + y
 * log(m t) - log y!].
 */
final class CountLikelihood {
  private static final double MOST = 1e6;
  private static final int STEPS = 100;

  /** Below this u the difference log(1 + u) - u / (1 + u) is summed as a series. */
  private static final double SMALL = 0.05;

  private final double[] count;
  private final double[] exposure;

  /** How many units have more than j failures. */
  private final int[] unitsAbove;

  private final double events;
  private final double totalExposure;
  private final double logFactorials;

  private CountLikelihood(double[] count, double[] exposure, int[] unitsAbove) {
    this.count = count;
    this.exposure = exposure;
    this.unitsAbove = unitsAbove;
    double sum = 0;
    double time = 0;
    double factorials = 0;
    for (int i = 0; i < count.length; i++) {
      sum += count[i];
      time += exposure[i];
      factorials += LogGamma.value(count[i] + 1);
    }
    events = sum;
    totalExposure = time;
    logFactorials = factorials;
  }

  static CountLikelihood of(double[] counts, double[] exposures) {
    if (counts.length != exposures.length) {
      throw new IllegalArgumentException(
          "exposures are given for " + exposures.length + " units of " + counts.length);
    }
    double greatest = 0;
    for (int i = 0; i < counts.length; i++) {
      check(counts[i], exposures[i]);
      greatest = Math.max(greatest, counts[i]);
    }
    int[] above = new int[(int) greatest];
    for (double y : counts) {
      if (y > 0) {
        above[(int) y - 1]++;
      }
    }
    for (int j = above.length - 2; j >= 0; j--) {
      above[j] += above[j + 1];
    }
    return new CountLikelihood(counts.clone(), exposures.clone(), above);
  }

  private static void check(double count, double exposure) {
    if (!(count >= 0 && count <= MOST && count == Math.rint(count))) {
      throw new IllegalArgumentException(
          "a count is a whole number from 0 to a million, not " + count);
    }
    if (!(exposure >= 0 && exposure < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException("an exposure is finite and not negative, not " + exposure);
    }
    if (count > 0 && exposure == 0) {
      throw new IllegalArgumentException("a unit without exposure has failed " + count + " times");
    }
  }

  int units() {
    return count.length;
  }

  double count(int i) {
    return count[i];
  }

  double exposure(int i) {
    return exposure[i];
  }

  double events() {
    return events;
  }

  double exposure() {
    return totalExposure;
  }

  int exposedUnits() {
    int units = 0;
    for (double t : exposure) {
      if (t > 0) {
        units++;
      }
    }
    return units;
  }

  /** Greatest expected count at the pooled rate. */
  double greatestMean() {
    double greatest = 0;
    for (double t : exposure) {
      greatest = Math.max(greatest, t);
    }
    return greatest / totalExposure * events;
  }

  /** The Poisson log-likelihood at the pooled rate. */
  double poisson() {
    if (events == 0) {
      return 0;
    }
    double logRate = Math.log(events) - Math.log(totalExposure);
    double sum = -events - logFactorials;
    for (int i = 0; i < count.length; i++) {
      if (count[i] > 0) {
        sum += count[i] * (logRate + Math.log(exposure[i]));
      }
    }
    return sum;
  }

  /** The log of the mean rate that is best at a given spread: the root of a falling function. */
  double bestLogMean(double logSpread) {
    double phi = Math.exp(logSpread);
    double logMean = Math.log(events) - Math.log(totalExposure);
    double low = Double.NEGATIVE_INFINITY;
    double high = Double.POSITIVE_INFINITY;
    for (int step = 0; step < STEPS; step++) {
      double score = 0;
      double slope = 0;
      double m = Math.exp(logMean);
      for (int i = 0; i < count.length; i++) {
        double mean = m * exposure[i];
        double u = phi * mean;
        score += (count[i] - mean) / (1 + u);
        slope += mean * (1 + phi * count[i]) / (1 + u) / (1 + u);
      }
      if (score > 0) {
        low = logMean;
      } else {
        high = logMean;
      }
      // in log m the score bends; a step of at most 1 keeps to where the slope means something
      double move = Math.max(-1, Math.min(1, score / slope));
      if (Math.abs(move) <= 1e-15 * Math.max(1, Math.abs(logMean))) {
        return logMean;
      }
      double next = logMean + move;
      logMean = next > low && next < high ? next : low + (high - low) / 2;
    }
    return logMean;
  }

  /** The log-likelihood. */
  double value(double logSpread, double logMean) {
    double phi = Math.exp(logSpread);
    double sum = -logFactorials;
    for (int j = 1; j < unitsAbove.length; j++) {
      sum += unitsAbove[j] * Math.log1p(j * phi);
    }
    for (int i = 0; i < count.length; i++) {
      if (exposure[i] > 0) {
        double logU = logSpread + logMean + Math.log(exposure[i]);
        double log1u = logU > 700 ? logU : Math.log1p(Math.exp(logU));
        double term = -log1u / phi - count[i] * log1u;
        sum += count[i] > 0 ? term + count[i] * (logU - logSpread) : term;
      }
    }
    return sum;
  }

  /**
   * Derivatives in (log spread, log mean): gradient, then second derivatives spread-spread,
   * spread-mean, mean-mean.
   */
  double[] derivatives(double logSpread, double logMean) {
    double phi = Math.exp(logSpread);
    double m = Math.exp(logMean);
    double[] d = new double[5];
    for (int j = 1; j < unitsAbove.length; j++) {
      double s = j * phi / (1 + j * phi);
      d[0] += unitsAbove[j] * s;
      d[2] += unitsAbove[j] * s * (1 - s);
    }
    for (int i = 0; i < count.length; i++) {
      double y = count[i];
      double mean = m * exposure[i];
      double u = phi * mean;
      double w = 1 / (1 + u);
      double bend = bend(u);
      d[0] += bend / phi - y * u * w;
      d[1] += w * (y - mean);
      d[2] += (u * w * u * w - bend) / phi - y * u * w * w;
      d[3] -= u * w * w * (y - mean);
      d[4] -= u * w * w * (y - mean) + w * mean;
    }
    return d;
  }

  /** log(1 + u) - u / (1 + u). */
  private static double bend(double u) {
    if (u > SMALL) {
      return Math.log1p(u) - u / (1 + u);
    }
    double sum = 0;
    double power = u;
    for (int k = 2; k < 20; k++) {
      power *= -u;
      sum -= power * (k - 1) / k;
    }
    return sum;
  }
}

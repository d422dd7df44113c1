package org.vaneward.stats.comparison;

import java.util.ArrayList;
import java.util.List;
import org.vaneward.stats.numeric.Quantiles;

/**
 * How many of a known number of failures fall to a group, when each stratum's failures fall to it
 * independently with a chance of its own: a sum of binomial variables.
 *
 * <p>Worked out exactly, by convolution, while its standard deviation is at most {@value
 * #EXACT_DEVIATION}; beyond that by the normal distribution with a correction for continuity, which
 * is then close as far out as five standard deviations.
 */
final class FailureShare {
  /** Beyond this standard deviation the normal distribution takes over. */
  static final double EXACT_DEVIATION = 40;

  /** A probability this far below a stratum's greatest is nothing. */
  private static final double NOTHING = 1e-30;

  private final double mean;
  private final double variance;
  private final int least;
  private final double[] probability;

  private FailureShare(double mean, double variance, int least, double[] probability) {
    this.mean = mean;
    this.variance = variance;
    this.least = least;
    this.probability = probability;
  }

  /**
   * The distribution.
   *
   * @param failures failures of each stratum, whole numbers. Not modified.
   * @param chance chance that one of them falls to the group, between 0 and 1. Not modified.
   */
  static FailureShare of(int[] failures, double[] chance) {
    double mean = 0;
    double variance = 0;
    for (int s = 0; s < failures.length; s++) {
      mean += failures[s] * chance[s];
      variance += failures[s] * chance[s] * (1 - chance[s]);
    }
    if (variance > EXACT_DEVIATION * EXACT_DEVIATION) {
      return new FailureShare(mean, variance, 0, new double[0]);
    }
    List<Part> parts = new ArrayList<>();
    for (int s = 0; s < failures.length; s++) {
      parts.add(binomial(failures[s], chance[s]));
    }
    Part sum = new Part(0, 1, new double[] {1});
    for (Part part : parts) {
      sum = sum.plus(part);
    }
    return new FailureShare(mean, variance, sum.least, sum.probability);
  }

  /** Mean number that falls to the group. */
  double mean() {
    return mean;
  }

  /** Its variance. */
  double variance() {
    return variance;
  }

  /** Chance that at least {@code count} fall to the group. */
  double atLeast(int count) {
    if (probability.length == 0) {
      return Quantiles.normalShare((mean - count + 0.5) / Math.sqrt(variance));
    }
    double sum = 0;
    for (int i = probability.length - 1; i >= Math.max(0, count - least); i--) {
      sum += probability[i];
    }
    return Math.min(1, sum);
  }

  /** Chance that at most {@code count} fall to the group. */
  double atMost(int count) {
    if (probability.length == 0) {
      return Quantiles.normalShare((count + 0.5 - mean) / Math.sqrt(variance));
    }
    double sum = 0;
    for (int i = 0; i < probability.length && i <= count - least; i++) {
      sum += probability[i];
    }
    return Math.min(1, sum);
  }

  /**
   * The binomial distribution, its far tails cut off: from the mode outwards, each from the last.
   */
  private static Part binomial(int n, double p) {
    if (!(p > 0) || n == 0) {
      return new Part(0, 1, new double[] {1});
    }
    if (!(p < 1)) {
      return new Part(n, 1, new double[] {1});
    }
    int mode = (int) Math.min(n, Math.floor((n + 1) * p));
    double odds = p / (1 - p);
    double[] whole = new double[n + 1];
    whole[mode] = 1;
    double sum = 1;
    int last = mode;
    for (int k = mode; k < n && whole[k] > NOTHING; k++) {
      whole[k + 1] = whole[k] * odds * (n - k) / (k + 1);
      sum += whole[k + 1];
      last = k + 1;
    }
    int first = mode;
    for (int k = mode; k > 0 && whole[k] > NOTHING; k--) {
      whole[k - 1] = whole[k] / odds * k / (n - k + 1);
      sum += whole[k - 1];
      first = k - 1;
    }
    double[] kept = new double[last - first + 1];
    System.arraycopy(whole, first, kept, 0, kept.length);
    return new Part(first, sum, kept);
  }

  /** Some probabilities from {@code least} on, each times {@code scale}. */
  private static final class Part {
    private final int least;
    private final double[] probability;

    Part(int least, double scale, double[] scaled) {
      this.least = least;
      probability = scaled;
      for (int i = 0; i < scaled.length; i++) {
        scaled[i] /= scale;
      }
    }

    Part plus(Part other) {
      double[] sum = new double[probability.length + other.probability.length - 1];
      for (int i = 0; i < probability.length; i++) {
        for (int j = 0; j < other.probability.length; j++) {
          sum[i + j] += probability[i] * other.probability[j];
        }
      }
      return new Part(least + other.least, 1, sum);
    }
  }
}

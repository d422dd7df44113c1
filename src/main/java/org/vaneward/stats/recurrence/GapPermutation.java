package org.vaneward.stats.recurrence;

import java.util.List;
import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.simple.RandomSource;
import org.vaneward.stats.numeric.Quantiles;

/**
 * A test of scores against their place in the order of each unit, by permuting the scores within
 * units: the sum over units of (place - mean place) times score, against its law over all orders.
 *
 * <p>If the gaps of a unit are drawn from one distribution, every order of its complete gaps is as
 * likely given their number, also when observation stops at a set time: the chance of the gaps and
 * of the unfinished one after them depends on their sum alone.
 */
final class GapPermutation {
  /** With more scores than this the normal law has all the digits that matter. */
  private static final int MANY = 2_000;

  private static final double ROUNDING = 1e-12;

  private final List<double[]> scores;
  private final int total;

  /** Sum of (place - mean) times score. */
  final double sum;

  /** Sum of (place - mean)², so that {@code sum / squares} is the slope for each place. */
  final double squares;

  /** Variance of {@link #sum} over all orders. */
  final double variance;

  /**
   * Prepares the test.
   *
   * @param scores of each unit in order; units with fewer than two tell nothing
   */
  GapPermutation(List<double[]> scores) {
    this.scores = scores.stream().filter(x -> x.length > 1).toList();
    double s = 0;
    double p = 0;
    double v = 0;
    int n = 0;
    for (double[] x : this.scores) {
      double places = x.length * ((double) x.length * x.length - 1) / 12;
      s += sum(x);
      p += places;
      v += places * spread(x) / (x.length - 1);
      n += x.length;
    }
    sum = s;
    squares = p;
    variance = v;
    total = n;
  }

  /** Scores that take part. */
  int total() {
    return total;
  }

  /** Units that take part. */
  int units() {
    return scores.size();
  }

  /** The sum in standard deviations. */
  double z() {
    return sum / Math.sqrt(variance);
  }

  private static double sum(double[] x) {
    double middle = (x.length - 1) / 2.0;
    double sum = 0;
    for (int k = 0; k < x.length; k++) {
      sum += (k - middle) * x[k];
    }
    return sum;
  }

  private static double spread(double[] x) {
    double mean = 0;
    for (double value : x) {
      mean += value / x.length;
    }
    double sum = 0;
    double size = 0;
    for (double value : x) {
      sum += (value - mean) * (value - mean);
      size += value * value;
    }
    return sum > ROUNDING * ROUNDING * size ? sum : 0;
  }

  /**
   * Two-sided p-value: the share of orders, the given one counted, that lie at least as far off.
   */
  double p(int draws, long seed) {
    if (total > MANY) {
      return 2 * Quantiles.normalShare(-Math.abs(z()));
    }
    double bound = Math.abs(sum) * (1 - ROUNDING);
    UniformRandomProvider random = RandomSource.L64_X128_MIX.create(seed);
    double[][] shuffled = scores.stream().map(double[]::clone).toArray(double[][]::new);
    int asFar = 0;
    for (int draw = 0; draw < draws; draw++) {
      double drawn = 0;
      for (double[] x : shuffled) {
        shuffle(x, random);
        drawn += sum(x);
      }
      asFar += Math.abs(drawn) >= bound ? 1 : 0;
    }
    return (1.0 + asFar) / (1.0 + draws);
  }

  private static void shuffle(double[] x, UniformRandomProvider random) {
    for (int k = x.length - 1; k > 0; k--) {
      int other = random.nextInt(k + 1);
      double held = x[k];
      x[k] = x[other];
      x[other] = held;
    }
  }
}

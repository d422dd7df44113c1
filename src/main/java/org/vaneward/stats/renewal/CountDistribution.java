package org.vaneward.stats.renewal;

import java.util.Arrays;
import org.vaneward.stats.distribution.Weibull;

/**
 * The distribution of a count: how many parts are used or pumps stop, with the chance of each
 * number.
 *
 * <p>Immutable. Numbers with a chance below some 1e-16 may be left out.
 */
public final class CountDistribution {
  private static final double NO_CHANCE = 1e-18;
  private static final double NEGLIGIBLE = 1e-13;

  private final double[] chance;

  private CountDistribution(double[] chance) {
    this.chance = chance;
  }

  /**
   * Renewals in (0, horizon] at one position whose first part is new at 0 and whose parts are
   * renewed when, and only when, they fail.
   *
   * @param horizon not negative, in the unit of the life
   * @throws IllegalArgumentException when it is negative, or so many mean lives long (240 at a
   *     shape of 2.5) that the sums would not end; the message says how far they go
   */
  public static CountDistribution ofRenewals(Weibull life, double horizon) {
    if (!(horizon >= 0 && horizon < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException("a horizon is finite and not negative, not " + horizon);
    }
    return horizon > 0 ? RenewalCounts.of(life, horizon) : new CountDistribution(new double[] {1});
  }

  /** From the chances of at least k, k = 0, 1, …, which fall from 1. */
  static CountDistribution of(double[] atLeast) {
    double[] chance = new double[atLeast.length];
    for (int k = 0; k < chance.length; k++) {
      chance[k] = atLeast[k] - (k + 1 < atLeast.length ? atLeast[k + 1] : 0);
    }
    return new CountDistribution(chance);
  }

  /**
   * What counts drawn alike come to, each as likely as any other.
   *
   * @param counts at least one, none negative
   * @throws IllegalArgumentException when there is none or one is negative
   */
  public static CountDistribution ofDraws(int[] counts) {
    int most = Arrays.stream(counts).max().orElse(-1);
    if (Arrays.stream(counts).min().orElse(-1) < 0) {
      throw new IllegalArgumentException("at least one count, and none below 0, makes chances");
    }
    double[] chance = new double[most + 1];
    for (int count : counts) {
      chance[count] += 1.0 / counts.length;
    }
    return new CountDistribution(chance);
  }

  /**
   * Poisson events at a rate that is known by a gamma distribution only: the negative binomial.
   *
   * @param shape of the gamma distribution, positive: events seen, and a half where nothing is
   *     known beforehand (the prior of Jeffreys)
   * @param exposureSeen its rate parameter, positive: exposure in which they were seen
   * @param exposure ahead, not negative, in the same unit
   * @throws IllegalArgumentException when a number is out of its domain
   */
  public static CountDistribution gammaPoisson(double shape, double exposureSeen, double exposure) {
    if (!(shape > 0 && exposureSeen > 0 && exposure >= 0)
        || !(shape + exposureSeen + exposure < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException(
          "events and exposure seen are positive and finite, exposure ahead is not negative: "
              + shape
              + ", "
              + exposureSeen
              + ", "
              + exposure);
    }
    double share = exposure / (exposureSeen + exposure);
    double chance = Math.exp(shape * Math.log1p(-share));
    if (!(chance > 0)) {
      throw new IllegalArgumentException(
          "so many events are expected, "
              + shape * exposure / exposureSeen
              + ", that their chances cannot be summed from 0 on");
    }
    double[] chances = new double[16];
    int n = 0;
    double left = 1;
    // Past the middle and beyond a rounding of the whole nothing more is worth summing.
    for (int k = 0; left > NEGLIGIBLE || k < shape * exposure / exposureSeen; k++) {
      chances = k < chances.length ? chances : Arrays.copyOf(chances, 2 * k);
      chances[k] = chance;
      left -= chance;
      n = k + 1;
      chance *= share * (shape + k) / (k + 1);
    }
    return new CountDistribution(Arrays.copyOf(chances, n));
  }

  /** The sum of this count and another independent of it. */
  public CountDistribution plus(CountDistribution other) {
    return new CountDistribution(added(chance, other.chance));
  }

  /**
   * The sum of {@code n} independent counts with this distribution, by repeated doubling.
   *
   * @param n at least 1
   */
  public CountDistribution times(int n) {
    if (n < 1) {
      throw new IllegalArgumentException("at least 1 count is summed, not " + n);
    }
    double[] sum = {1};
    double[] power = chance;
    for (int left = n; left > 0; left >>= 1) {
      if ((left & 1) == 1) {
        sum = added(sum, power);
      }
      if (left > 1) {
        power = added(power, power);
      }
    }
    return new CountDistribution(sum);
  }

  private static double[] added(double[] a, double[] b) {
    double[] sum = new double[a.length + b.length - 1];
    for (int i = 0; i < a.length; i++) {
      if (a[i] > NO_CHANCE) {
        for (int j = 0; j < b.length; j++) {
          sum[i + j] += a[i] * b[j];
        }
      }
    }
    int last = sum.length - 1;
    while (last > 0 && sum[last] < NO_CHANCE) {
      last--;
    }
    return Arrays.copyOf(sum, last + 1);
  }

  /** Chance of exactly {@code k}. */
  public double chance(int k) {
    return k >= 0 && k < chance.length ? chance[k] : 0;
  }

  /** Chance of at most {@code k}. */
  public double atMost(int k) {
    double total = 0;
    for (int i = 0; i <= Math.min(k, largest()); i++) {
      total += chance[i];
    }
    return Math.min(1, total);
  }

  /** The largest number with a chance worth naming. */
  public int largest() {
    return chance.length - 1;
  }

  /** Mean. */
  public double mean() {
    double total = 0;
    for (int k = 0; k < chance.length; k++) {
      total += k * chance[k];
    }
    return total;
  }

  /** Standard deviation. */
  public double standardDeviation() {
    double mean = mean();
    double total = 0;
    for (int k = 0; k < chance.length; k++) {
      total += (k - mean) * (k - mean) * chance[k];
    }
    return Math.sqrt(total);
  }

  /**
   * The least number that is enough with probability {@code p}.
   *
   * @throws IllegalArgumentException unless {@code 0 < p < 1}
   */
  public int quantile(double p) {
    if (!(p > 0 && p < 1)) {
      throw new IllegalArgumentException("a probability is between 0 and 1, not " + p);
    }
    double total = 0;
    for (int k = 0; k < chance.length; k++) {
      total += chance[k];
      if (total >= p) {
        return k;
      }
    }
    return largest();
  }
}

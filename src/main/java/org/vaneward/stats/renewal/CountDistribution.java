package org.vaneward.stats.renewal;

import java.util.Arrays;
import org.vaneward.stats.distribution.Weibull;

/**
 * The distribution of a count: how many parts are used, with the chance of each number.
 *
 * <p>Immutable. Numbers with a chance below some 1e-16 may be left out.
 */
public final class CountDistribution {
  private static final double NO_CHANCE = 1e-18;

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

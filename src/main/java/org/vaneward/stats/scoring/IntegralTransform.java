package org.vaneward.stats.scoring;

import org.vaneward.stats.renewal.CountDistribution;

/**
 * Where what came stands in what was forecast: the probability integral transform, which is uniform
 * from 0 to 1 over many forecasts that are calibrated. A count stands between the chance of less
 * and the chance of at most what came, and is spread evenly over that stretch.
 *
 * <p><em>Source</em>: C. Czado, T. Gneiting and L. Held, Biometrics 65, 2009, 1254-1261 (the
 * nonrandomised transform), from memory.
 *
 * @param from chance of less than what came
 * @param to chance of at most what came
 */
public record IntegralTransform(double from, double to) {
  /** Checks. */
  public IntegralTransform {
    if (!(from >= 0 && from <= to && to <= 1)) {
      throw new IllegalArgumentException("chances from 0 to 1 that rise, not " + from + ", " + to);
    }
  }

  /** Where {@code came} stands in {@code forecast}. */
  public static IntegralTransform of(CountDistribution forecast, int came) {
    double below = came == 0 ? 0 : forecast.atMost(came - 1);
    return new IntegralTransform(below, Math.max(below, forecast.atMost(came)));
  }

  /** The middle of the stretch. */
  public double middle() {
    return (from + to) / 2;
  }

  /** How much of it lies between two bounds, as a share of the stretch. */
  public double within(double low, double high) {
    if (to == from) {
      return low <= from && (from < high || high >= 1) ? 1 : 0;
    }
    return Math.max(0, Math.min(to, high) - Math.max(from, low)) / (to - from);
  }

  /**
   * How many of some lie in each of {@code bins} equal parts of 0 to 1, spread ones by their share.
   */
  public static double[] histogram(Iterable<IntegralTransform> all, int bins) {
    double[] counts = new double[bins];
    for (IntegralTransform one : all) {
      for (int b = 0; b < bins; b++) {
        counts[b] += one.within((double) b / bins, (b + 1.0) / bins);
      }
    }
    return counts;
  }
}

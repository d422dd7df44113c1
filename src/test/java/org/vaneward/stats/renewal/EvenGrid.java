package org.vaneward.stats.renewal;

import org.vaneward.stats.distribution.LifeDistribution;

/**
 * The renewal function by Stieltjes sums with midpoints on an even grid (M. Xie, Communications in
 * Statistics: Simulation 18, 1989, from memory), with steps of h and h / 2 and one extrapolation.
 */
final class EvenGrid {
  private EvenGrid() {}

  /** M at 0, to/60, …, to. */
  static double[] extrapolated(LifeDistribution life, double to, int steps) {
    double[] coarse = sums(life, to, steps);
    double[] fine = sums(life, to, 2 * steps);
    double[] found = new double[61];
    for (int i = 0; i <= 60; i++) {
      double one = coarse[i * steps / 60];
      double half = fine[i * 2 * steps / 60];
      found[i] = half + (half - one) / 3;
    }
    return found;
  }

  private static double[] sums(LifeDistribution life, double to, int steps) {
    double h = to / steps;
    double[] between = new double[steps + 1];
    for (int i = 1; i <= steps; i++) {
      between[i] = life.failed((i - 0.5) * h);
    }
    double[] m = new double[steps + 1];
    for (int i = 1; i <= steps; i++) {
      double total = life.failed(i * h) - between[1] * m[i - 1];
      for (int j = 1; j < i; j++) {
        total += (m[j] - m[j - 1]) * between[i - j + 1];
      }
      m[i] = total / (1 - between[1]);
    }
    return m;
  }
}

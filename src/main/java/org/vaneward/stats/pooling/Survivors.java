package org.vaneward.stats.pooling;

import org.apache.commons.numbers.gamma.Erfc;

/**
 * The chance that lives none of which failed were survived, when the log of their cumulative hazard
 * is normally distributed: the mean of exp(-exp(z)).
 *
 * <p>Integrated by parts it is the mean of the normal distribution function at an age of unit
 * exponential hazard, on the log scale: the integral of Phi((t - mean) / sd) exp(t - exp(t)). The
 * second factor does not know how widely z scatters, so that the same nodes do for any: the
 * trapezoidal rule, whose error falls exponentially with their number.
 */
final class Survivors {
  /** Least standard deviation at which the nodes are dense enough. */
  static final double LEAST_SD = 0.6;

  private static final double FROM = -35;
  private static final double TO = 4;
  private static final Survivors USUAL = new Survivors(0.3);
  private static final Survivors FINE = new Survivors(0.15);

  private final double[] t;
  private final double[] weight;

  private Survivors(double step) {
    int n = 1 + (int) Math.round((TO - FROM) / step);
    t = new double[n];
    weight = new double[n];
    for (int i = 0; i < n; i++) {
      t[i] = FROM + step * i;
      weight[i] = step * Math.exp(t[i] - Math.exp(t[i]));
    }
  }

  /**
   * Log of the mean.
   *
   * @param mean of the log hazard
   * @param sd its standard deviation, at least {@link #LEAST_SD}
   * @param fine whether with twice as many nodes
   */
  static double logChance(double mean, double sd, boolean fine) {
    Survivors nodes = fine ? FINE : USUAL;
    double sum = 0;
    for (int i = 0; i < nodes.t.length; i++) {
      sum += nodes.weight[i] * Erfc.value((mean - nodes.t[i]) / (sd * Math.sqrt(2))) / 2;
    }
    return Math.log(sum);
  }
}

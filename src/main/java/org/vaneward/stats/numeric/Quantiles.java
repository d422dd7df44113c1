package org.vaneward.stats.numeric;

import org.apache.commons.statistics.distribution.ChiSquaredDistribution;
import org.apache.commons.statistics.distribution.NormalDistribution;

/** Quantiles and tails of the normal and the chi-square distribution. */
public final class Quantiles {
  private static final NormalDistribution NORMAL = NormalDistribution.of(0, 1);

  /** The library solves for a quantile to 1e-9; three Newton steps take it to the last digits. */
  private static final int POLISH = 3;

  /** From here down the continued fraction of the tail has all its digits at the depth below. */
  private static final double DEEP_TAIL = -10;

  private static final int FRACTION_DEPTH = 40;
  private static final double LOG_ROOT_2_PI = Math.log(2 * Math.PI) / 2;

  private Quantiles() {}

  /**
   * Standard normal quantile.
   *
   * @throws IllegalArgumentException unless {@code 0 < p < 1}
   */
  public static double normal(double p) {
    share(p);
    return NORMAL.inverseCumulativeProbability(p);
  }

  /** Chance that a standard normal variable is at most {@code z}. */
  public static double normalShare(double z) {
    return NORMAL.cumulativeProbability(z);
  }

  /**
   * Log of the chance that a standard normal variable is at most {@code z}, also far out in the
   * lower tail, where the chance itself is 0 as a double: there by the continued fraction of the
   * Mills ratio (Abramowitz and Stegun 26.2.14).
   */
  public static double logNormalShare(double z) {
    if (z > 0) {
      return Math.log1p(-NORMAL.survivalProbability(z));
    }
    if (!(z < DEEP_TAIL)) {
      return Math.log(NORMAL.cumulativeProbability(z));
    }
    double x = -z;
    double fraction = x;
    for (int k = FRACTION_DEPTH; k >= 1; k--) {
      fraction = x + k / fraction;
    }
    return -x * x / 2 - LOG_ROOT_2_PI - Math.log(fraction);
  }

  /**
   * The standard normal quantile between whose negative and itself lies the share {@code
   * confidence}.
   *
   * @throws IllegalArgumentException unless {@code 0 < confidence < 1}
   */
  public static double twoSidedNormal(double confidence) {
    share(confidence);
    return NORMAL.inverseSurvivalProbability((1 - confidence) / 2);
  }

  /**
   * Chi-square quantile.
   *
   * @param p share below it
   * @param degreesOfFreedom positive, need not be whole
   * @throws IllegalArgumentException unless {@code 0 < p < 1} and degrees of freedom are positive
   */
  public static double chiSquare(double p, double degreesOfFreedom) {
    share(p);
    freedom(degreesOfFreedom);
    if (degreesOfFreedom == 1) {
      double z = twoSidedNormal(p);
      return z * z;
    }
    if (degreesOfFreedom == 2) {
      return -2 * Math.log1p(-p);
    }
    ChiSquaredDistribution law = ChiSquaredDistribution.of(degreesOfFreedom);
    double x = law.inverseCumulativeProbability(p);
    for (int i = 0; i < POLISH && x > 0; i++) {
      double miss =
          p < 0.5 ? law.cumulativeProbability(x) - p : (1 - p) - law.survivalProbability(x);
      double next = x - miss / law.density(x);
      if (!(next > 0 && next < Double.POSITIVE_INFINITY)) {
        return x;
      }
      x = next;
    }
    return x;
  }

  /**
   * Chance that a chi-square variable exceeds {@code x}: the p-value of a likelihood-ratio
   * statistic.
   *
   * @throws IllegalArgumentException unless degrees of freedom are positive
   */
  public static double chiSquareTail(double x, double degreesOfFreedom) {
    freedom(degreesOfFreedom);
    return x <= 0 ? 1 : ChiSquaredDistribution.of(degreesOfFreedom).survivalProbability(x);
  }

  private static void share(double p) {
    if (!(p > 0 && p < 1)) {
      throw new IllegalArgumentException("a share is between 0 and 1, not " + p);
    }
  }

  private static void freedom(double k) {
    if (!(k > 0 && k < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException("degrees of freedom are positive and finite, not " + k);
    }
  }
}

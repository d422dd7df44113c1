package org.vaneward.stats.numeric;

import org.apache.commons.numbers.gamma.RegularizedBeta;
import org.apache.commons.numbers.gamma.RegularizedGamma;
import org.apache.commons.statistics.distribution.ChiSquaredDistribution;
import org.apache.commons.statistics.distribution.NormalDistribution;

/**
 * Quantiles and tails of the normal, the chi-square, the gamma and the beta distribution.
 *
 * <p>Tails come from regularised incomplete functions with all their digits. Libraries that solve
 * for a quantile to an absolute accuracy lose small ones; here chi-square, gamma and beta quantiles
 * are solved for on the log or the log-odds scale, to about 1e-14 of their size ({@link
 * TailRoots}).
 */
public final class Quantiles {
  private static final NormalDistribution NORMAL = NormalDistribution.of(0, 1);

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
    if (degreesOfFreedom == 1 && p >= 0.5) {
      double z = twoSidedNormal(p);
      return z * z;
    }
    if (degreesOfFreedom == 2) {
      return -2 * Math.log1p(-p);
    }
    return 2 * TailRoots.gamma(p, degreesOfFreedom / 2);
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

  /**
   * Quantile of the gamma distribution with scale 1; divide by a rate or multiply by a scale.
   *
   * @param p share below it
   * @param shape positive and finite
   * @return the quantile; 0 when it is below the smallest number there is
   * @throws IllegalArgumentException unless {@code 0 < p < 1} and the shape is positive and finite
   */
  public static double gamma(double p, double shape) {
    share(p);
    parameter(shape);
    return TailRoots.gamma(p, shape);
  }

  /**
   * Chance that a gamma variable with scale 1 is at most {@code x}.
   *
   * @throws IllegalArgumentException unless the shape is positive and finite
   */
  public static double gammaShare(double x, double shape) {
    parameter(shape);
    return x <= 0 ? 0 : RegularizedGamma.P.value(shape, x);
  }

  /**
   * Chance that a gamma variable with scale 1 exceeds {@code x}.
   *
   * @throws IllegalArgumentException unless the shape is positive and finite
   */
  public static double gammaTail(double x, double shape) {
    parameter(shape);
    return x <= 0 ? 1 : RegularizedGamma.Q.value(shape, x);
  }

  /**
   * Quantile of the beta distribution. The quantile at p of beta(i, n - i + 1) is the rank at p of
   * the i-th of n; its median is the median rank.
   *
   * @param p share below it
   * @param a positive and finite, need not be whole
   * @param b positive and finite, need not be whole
   * @throws IllegalArgumentException unless {@code 0 < p < 1} and a and b are positive and finite
   */
  public static double beta(double p, double a, double b) {
    share(p);
    parameter(a);
    parameter(b);
    return TailRoots.beta(p, a, b);
  }

  /**
   * Chance that a beta variable is at most {@code x}.
   *
   * @throws IllegalArgumentException unless a and b are positive and finite
   */
  public static double betaShare(double x, double a, double b) {
    parameter(a);
    parameter(b);
    return x <= 0 ? 0 : x >= 1 ? 1 : RegularizedBeta.value(x, a, b);
  }

  /**
   * Chance that a beta variable exceeds {@code x}.
   *
   * @throws IllegalArgumentException unless a and b are positive and finite
   */
  public static double betaTail(double x, double a, double b) {
    parameter(a);
    parameter(b);
    return x <= 0 ? 1 : x >= 1 ? 0 : RegularizedBeta.complement(x, a, b);
  }

  private static void share(double p) {
    if (!(p > 0 && p < 1)) {
      throw new IllegalArgumentException("a share is between 0 and 1, not " + p);
    }
  }

  private static void parameter(double a) {
    if (!(a > 0 && a < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException("a parameter is positive and finite, not " + a);
    }
  }

  private static void freedom(double k) {
    if (!(k > 0 && k < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException("degrees of freedom are positive and finite, not " + k);
    }
  }
}

package org.vaneward.stats.fit;

import org.apache.commons.numbers.gamma.Erfc;
import org.apache.commons.numbers.gamma.Erfcx;

/**
 * The upper tail of the standard normal distribution at one place, with the digits a likelihood
 * needs far out: with Q the tail and Z a standard normal variable known to exceed z,
 *
 * <ul>
 *   <li>hazard = density / Q = E(Z), the inverse of the Mills ratio;
 *   <li>excess = E(Z) - z;
 *   <li>variance = Var(Z) = 1 - hazard excess.
 * </ul>
 *
 * <p>Far out the hazard is z + 1/(z + 2/(z + 3/(z + ...))), the continued fraction of the Mills
 * ratio (Abramowitz and Stegun 26.2.14); excess and variance are taken from its inner parts, where
 * nothing cancels. Set by {@link #at}; one object serves a whole sum.
 */
final class NormalTail {
  /** Half the log of 2 pi. */
  static final double LOG_ROOT_2_PI = Math.log(2 * Math.PI) / 2;

  /** From here up the continued fraction has all its digits at the depth below. */
  private static final double FAR = 6;

  private static final int DEPTH = 30;
  private static final double ROOT_HALF = Math.sqrt(0.5);
  private static final double ROOT_HALF_PI = Math.sqrt(Math.PI / 2);

  double hazard;
  double excess;
  double variance;

  /** Log of Q. */
  double log;

  /** Log of the Mills ratio: of 1 / hazard. */
  double logMills;

  void at(double z) {
    if (z > FAR) {
      far(z);
    } else if (z > 0) {
      hazard = 1 / (ROOT_HALF_PI * Erfcx.value(z * ROOT_HALF));
      excess = hazard - z;
      variance = 1 - hazard * excess;
    } else {
      below(z);
      return;
    }
    logMills = -Math.log(hazard);
    log = logMills - z * z / 2 - LOG_ROOT_2_PI;
  }

  private void far(double z) {
    double inner = z;
    for (int i = DEPTH; i >= 3; i--) {
      inner = z + i / inner;
    }
    double second = 2 / inner;
    excess = 1 / (z + second);
    hazard = z + excess;
    variance = excess * (second - excess);
  }

  private void below(double z) {
    double gone = Erfc.value(-z * ROOT_HALF) / 2;
    log = Math.log1p(-gone);
    double logDensity = -z * z / 2 - LOG_ROOT_2_PI;
    hazard = Math.exp(logDensity) / (1 - gone);
    excess = hazard - z;
    variance = 1 - hazard * excess;
    logMills = log - logDensity;
  }
}

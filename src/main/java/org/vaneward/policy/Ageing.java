package org.vaneward.policy;

import org.vaneward.stats.distribution.Exponential;
import org.vaneward.stats.distribution.LifeDistribution;
import org.vaneward.stats.distribution.Lognormal;
import org.vaneward.stats.distribution.TwoWeibulls;
import org.vaneward.stats.distribution.Weibull;

/** How a life ages. */
final class Ageing {
  /** Standard deviations below the mean log age at which a lognormal hazard is next to none. */
  private static final double QUIET_SDS = 6.5;

  private Ageing() {}

  /** Whether the failure rate rises anywhere with age. */
  static boolean rises(LifeDistribution life) {
    if (life instanceof Weibull weibull) {
      return weibull.shape() > 1;
    }
    if (life instanceof TwoWeibulls two) {
      return two.first().shape() > 1 || two.second().shape() > 1;
    }
    if (life instanceof Lognormal) {
      return true;
    }
    if (life instanceof Exponential) {
      return false;
    }
    throw new IllegalArgumentException("not known whether the failure rate rises of " + life);
  }

  /**
   * Upper bound of the slope of the log cumulative hazard against log age, wherever that hazard is
   * above 1e-10.
   */
  static double steepest(LifeDistribution life) {
    if (life instanceof Weibull weibull) {
      return weibull.shape();
    }
    if (life instanceof TwoWeibulls two) {
      return Math.max(two.first().shape(), two.second().shape());
    }
    if (life instanceof Lognormal lognormal) {
      // The hazard of a normal variable z below the mean is about the density, whose log falls by
      // z.
      return Math.max(1, QUIET_SDS / lognormal.spread());
    }
    if (life instanceof Exponential) {
      return 1;
    }
    throw new IllegalArgumentException("no steepness is known of " + life);
  }
}

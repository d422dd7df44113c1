package org.vaneward.stats.distribution;

/** A distribution of lives on (0, infinity). Ages have the unit of its scale. */
public sealed interface LifeDistribution permits Weibull, Lognormal, Exponential, TwoWeibulls {
  /** Share that outlives {@code age}; 1 at and below age 0. */
  double survival(double age);

  /** Share that has failed by {@code age}, with all its digits where it is small. */
  double failed(double age);

  /** Log of the share that outlives {@code age}. */
  double logSurvival(double age);

  /** Cumulative hazard at {@code age}; 0 at and below age 0. */
  default double cumulativeHazard(double age) {
    return -logSurvival(age);
  }

  /** Log density of failures at {@code age}; negative infinity below age 0. */
  double logDensity(double age);

  /** Failure rate at {@code age} of those that reached it. */
  double hazard(double age);

  /**
   * Age by which the share {@code p} has failed.
   *
   * @throws IllegalArgumentException unless {@code 0 < p < 1}
   */
  double quantile(double p);

  /**
   * Age that the share {@code p} outlives, with all its digits for tiny shares.
   *
   * @throws IllegalArgumentException unless {@code 0 < p < 1}
   */
  double inverseSurvival(double p);

  /** Mean life; infinite when beyond what a number can hold. */
  double mean();
}

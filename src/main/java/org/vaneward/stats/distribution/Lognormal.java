package org.vaneward.stats.distribution;

import org.vaneward.stats.numeric.Quantiles;

/**
 * Lognormal distribution: the log of the age is normal.
 *
 * @param location mean of log age, finite; exp(location) is the median life
 * @param spread standard deviation of log age, positive and finite
 */
public record Lognormal(double location, double spread) implements LifeDistribution {
  private static final double LOG_ROOT_2_PI = Math.log(2 * Math.PI) / 2;

  /**
   * A lognormal distribution.
   *
   * @throws IllegalArgumentException when the location is not finite or the spread not positive and
   *     finite
   */
  public Lognormal {
    if (!(Math.abs(location) < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException("a lognormal location is finite, not " + location);
    }
    if (!(spread > 0 && spread < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException(
          "a lognormal spread is positive and finite, not " + spread);
    }
  }

  private double z(double age) {
    return (Math.log(age) - location) / spread;
  }

  @Override
  public double survival(double age) {
    return age <= 0 ? 1 : Quantiles.normalShare(-z(age));
  }

  @Override
  public double failed(double age) {
    return age <= 0 ? 0 : Quantiles.normalShare(z(age));
  }

  @Override
  public double logSurvival(double age) {
    return age <= 0 ? 0 : Quantiles.logNormalShare(-z(age));
  }

  @Override
  public double logDensity(double age) {
    if (age <= 0) {
      return Double.NEGATIVE_INFINITY;
    }
    double logAge = Math.log(age);
    double z = (logAge - location) / spread;
    return -z * z / 2 - LOG_ROOT_2_PI - Math.log(spread) - logAge;
  }

  /** Rises from 0 to a greatest value, then falls towards 0 again. */
  @Override
  public double hazard(double age) {
    return age <= 0 ? 0 : Math.exp(logDensity(age) - logSurvival(age));
  }

  @Override
  public double quantile(double p) {
    return Math.exp(location + spread * Quantiles.normal(p));
  }

  @Override
  public double inverseSurvival(double p) {
    return Math.exp(location - spread * Quantiles.normal(p));
  }

  @Override
  public double mean() {
    return Math.exp(location + spread * spread / 2);
  }
}

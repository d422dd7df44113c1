package org.vaneward.stats.distribution;

import org.apache.commons.numbers.gamma.LogGamma;

/**
 * Weibull distribution: S(t) = exp(-(t / scale)^shape).
 *
 * <p>The shape is the slope of the line on Weibull probability paper; the scale, in the unit of
 * age, is the age by which 63.2% have failed. (Software that writes the model as a regression of
 * log age calls 1 / shape the scale and log scale the intercept.)
 *
 * @param shape shape, positive and finite
 * @param scale scale, positive and finite, in the unit of age
 */
public record Weibull(double shape, double scale) implements LifeDistribution {
  /** Below this 1 / shape the spread is worked out by series, to 1e-14. */
  private static final double SMALL = 0.05;

  private static final double[] SERIES = {
    1.6449340668482264,
    -2.4041138063191885,
    3.7881313179889835,
    -6.22156653086022,
    10.512544973839306,
    -18.150286992874612,
    31.879456059284735,
    -56.780475593477995,
    102.30164557806302,
    -186.0919190803662,
    341.2506231957703,
    -630.0773094089744,
    1170.2145262106094,
    -2184.466816943389
  };

  /**
   * A Weibull distribution.
   *
   * @throws IllegalArgumentException when a parameter is not positive and finite
   */
  public Weibull {
    if (!(shape > 0 && shape < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException("a Weibull shape is positive and finite, not " + shape);
    }
    if (!(scale > 0 && scale < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException("a Weibull scale is positive and finite, not " + scale);
    }
  }

  /** Cumulative hazard (t / scale)^shape; 0 at and below age 0. */
  @Override
  public double cumulativeHazard(double age) {
    return age <= 0 ? 0 : Math.exp(shape * Math.log(age / scale));
  }

  /** Share that outlives {@code age}. */
  @Override
  public double survival(double age) {
    return Math.exp(-cumulativeHazard(age));
  }

  /** Share that has failed by {@code age}. */
  @Override
  public double failed(double age) {
    return -Math.expm1(-cumulativeHazard(age));
  }

  /**
   * Failure rate at {@code age} of those that reached it; at age 0 it is 0, 1 / scale or infinite
   * by shape.
   */
  @Override
  public double hazard(double age) {
    if (age <= 0) {
      return shape > 1 ? 0 : shape == 1 ? 1 / scale : Double.POSITIVE_INFINITY;
    }
    return shape / scale * Math.exp((shape - 1) * Math.log(age / scale));
  }

  /** Log of the share that outlives {@code age}. */
  @Override
  public double logSurvival(double age) {
    return -cumulativeHazard(age);
  }

  /** Density of failures at {@code age}; 0 below age 0, at age 0 as the hazard. */
  public double density(double age) {
    if (age < 0) {
      return 0;
    }
    return age == 0 ? hazard(0) : Math.exp(logDensity(age));
  }

  /**
   * Log density at {@code age}: negative infinity below age 0; at age 0 negative infinity, -log
   * scale or infinity by shape.
   */
  @Override
  public double logDensity(double age) {
    if (age < 0) {
      return Double.NEGATIVE_INFINITY;
    }
    if (age == 0) {
      return Math.log(hazard(0));
    }
    double logRatio = Math.log(age / scale);
    return Math.log(shape / scale) + (shape - 1) * logRatio - Math.exp(shape * logRatio);
  }

  /** Age by which the share {@code p}, in (0, 1), has failed. */
  @Override
  public double quantile(double p) {
    Shares.check(p);
    return scale * Math.exp(Math.log(-Math.log1p(-p)) / shape);
  }

  /** Age that the share {@code p}, in (0, 1), outlives; keeps its digits for tiny shares. */
  @Override
  public double inverseSurvival(double p) {
    Shares.check(p);
    return scale * Math.exp(Math.log(-Math.log(p)) / shape);
  }

  /** Mean life, scale Gamma(1 + 1 / shape); infinite when beyond what a number can hold. */
  @Override
  public double mean() {
    return Math.exp(Math.log(scale) + LogGamma.value(1 + 1 / shape));
  }

  /** Standard deviation of lives, mean sqrt(Gamma(1 + 2 / shape) / Gamma(1 + 1 / shape)^2 - 1). */
  public double standardDeviation() {
    double x = 1 / shape;
    double logRatio = x < SMALL ? series(x) : LogGamma.value(1 + 2 * x) - 2 * LogGamma.value(1 + x);
    // For shapes near 0 the square of the mean is nothing beside the mean of the square.
    double logRoot = logRatio > 50 ? logRatio / 2 : Math.log(Math.expm1(logRatio)) / 2;
    return Math.exp(Math.log(scale) + LogGamma.value(1 + x) + logRoot);
  }

  /**
   * log Gamma(1 + 2x) - 2 log Gamma(1 + x) = sum over k of (-1)^k zeta(k) (2^k - 2) x^k / k, from
   * the series of log Gamma about 1 (Abramowitz and Stegun 6.1.33): the difference itself has no
   * digits left for small x.
   */
  private static double series(double x) {
    double sum = 0;
    for (int i = SERIES.length - 1; i >= 0; i--) {
      sum = sum * x + SERIES[i];
    }
    return sum * x * x;
  }

  /**
   * Chance that a part of age {@code age} fails within {@code further} more.
   *
   * @param age its age; one below 0 counts as 0
   * @param further not negative; 0 gives 0
   */
  public double failedWithin(double age, double further) {
    if (!(further > 0)) {
      return Double.isNaN(further) ? Double.NaN : 0;
    }
    if (age <= 0) {
      return failed(further);
    }
    // The growth of the cumulative hazard, with all its digits even for a short stretch.
    double hazard = cumulativeHazard(age) * Math.expm1(shape * Math.log1p(further / age));
    return -Math.expm1(-hazard);
  }
}

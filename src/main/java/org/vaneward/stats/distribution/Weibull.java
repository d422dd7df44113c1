package org.vaneward.stats.distribution;

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
public record Weibull(double shape, double scale) {
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
  public double cumulativeHazard(double age) {
    return age <= 0 ? 0 : Math.exp(shape * Math.log(age / scale));
  }

  /** Share that outlives {@code age}. */
  public double survival(double age) {
    return Math.exp(-cumulativeHazard(age));
  }

  /** Share that has failed by {@code age}. */
  public double failed(double age) {
    return -Math.expm1(-cumulativeHazard(age));
  }

  /**
   * Failure rate at {@code age} of those that reached it; at age 0 it is 0, 1 / scale or infinite
   * by shape.
   */
  public double hazard(double age) {
    if (age <= 0) {
      return shape > 1 ? 0 : shape == 1 ? 1 / scale : Double.POSITIVE_INFINITY;
    }
    return shape / scale * Math.exp((shape - 1) * Math.log(age / scale));
  }

  /** Age by which the share {@code p}, in (0, 1), has failed. */
  public double quantile(double p) {
    if (!(p > 0 && p < 1)) {
      throw new IllegalArgumentException("a share is between 0 and 1, not " + p);
    }
    return scale * Math.exp(Math.log(-Math.log1p(-p)) / shape);
  }

  /** Chance that a part of age {@code age} fails within {@code further} more. */
  public double failedWithin(double age, double further) {
    return -Math.expm1(cumulativeHazard(age) - cumulativeHazard(age + further));
  }
}

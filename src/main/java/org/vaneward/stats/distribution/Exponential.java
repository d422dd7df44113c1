package org.vaneward.stats.distribution;

/**
 * Exponential distribution: S(t) = exp(-t / scale). A part of such a life does not age: the chance
 * to fail within the next hour is the same at any age.
 *
 * @param scale mean life, positive and finite, in the unit of age
 */
public record Exponential(double scale) implements LifeDistribution {
  /**
   * An exponential distribution.
   *
   * @throws IllegalArgumentException when the scale is not positive and finite
   */
  public Exponential {
    if (!(scale > 0 && scale < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException(
          "an exponential scale is positive and finite, not " + scale);
    }
  }

  @Override
  public double survival(double age) {
    return Math.exp(logSurvival(age));
  }

  @Override
  public double failed(double age) {
    return -Math.expm1(logSurvival(age));
  }

  @Override
  public double logSurvival(double age) {
    return age <= 0 ? 0 : -age / scale;
  }

  @Override
  public double logDensity(double age) {
    return age < 0 ? Double.NEGATIVE_INFINITY : -Math.log(scale) - age / scale;
  }

  /** 1 / scale, at any age from 0 on. */
  @Override
  public double hazard(double age) {
    return age < 0 ? 0 : 1 / scale;
  }

  @Override
  public double quantile(double p) {
    Shares.check(p);
    return -scale * Math.log1p(-p);
  }

  @Override
  public double inverseSurvival(double p) {
    Shares.check(p);
    return -scale * Math.log(p);
  }

  @Override
  public double mean() {
    return scale;
  }
}

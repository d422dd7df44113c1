package org.vaneward.stats.fit;

import org.vaneward.stats.Estimate;
import org.vaneward.stats.distribution.Lognormal;
import org.vaneward.stats.numeric.Quantiles;

/** Two-sided limits of what a lognormal fit says. */
interface LognormalLimits extends AgeLimits {
  /** Mean of log age. */
  Estimate location();

  /** Standard deviation of log age. */
  Estimate spread();

  /**
   * Limits by the profile likelihood of each quantity: a lognormal log quantile is (k + z) / shape,
   * with the shape 1 / spread, as a Weibull one is with another z.
   */
  record Profile(Lognormal lognormal, double centre, LikelihoodRegion region)
      implements LognormalLimits {
    @Override
    public Estimate location() {
      return new Estimate(
          lognormal.location(), centre + region.leastLogAge(0), centre + region.greatestLogAge(0));
    }

    @Override
    public Estimate spread() {
      return new Estimate(lognormal.spread(), 1 / region.shapeUpper(), 1 / region.shapeLower());
    }

    @Override
    public Estimate quantile(double p) {
      double z = Quantiles.normal(p);
      return new Estimate(
          lognormal.quantile(p),
          Math.exp(centre + region.leastLogAge(z)),
          Math.exp(centre + region.greatestLogAge(z)));
    }

    @Override
    public Estimate survival(double age) {
      double logAge = Math.log(age) - centre;
      return new Estimate(
          lognormal.survival(age),
          Quantiles.normalShare(-region.greatestLogHazard(logAge)),
          Quantiles.normalShare(-region.leastLogHazard(logAge)));
    }

    @Override
    public Estimate mean() {
      return new Estimate(
          lognormal.mean(),
          Math.exp(centre + region.leastLogMean(MeanOfShape.LOGNORMAL)),
          Math.exp(centre + region.greatestLogMean(MeanOfShape.LOGNORMAL)));
    }
  }

  /**
   * Limits by the covariance of (location, log spread): symmetric in location, log spread, log
   * quantile, log mean, and for a survival probability in z = (log age - location) / spread.
   *
   * @param ofLocation variance of the location
   * @param shared its covariance with log spread
   * @param ofLogSpread variance of log spread
   * @param width of the limits in standard errors
   */
  record Wald(
      Lognormal lognormal, double ofLocation, double shared, double ofLogSpread, double width)
      implements LognormalLimits {
    @Override
    public Estimate location() {
      double half = half(1, 0);
      double location = lognormal.location();
      return new Estimate(location, location - half, location + half);
    }

    @Override
    public Estimate spread() {
      return around(lognormal.spread(), 0, 1);
    }

    @Override
    public Estimate quantile(double p) {
      return around(lognormal.quantile(p), 1, lognormal.spread() * Quantiles.normal(p));
    }

    @Override
    public Estimate survival(double age) {
      double z = (Math.log(age) - lognormal.location()) / lognormal.spread();
      double half = half(-1 / lognormal.spread(), -z);
      return new Estimate(
          lognormal.survival(age),
          Quantiles.normalShare(-z - half),
          Quantiles.normalShare(half - z));
    }

    @Override
    public Estimate mean() {
      return around(lognormal.mean(), 1, lognormal.spread() * lognormal.spread());
    }

    private Estimate around(double estimate, double inLocation, double inLogSpread) {
      double half = half(inLocation, inLogSpread);
      return new Estimate(estimate, estimate * Math.exp(-half), estimate * Math.exp(half));
    }

    /** Half the width for a quantity with the given derivatives. */
    private double half(double inLocation, double inLogSpread) {
      return width
          * Math.sqrt(
              inLocation * inLocation * ofLocation
                  + 2 * inLocation * inLogSpread * shared
                  + inLogSpread * inLogSpread * ofLogSpread);
    }
  }
}

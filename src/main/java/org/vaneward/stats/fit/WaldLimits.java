package org.vaneward.stats.fit;

import org.vaneward.stats.Estimate;
import org.vaneward.stats.distribution.Weibull;
import org.vaneward.stats.fit.WeibullFit.Covariance;
import org.vaneward.stats.numeric.Quantiles;

/** Limits symmetric on the log scale, by the covariance of (log scale, log shape). */
final class WaldLimits implements Limits {
  private final Weibull weibull;
  private final Covariance covariance;
  private final double z;

  WaldLimits(Weibull weibull, Covariance covariance, double confidence) {
    this.weibull = weibull;
    this.covariance = covariance;
    z = Quantiles.twoSidedNormal(confidence);
  }

  @Override
  public Estimate shape() {
    return around(weibull.shape(), 0, 1);
  }

  @Override
  public Estimate scale() {
    return around(weibull.scale(), 1, 0);
  }

  @Override
  public Estimate quantile(double p) {
    double age = weibull.quantile(p);
    return around(age, 1, -Math.log(-Math.log1p(-p)) / weibull.shape());
  }

  @Override
  public Estimate mean() {
    return around(weibull.mean(), 1, MeanOfShape.WEIBULL.slope(weibull.shape()));
  }

  @Override
  public Estimate survival(double age) {
    double logHazard = weibull.shape() * Math.log(age / weibull.scale());
    double half = z * deviation(-weibull.shape(), logHazard);
    return new Estimate(
        weibull.survival(age),
        Math.exp(-Math.exp(logHazard + half)),
        Math.exp(-Math.exp(logHazard - half)));
  }

  private Estimate around(double estimate, double inScale, double inShape) {
    double factor = Math.exp(z * deviation(inScale, inShape));
    return new Estimate(estimate, estimate / factor, estimate * factor);
  }

  /** Standard error of a quantity with the given derivatives in log scale and log shape. */
  private double deviation(double inScale, double inShape) {
    return Math.sqrt(
        inScale * inScale * covariance.scaleScale()
            + 2 * inScale * inShape * covariance.scaleShape()
            + inShape * inShape * covariance.shapeShape());
  }
}

package org.vaneward.stats.recurrence;

import org.vaneward.stats.Estimate;
import org.vaneward.stats.fit.WeibullFit.Covariance;
import org.vaneward.stats.numeric.Quantiles;

/** Limits symmetric on the log scale, by the covariance of (log scale, log shape). */
final class WaldPowerLawLimits implements PowerLawLimits {
  private final PowerLawProcess process;
  private final Covariance covariance;
  private final double z;

  WaldPowerLawLimits(PowerLawProcess process, Covariance covariance, double confidence) {
    this.process = process;
    this.covariance = covariance;
    z = Quantiles.twoSidedNormal(confidence);
  }

  @Override
  public Estimate shape() {
    return around(process.shape(), 0, 1);
  }

  @Override
  public Estimate scale() {
    return around(process.scale(), 1, 0);
  }

  @Override
  public Estimate intensity(double age) {
    return around(process.intensity(age), -process.shape(), 1 + logCount(age));
  }

  @Override
  public Estimate meanCount(double age) {
    return around(process.meanCount(age), -process.shape(), logCount(age));
  }

  private double logCount(double age) {
    return process.shape() * Math.log(age / process.scale());
  }

  private Estimate around(double estimate, double inScale, double inShape) {
    double variance =
        inScale * inScale * covariance.scaleScale()
            + 2 * inScale * inShape * covariance.scaleShape()
            + inShape * inShape * covariance.shapeShape();
    double factor = Math.exp(z * Math.sqrt(Math.max(variance, 0)));
    return new Estimate(estimate, estimate / factor, estimate * factor);
  }
}

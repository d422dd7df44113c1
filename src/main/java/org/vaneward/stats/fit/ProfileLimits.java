package org.vaneward.stats.fit;

import org.vaneward.stats.Estimate;
import org.vaneward.stats.distribution.Weibull;

/** Limits by the profile likelihood of each quantity. */
final class ProfileLimits implements Limits {
  private final Weibull weibull;
  private final double centre;
  private final LikelihoodRegion region;

  ProfileLimits(Weibull weibull, WeibullLikelihood likelihood, LikelihoodRegion region) {
    this.weibull = weibull;
    centre = likelihood.centre();
    this.region = region;
  }

  @Override
  public Estimate shape() {
    return new Estimate(weibull.shape(), region.shapeLower(), region.shapeUpper());
  }

  @Override
  public Estimate scale() {
    return age(weibull.scale(), 0);
  }

  @Override
  public Estimate quantile(double p) {
    return age(weibull.quantile(p), Math.log(-Math.log1p(-p)));
  }

  private Estimate age(double estimate, double c) {
    return new Estimate(
        estimate,
        Math.exp(centre + region.leastLogAge(c)),
        Math.exp(centre + region.greatestLogAge(c)));
  }

  @Override
  public Estimate mean() {
    return new Estimate(
        weibull.mean(),
        Math.exp(centre + region.leastLogMean(MeanOfShape.WEIBULL)),
        Math.exp(centre + region.greatestLogMean(MeanOfShape.WEIBULL)));
  }

  @Override
  public Estimate survival(double age) {
    double logAge = Math.log(age) - centre;
    return new Estimate(
        weibull.survival(age),
        Math.exp(-Math.exp(region.greatestLogHazard(logAge))),
        Math.exp(-Math.exp(region.leastLogHazard(logAge))));
  }
}

package org.vaneward.stats.fit;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.LikelihoodRatio;
import org.vaneward.stats.Observations;
import org.vaneward.stats.distribution.Weibull;
import org.vaneward.stats.fit.CommonShape.Group;
import org.vaneward.stats.fit.ShapeSearch.Found;
import org.vaneward.stats.fit.WeibullFit.Covariance;
import org.vaneward.stats.fit.WeibullFit.LimitMethod;
import org.vaneward.stats.fit.WeibullFit.Proof;
import org.vaneward.stats.fit.WeibullFit.Quantile;
import org.vaneward.stats.numeric.Quantiles;

/**
 * One Weibull shape for several groups, each with its own scale, by maximum likelihood: the scales
 * are eliminated exactly and the sum of the profiles is climbed in log shape, as in {@link
 * WeibullFitter}.
 *
 * <p>A group without failures has its likelihood rise to 1 as its scale grows, whatever the shape:
 * at the maximum it adds nothing, its scale is infinite, and it says nothing on the shape. It is
 * left out of the sum; the lower limit of its scale is still a profile limit: the least scale at
 * which, with the shape free to follow the other groups, the log-likelihood has not dropped by more
 * than half the chi-square(1) quantile.
 */
public final class CommonShapeFit {
  private static final String NO_FAILURES = "no failures: its scale has a lower limit only";
  private static final String NO_RUN = "no life was seen to run: nothing keeps its scale from 0";

  private CommonShapeFit() {}

  /**
   * Fits the groups.
   *
   * @param groups lives by group
   * @param settings confidence, kind of limits and shares
   * @throws IllegalArgumentException when the settings state a shape or ask for lifted limits
   */
  public static CommonShape fit(List<Observations> groups, FitSettings settings) {
    if (settings.fixedShape().isPresent()) {
      throw new IllegalArgumentException(
          "a common shape is found from the data; stated was " + settings.fixedShape());
    }
    if (settings.limits() == LimitMethod.LIFTED) {
      throw new IllegalArgumentException("lifted limits are of one group, not of " + groups.size());
    }
    List<Optional<WeibullLikelihood>> likelihoods = new ArrayList<>();
    List<WeibullLikelihood> carrying = new ArrayList<>();
    for (Observations lives : groups) {
      Optional<WeibullLikelihood> own = likelihood(lives);
      likelihoods.add(own);
      own.ifPresent(carrying::add);
    }
    if (carrying.isEmpty()) {
      return new CommonShape.NotEstimable("no group has a failure of a life that was seen to run");
    }
    Sum sum = new Sum(carrying, new HashMap<>());
    if (sum.risesWithShape()) {
      return new CommonShape.NotEstimable(
          "in each group all failures are at one age and nothing ran longer");
    }
    if (!(sum.spread() > 0)) {
      return new CommonShape.NotEstimable(
          "each group was seen at one age only: that says nothing of how lives scatter");
    }
    Found peak = ShapeSearch.maximum(sum);
    if (peak.outcome() != ShapeSearch.Outcome.PEAK) {
      return new CommonShape.NotEstimable(Reasons.of(peak.outcome()));
    }
    Proof proof = sum.proof(peak);
    if (!(proof.gradientNorm() <= WeibullFitter.STEEPEST
        && proof.smallestCurvature() >= WeibullFitter.FLATTEST)) {
      return new CommonShape.NotEstimable("no maximum of the likelihood could be proved");
    }
    return fitted(groups, likelihoods, settings, sum, peak, proof);
  }

  private static Optional<WeibullLikelihood> likelihood(Observations lives) {
    if (!(lives.failures() > 0)) {
      return Optional.empty();
    }
    WeibullLikelihood likelihood = WeibullLikelihood.of(lives);
    return likelihood.hasExposure() ? Optional.of(likelihood) : Optional.empty();
  }

  private static CommonShape fitted(
      List<Observations> groups,
      List<Optional<WeibullLikelihood>> likelihoods,
      FitSettings settings,
      Sum sum,
      Found peak,
      Proof proof) {
    double variance = -1 / peak.point().curvature();
    List<Group> results = new ArrayList<>();
    Estimate shape = shape(settings, sum, peak, variance);
    for (int g = 0; g < groups.size(); g++) {
      Observations lives = groups.get(g);
      Optional<WeibullLikelihood> own = likelihoods.get(g);
      results.add(
          own.isPresent()
              ? withScale(lives, own.get(), settings, sum, peak, variance)
              : withoutScale(lives, settings, sum, peak));
    }
    double logLikelihood = peak.point().value();
    List<Observations> carrying = new ArrayList<>();
    for (int g = 0; g < groups.size(); g++) {
      if (likelihoods.get(g).isPresent()) {
        carrying.add(groups.get(g));
      }
    }
    Optional<LikelihoodRatio> test = test(carrying, logLikelihood);
    String note =
        test.isPresent()
            ? ""
            : carrying.size() < 2
                ? "fewer than two groups carry a scale"
                : "a group has no fit of its own to compare with";
    return new CommonShape.Fitted(
        shape,
        variance,
        results,
        logLikelihood,
        test,
        note,
        settings.limits(),
        settings.confidence(),
        proof);
  }

  private static Estimate shape(FitSettings settings, Sum sum, Found peak, double variance) {
    double estimate = Math.exp(peak.logShape());
    if (settings.limits() == LimitMethod.WALD) {
      double z = Quantiles.twoSidedNormal(settings.confidence());
      double factor = Math.exp(z * Math.sqrt(variance));
      return new Estimate(estimate, estimate / factor, estimate * factor);
    }
    double drop = WeibullFitter.drop(settings.confidence());
    return new Estimate(
        estimate,
        Math.exp(ShapeSearch.dropped(sum, peak, drop, false)),
        Math.exp(ShapeSearch.dropped(sum, peak, drop, true)));
  }

  private static Group withScale(
      Observations lives,
      WeibullLikelihood own,
      FitSettings settings,
      Sum sum,
      Found peak,
      double variance) {
    WeibullLikelihood.Slice slice = own.slice(peak.logShape());
    double logScale = own.centre() + slice.k / slice.shape;
    Weibull weibull = new Weibull(slice.shape, Math.exp(logScale));
    Limits limits;
    if (settings.limits() == LimitMethod.WALD) {
      double[] d = own.derivatives(logScale, peak.logShape());
      double slope = -d[4] / d[3];
      Covariance covariance =
          new Covariance(-1 / d[3] + slope * slope * variance, slope * variance, variance);
      limits = new WaldLimits(weibull, covariance, settings.confidence());
    } else {
      double drop = WeibullFitter.drop(settings.confidence());
      limits = new ProfileLimits(weibull, own, new LikelihoodRegion(sum, own, peak, drop));
    }
    List<Quantile> quantiles = new ArrayList<>();
    for (double p : settings.shares()) {
      quantiles.add(new Quantile(p, limits.quantile(p)));
    }
    return new Group(
        lives.lives(), lives.failures(), Optional.of(weibull), limits.scale(), quantiles, "");
  }

  private static Group withoutScale(Observations lives, FitSettings settings, Sum sum, Found peak) {
    if (lives.failures() > 0) {
      return new Group(
          lives.lives(),
          lives.failures(),
          Optional.empty(),
          new Estimate(0, 0, Double.POSITIVE_INFINITY),
          List.of(),
          NO_RUN);
    }
    double lower = lives.size() == 0 ? 0 : lowerLimit(lives, settings, sum, peak);
    return new Group(
        lives.lives(),
        lives.failures(),
        Optional.empty(),
        new Estimate(Double.POSITIVE_INFINITY, lower, Double.POSITIVE_INFINITY),
        List.of(),
        NO_FAILURES);
  }

  private static double lowerLimit(Observations lives, FitSettings settings, Sum sum, Found peak) {
    WeibullLikelihood own = WeibullLikelihood.of(lives);
    double drop = WeibullFitter.drop(settings.confidence());
    LikelihoodRegion region = new LikelihoodRegion(sum, own, peak, drop);
    return Math.exp(own.centre() + region.leastLogAge(0));
  }

  private static Optional<LikelihoodRatio> test(
      List<Observations> carrying, double logLikelihoodCommon) {
    if (carrying.size() < 2) {
      return Optional.empty();
    }
    double separate = 0;
    FitSettings quick = FitSettings.defaults().withLimits(LimitMethod.WALD).withShares(List.of());
    for (Observations lives : carrying) {
      if (!(WeibullFitter.fit(lives, quick) instanceof WeibullFit.Fitted fit)) {
        return Optional.empty();
      }
      separate += fit.logLikelihood();
    }
    return Optional.of(LikelihoodRatio.of(separate, logLikelihoodCommon, carrying.size() - 1));
  }

  /**
   * The profiles of the groups, summed.
   *
   * @param groups the groups
   * @param known points worked out before: each group's limits look at the same shapes
   */
  private record Sum(List<WeibullLikelihood> groups, Map<Double, Point> known)
      implements ShapeProfile {
    @Override
    public Point at(double logShape) {
      return known.computeIfAbsent(logShape, this::sum);
    }

    private Point sum(double logShape) {
      double value = 0;
      double slope = 0;
      double curvature = 0;
      for (WeibullLikelihood group : groups) {
        Point p = group.at(logShape);
        value += p.value();
        slope += p.slope();
        curvature += p.curvature();
      }
      return new Point(value, slope, curvature);
    }

    @Override
    public double spread() {
      double widest = 0;
      for (WeibullLikelihood group : groups) {
        widest = Math.max(widest, group.spread());
      }
      return widest;
    }

    @Override
    public double failures() {
      double sum = 0;
      for (WeibullLikelihood group : groups) {
        sum += group.failures();
      }
      return sum;
    }

    @Override
    public boolean singlePeaked() {
      return groups.stream().allMatch(WeibullLikelihood::singlePeaked);
    }

    boolean risesWithShape() {
      return groups.stream().allMatch(g -> !g.hasIntervals() && g.exactOnlyAtTheGreatestAge());
    }

    /**
     * Gradient and curvature in (log scales, log shape). The information scaled to unit diagonal is
     * the identity but for one row and column r, so its smallest eigenvalue is 1 - |r|.
     */
    Proof proof(Found peak) {
      double gradient = 0;
      double inShape = 0;
      double shapeShape = 0;
      double squares = 0;
      for (WeibullLikelihood group : groups) {
        WeibullLikelihood.Slice slice = group.slice(peak.logShape());
        double[] d = group.derivatives(group.centre() + slice.k / slice.shape, peak.logShape());
        gradient = Math.max(gradient, Math.abs(d[1]));
        inShape += d[2];
        shapeShape += d[5];
        squares += d[4] * d[4] / d[3];
      }
      gradient = Math.max(gradient, Math.abs(inShape)) / failures();
      return new Proof(peak.iterations(), gradient, 1 - Math.sqrt(squares / shapeShape));
    }
  }
}

package org.vaneward.stats.fit;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.Observations;
import org.vaneward.stats.distribution.Family;
import org.vaneward.stats.distribution.Lognormal;
import org.vaneward.stats.fit.ShapeSearch.Found;
import org.vaneward.stats.fit.WeibullFit.LimitMethod;
import org.vaneward.stats.fit.WeibullFit.Proof;
import org.vaneward.stats.fit.WeibullFit.Quantile;
import org.vaneward.stats.fit.WeibullLikelihood.Derivatives;
import org.vaneward.stats.numeric.Quantiles;

/**
 * Lognormal fits by maximum likelihood: exact, right-censored and interval lives (left-censored
 * ones among them), delayed entry, counts.
 *
 * <p>The location is eliminated by Newton's method (for a given spread the log-likelihood is
 * concave in location / spread) and the profile in log spread is climbed by Newton's method with
 * analytic derivatives. For exact and right-censored lives observed from age 0 the log-likelihood
 * is concave in (location / spread, 1 / spread) and has one peak (J. W. Pratt, Journal of the
 * American Statistical Association 76, 1981, 103–106; from memory); otherwise the profile is first
 * looked over from spreads near 0 to near infinity. The optimum is accepted only with its proof, as
 * in {@link WeibullFitter}.
 *
 * <p>There is no finite maximum when all failures may have come at one age and no life ran longer
 * (the spread falls to 0), and with entry ages when the lives after entry look like a power law or
 * one with a longer tail (the spread grows and the location falls without end).
 */
final class LognormalFitter {
  private LognormalFitter() {}

  static LifeFit fit(Observations lives, FitSettings settings) {
    if (!(lives.failures() > 0)) {
      return none(lives, "no failures");
    }
    LognormalLikelihood likelihood = LognormalLikelihood.of(lives);
    if (!likelihood.hasExposure()) {
      return none(lives, Reasons.NO_EXPOSURE);
    }
    if (!likelihood.hasIntervals() && likelihood.exactOnlyAtTheGreatestAge()) {
      return none(lives, Reasons.onlyAtTheGreatestAge(lives));
    }
    if (!(likelihood.spread() > 0)) {
      return none(lives, Reasons.ONE_LOOK);
    }
    Found peak = ShapeSearch.maximum(likelihood);
    if (peak.outcome() != ShapeSearch.Outcome.PEAK) {
      return none(lives, Reasons.ofSpread(peak.outcome()));
    }
    return proven(lives, likelihood, settings, peak);
  }

  private static LifeFit none(Observations lives, String reason) {
    return new LifeFit.NotEstimable(Family.LOGNORMAL, lives.lives(), lives.failures(), reason);
  }

  private static LifeFit proven(
      Observations lives, LognormalLikelihood likelihood, FitSettings settings, Found peak) {
    LognormalLikelihood.Section slice = likelihood.slice(peak.logShape());
    Derivatives at = slice.derivatives(slice.k());
    double[][] covariance = covariance(at, slice);
    Proof proof = proof(at, covariance, slice, lives.failures(), peak.iterations());
    if (!(proof.gradientNorm() <= WeibullFitter.STEEPEST
        && proof.smallestCurvature() >= WeibullFitter.FLATTEST)) {
      return none(lives, "no maximum of the likelihood could be proved");
    }
    double location = likelihood.centre() + slice.k() / slice.shape();
    Lognormal lognormal = new Lognormal(location, 1 / slice.shape());
    LognormalLimits limits =
        settings.limits() == LimitMethod.WALD
            ? wald(lognormal, covariance, settings.confidence())
            : profile(lognormal, likelihood, peak, settings.confidence());
    Map<String, Estimate> parameters = new LinkedHashMap<>();
    parameters.put("location", limits.location());
    parameters.put("spread", limits.spread());
    List<Quantile> quantiles = new ArrayList<>();
    for (double p : settings.shares()) {
      quantiles.add(new Quantile(p, limits.quantile(p)));
    }
    return new LifeFit.Fitted(
        Family.LOGNORMAL,
        lognormal,
        lives.lives(),
        lives.failures(),
        at.value(),
        covariance,
        parameters,
        quantiles,
        limits.mean(),
        settings.limits(),
        settings.confidence(),
        2,
        proof);
  }

  /** Inverse observed information, carried from (k, log shape) to (location, log spread). */
  private static double[][] covariance(Derivatives at, LognormalLikelihood.Section slice) {
    double ofShape = -1 / (at.ss() - at.ks() * at.ks() / at.kk());
    // By how much the location moves, in spreads, when log spread does and k stays at its best.
    double turn = slice.k() + at.ks() / at.kk();
    double b = slice.shape();
    double shared = turn * ofShape / b;
    return new double[][] {
      {(-1 / at.kk() + turn * turn * ofShape) / (b * b), shared}, {shared, ofShape}
    };
  }

  /**
   * The {@link #gradient} and the smaller eigenvalue 1 - |r| of the information scaled to unit
   * diagonal, where 1 - r² is the location's variance at the best spread over its variance.
   */
  private static Proof proof(
      Derivatives at,
      double[][] covariance,
      LognormalLikelihood.Section slice,
      double failures,
      int iterations) {
    double[] slopes = gradient(at, slice.k());
    double gradient = Math.max(Math.abs(slopes[0]), Math.abs(slopes[1])) / failures;
    double b = slice.shape();
    double rest = -1 / at.kk() / (b * b * covariance[0][0]);
    double curvature = rest / (1 + Math.sqrt(Math.max(0, 1 - rest)));
    boolean peaked = at.kk() < 0 && covariance[1][1] > 0;
    return new Proof(iterations, gradient, peaked ? curvature : 0);
  }

  /**
   * Slopes of the log-likelihood in location, in units of the spread, and in log spread. At a fixed
   * location k = location / spread goes with the spread as well.
   */
  static double[] gradient(Derivatives at, double k) {
    return new double[] {at.k(), -(k * at.k() + at.s())};
  }

  /** The limits of a fit that was made before. */
  static LognormalLimits limits(Observations lives, LifeFit.Fitted fit) {
    if (!(fit.distribution() instanceof Lognormal lognormal)) {
      throw new IllegalArgumentException("a lognormal fit is wanted, not a " + fit.family().word());
    }
    if (fit.method() == LimitMethod.WALD) {
      return wald(lognormal, fit.covariance(), fit.confidence());
    }
    LognormalLikelihood likelihood = LognormalLikelihood.of(lives);
    double logShape = -Math.log(lognormal.spread());
    Found peak =
        new Found(
            ShapeSearch.Outcome.PEAK, logShape, likelihood.at(logShape), fit.proof().iterations());
    return profile(lognormal, likelihood, peak, fit.confidence());
  }

  private static LognormalLimits wald(
      Lognormal lognormal, double[][] covariance, double confidence) {
    double width = Quantiles.twoSidedNormal(confidence);
    return new LognormalLimits.Wald(
        lognormal, covariance[0][0], covariance[0][1], covariance[1][1], width);
  }

  private static LognormalLimits profile(
      Lognormal lognormal, LognormalLikelihood likelihood, Found peak, double confidence) {
    double drop = WeibullFitter.drop(confidence);
    return new LognormalLimits.Profile(
        lognormal, likelihood.centre(), new LikelihoodRegion(likelihood, likelihood, peak, drop));
  }
}

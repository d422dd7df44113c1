package org.vaneward.stats.fit;

import java.util.ArrayList;
import java.util.List;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.Observations;
import org.vaneward.stats.distribution.Weibull;
import org.vaneward.stats.fit.ShapeSearch.Found;
import org.vaneward.stats.fit.WeibullFit.Covariance;
import org.vaneward.stats.fit.WeibullFit.Fitted;
import org.vaneward.stats.fit.WeibullFit.LimitMethod;
import org.vaneward.stats.fit.WeibullFit.NotEstimable;
import org.vaneward.stats.fit.WeibullFit.Proof;
import org.vaneward.stats.fit.WeibullFit.Quantile;
import org.vaneward.stats.numeric.Quantiles;

/**
 * Weibull fits by maximum likelihood: exact, right-censored and interval lives (left-censored ones
 * among them), delayed entry, counts.
 *
 * <p>Log-likelihood: the sum over lives of log f(t), log S(t) or log[S(lower) - S(upper)], each
 * less log S(entry). The scale is eliminated exactly (for a given shape the log-likelihood is
 * concave in it) and the profile in log shape is climbed by Newton's method with analytic
 * derivatives, after being looked over from shapes near 0 to near infinity whenever more than one
 * hill is possible. The optimum is accepted only with its proof: gradient in (log scale, log shape)
 * of at most {@value #STEEPEST} per failure and an observed information that is positive definite
 * by a clear margin once scaled to unit diagonal.
 *
 * <p>Profile limits are the least and greatest value of a quantity on the region whose
 * log-likelihood lies within half the chi-square(1) quantile of the best; Wald limits are symmetric
 * in log shape, log scale, log quantile, and for a survival probability in the log of the
 * cumulative hazard. (W. Q. Meeker and L. A. Escobar, Statistical Methods for Reliability Data,
 * 1998, ch. 8.)
 */
public final class WeibullFitter {
  /** Largest gradient component per failure that counts as none. */
  static final double STEEPEST = 1e-8;

  /** Smaller eigenvalue of the information scaled to unit diagonal that counts as none. */
  static final double FLATTEST = 1e-10;

  private WeibullFitter() {}

  /**
   * Fits a Weibull distribution.
   *
   * @return the checked maximum, or why there is none; with no failures {@link #scaleLowerLimit}
   *     still says something, with few a {@linkplain FitSettings#withFixedShape stated shape} does
   */
  public static WeibullFit fit(Observations lives, FitSettings settings) {
    WeibullLikelihood likelihood = WeibullLikelihood.of(lives);
    double n = likelihood.lives();
    double failures = likelihood.failures();
    if (!(failures > 0)) {
      return new NotEstimable(n, failures, "no failures");
    }
    if (!likelihood.hasExposure()) {
      return new NotEstimable(n, failures, Reasons.NO_EXPOSURE);
    }
    if (settings.fixedShape().isPresent()) {
      return atShape(likelihood, settings, settings.fixedShape().getAsDouble());
    }
    if (!likelihood.hasIntervals() && likelihood.exactOnlyAtTheGreatestAge()) {
      return new NotEstimable(n, failures, Reasons.onlyAtTheGreatestAge(lives));
    }
    if (!(likelihood.spread() > 0)) {
      return new NotEstimable(n, failures, Reasons.ONE_LOOK);
    }
    Found peak = ShapeSearch.maximum(likelihood);
    if (peak.outcome() != ShapeSearch.Outcome.PEAK) {
      return new NotEstimable(n, failures, Reasons.of(peak.outcome()));
    }
    return proven(likelihood, settings, peak);
  }

  private static WeibullFit proven(WeibullLikelihood likelihood, FitSettings settings, Found peak) {
    WeibullLikelihood.Slice slice = likelihood.slice(peak.logShape());
    double logScale = likelihood.centre() + slice.k / slice.shape;
    Proof proof = proof(slice, logScale, peak.iterations());
    double scale = Math.exp(logScale);
    if (!(scale > 0 && scale < Double.POSITIVE_INFINITY)) {
      return new NotEstimable(
          likelihood.lives(), likelihood.failures(), "the scale is beyond what a number can hold");
    }
    if (!(proof.gradientNorm() <= STEEPEST && proof.smallestCurvature() >= FLATTEST)) {
      return new NotEstimable(
          likelihood.lives(),
          likelihood.failures(),
          "no maximum of the likelihood could be proved");
    }
    Weibull weibull = new Weibull(slice.shape, scale);
    Covariance covariance = covariance(slice);
    Limits limits =
        settings.limits() == LimitMethod.WALD
            ? new WaldLimits(weibull, covariance, settings.confidence())
            : new ProfileLimits(
                weibull,
                likelihood,
                new LikelihoodRegion(likelihood, likelihood, peak, drop(settings, likelihood)));
    return fitted(
        likelihood, settings, weibull, peak.point().value(), covariance, limits, 2, proof);
  }

  private static WeibullFit atShape(
      WeibullLikelihood likelihood, FitSettings settings, double shape) {
    WeibullLikelihood.Slice slice = likelihood.slice(Math.log(shape));
    double scale = Math.exp(likelihood.centre() + slice.k / shape);
    WeibullLikelihood.Derivatives at = slice.derivatives(slice.k);
    Proof proof =
        new Proof(1, shape * Math.abs(at.k()) / likelihood.failures(), at.kk() < 0 ? 1 : 0);
    boolean good = proof.gradientNorm() <= STEEPEST && proof.smallestCurvature() >= FLATTEST;
    if (!(good && scale > 0 && scale < Double.POSITIVE_INFINITY)) {
      return new NotEstimable(
          likelihood.lives(),
          likelihood.failures(),
          "no maximum of the likelihood could be proved");
    }
    Weibull weibull = new Weibull(shape, scale);
    Covariance covariance = new Covariance(-1 / (shape * shape * at.kk()), 0, 0);
    Limits limits =
        settings.limits() == LimitMethod.WALD
            ? new WaldLimits(weibull, covariance, settings.confidence())
            : new ProfileLimits(
                weibull,
                likelihood,
                new LikelihoodRegion(likelihood, Math.log(shape), drop(settings.confidence())));
    return fitted(likelihood, settings, weibull, at.value(), covariance, limits, 1, proof);
  }

  private static Fitted fitted(
      WeibullLikelihood likelihood,
      FitSettings settings,
      Weibull weibull,
      double logLikelihood,
      Covariance covariance,
      Limits limits,
      int parameters,
      Proof proof) {
    List<Quantile> quantiles = new ArrayList<>();
    for (double p : settings.shares()) {
      quantiles.add(new Quantile(p, limits.quantile(p)));
    }
    return new Fitted(
        weibull,
        likelihood.lives(),
        likelihood.failures(),
        logLikelihood,
        covariance,
        parameters == 1
            ? new Estimate(weibull.shape(), weibull.shape(), weibull.shape())
            : limits.shape(),
        limits.scale(),
        quantiles,
        settings.limits(),
        settings.confidence(),
        parameters,
        proof);
  }

  /** What few failures add to the critical value, times their number: see {@link LimitMethod}. */
  private static final double LIFT = 1.25;

  private static double drop(FitSettings settings, WeibullLikelihood likelihood) {
    return drop(settings.limits(), settings.confidence(), likelihood.failures());
  }

  private static double drop(LimitMethod method, double confidence, double failures) {
    double lift = method == LimitMethod.LIFTED ? 1 + LIFT / failures : 1;
    return lift * drop(confidence);
  }

  /** Half the chi-square(1) quantile. */
  static double drop(double confidence) {
    return Quantiles.chiSquare(confidence, 1) / 2;
  }

  /** Gradient and curvature in (log scale, log shape) at the optimum. */
  private static Proof proof(WeibullLikelihood.Slice slice, double logScale, int iterations) {
    double[] d = slice.atScale(logScale);
    double gradient = Math.max(Math.abs(d[1]), Math.abs(d[2])) / slice.failures();
    double correlation = d[4] / Math.sqrt(d[3] * d[5]);
    boolean peaked = d[3] < 0 && d[5] < 0;
    return new Proof(iterations, gradient, peaked ? 1 - Math.abs(correlation) : 0);
  }

  /** Inverse observed information, carried from (k, log shape) to (log scale, log shape). */
  private static Covariance covariance(WeibullLikelihood.Slice slice) {
    WeibullLikelihood.Derivatives at = slice.derivatives(slice.k);
    double slope = -at.ks() / at.kk();
    double ss = -1 / (at.ss() - at.ks() * at.ks() / at.kk());
    double ks = slope * ss;
    double kk = -1 / at.kk() + slope * slope * ss;
    double b = slice.shape;
    double u = slice.k / b;
    return new Covariance(kk / (b * b) - 2 * u * ks / b + u * u * ss, ks / b - u * ss, ss);
  }

  /**
   * Survival probabilities at some ages with limits, for drawing a band: pointwise, by the fit's
   * own method and confidence.
   *
   * @param lives the lives that were fitted
   * @param fit their fit
   * @param ages positive and finite
   * @return one estimate for each age
   * @throws IllegalArgumentException when an age is not positive and finite
   */
  public static List<Estimate> survival(Observations lives, Fitted fit, double... ages) {
    return limits(lives, fit).survivals(ages);
  }

  /**
   * Ages by which some shares have failed, with limits, by the fit's own method and confidence.
   *
   * @param lives the lives that were fitted
   * @param fit their fit
   * @param shares between 0 and 1
   * @throws IllegalArgumentException when a share is not between 0 and 1
   */
  public static List<Quantile> quantiles(Observations lives, Fitted fit, double... shares) {
    return limits(lives, fit).quantiles(shares);
  }

  /**
   * Mean life, scale Gamma(1 + 1 / shape), with limits by the fit's own method and confidence; Wald
   * limits are symmetric in the log of the mean. With few failures the mean hangs on lives longer
   * than any that was seen: an upper limit may be infinite.
   *
   * @param lives the lives that were fitted
   * @param fit their fit
   */
  public static Estimate mean(Observations lives, Fitted fit) {
    return limits(lives, fit).mean();
  }

  static Limits limits(Observations lives, Fitted fit) {
    if (fit.method() == LimitMethod.WALD) {
      return new WaldLimits(fit.weibull(), fit.covariance(), fit.confidence());
    }
    WeibullLikelihood likelihood = WeibullLikelihood.of(lives);
    double logShape = Math.log(fit.weibull().shape());
    double drop =
        fit.parameters() == 1
            ? drop(fit.confidence())
            : drop(fit.method(), fit.confidence(), fit.failures());
    LikelihoodRegion region;
    if (fit.parameters() == 1) {
      region = new LikelihoodRegion(likelihood, logShape, drop);
    } else {
      ShapeProfile.Point top = likelihood.at(logShape);
      Found peak = new Found(ShapeSearch.Outcome.PEAK, logShape, top, fit.proof().iterations());
      region = new LikelihoodRegion(likelihood, likelihood, peak, drop);
    }
    return new ProfileLimits(fit.weibull(), likelihood, region);
  }

  /**
   * One-sided lower limit of the scale at a stated shape, also with no failures: (2 H / chi-square
   * quantile with 2 r + 2 degrees of freedom)^(1 / shape), with r failures and H the sum over lives
   * of t^shape less entry^shape. With r = 0 it is (H / -log(1 - confidence))^(1 / shape), the scale
   * at which no failure has the chance 1 - confidence (W. Nelson, Journal of Quality Technology 17,
   * 1985, 140–146).
   *
   * <p>Only what a life ran under observation counts: one that entered at an age tells nothing of
   * the time before. An interval failure counts as run to the start of its interval, which keeps
   * the limit on the safe side. With failures the limit is that of a test stopped at a time, also
   * on the safe side.
   *
   * @param shape positive
   * @param confidence between 0 and 1
   * @return the limit in the unit of age; 0 when no life was seen to run
   * @throws IllegalArgumentException when shape or confidence is out of its range
   */
  public static double scaleLowerLimit(Observations lives, double shape, double confidence) {
    double quantile = Quantiles.chiSquare(confidence, 2 * lives.failures() + 2);
    return scaleAt(lives, shape, quantile, false);
  }

  /**
   * One-sided upper limit of the scale at a stated shape: as {@link #scaleLowerLimit}, with the
   * chi-square quantile at 1 - confidence with 2 r degrees of freedom, and an interval failure
   * counted as run to the end of its interval; infinite with no failures.
   *
   * @throws IllegalArgumentException when shape or confidence is out of its range
   */
  public static double scaleUpperLimit(Observations lives, double shape, double confidence) {
    double failures = lives.failures();
    double quantile = failures > 0 ? Quantiles.chiSquare(1 - confidence, 2 * failures) : 0;
    return scaleAt(lives, shape, quantile, true);
  }

  private static double scaleAt(
      Observations lives, double shape, double quantile, boolean wholeIntervals) {
    if (!(shape > 0 && shape < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException("a Weibull shape is positive and finite, not " + shape);
    }
    if (quantile == 0) {
      return Double.POSITIVE_INFINITY;
    }
    double greatest = 0;
    for (int i = 0; i < lives.size(); i++) {
      greatest = Math.max(greatest, ran(lives, i, wholeIntervals));
    }
    double sum = 0;
    for (int i = 0; i < lives.size(); i++) {
      double ran = ran(lives, i, wholeIntervals);
      if (ran > lives.entry(i)) {
        double end = Math.exp(shape * Math.log(ran / greatest));
        double share = lives.entry(i) > 0 ? -Math.expm1(shape * Math.log(lives.entry(i) / ran)) : 1;
        sum += lives.count(i) * end * share;
      }
    }
    return greatest == 0 ? 0 : greatest * Math.exp(Math.log(2 * sum / quantile) / shape);
  }

  private static double ran(Observations lives, int i, boolean wholeIntervals) {
    return wholeIntervals && !lives.isRightCensored(i) ? lives.upper(i) : lives.lower(i);
  }
}

package org.vaneward.stats.fit;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.LikelihoodRatio;
import org.vaneward.stats.Observations;
import org.vaneward.stats.distribution.Exponential;
import org.vaneward.stats.distribution.Family;
import org.vaneward.stats.distribution.Weibull;
import org.vaneward.stats.fit.LifeFit.Fitted;
import org.vaneward.stats.fit.LifeFit.NotEstimable;
import org.vaneward.stats.fit.WeibullFit.Covariance;
import org.vaneward.stats.fit.WeibullFit.LimitMethod;
import org.vaneward.stats.fit.WeibullFit.Quantile;

/**
 * Fits of one group of lives by any family, behind one front.
 *
 * <p>All families are fitted by maximum likelihood on the same terms: exact, right-censored and
 * interval lives, delayed entry, counts; the log-likelihood is of the ages, so that it can be
 * compared between families.
 */
public final class LifeFits {
  private static final String SHAPE = "shape";
  private static final String SCALE = "scale";

  private LifeFits() {}

  /**
   * Fits a family.
   *
   * @param settings a stated shape is allowed for the Weibull family only
   * @throws IllegalArgumentException when the settings state a shape, or ask for lifted limits, for
   *     another family
   */
  public static LifeFit fit(Family family, Observations lives, FitSettings settings) {
    if (family != Family.WEIBULL && settings.fixedShape().isPresent()) {
      throw new IllegalArgumentException(
          "only a Weibull fit can have a stated shape, not a "
              + family.word()
              + " one; stated was "
              + settings.fixedShape().getAsDouble());
    }
    if (family != Family.WEIBULL && settings.limits() == LimitMethod.LIFTED) {
      throw new IllegalArgumentException(
          "lifted limits are of the Weibull family, not the " + family.word());
    }
    return switch (family) {
      case WEIBULL -> carried(family, lives, WeibullFitter.fit(lives, settings));
      case EXPONENTIAL ->
          carried(family, lives, WeibullFitter.fit(lives, settings.withFixedShape(1)));
      case LOGNORMAL -> LognormalFitter.fit(lives, settings);
    };
  }

  /**
   * Fits every family, in the order of {@link Family}.
   *
   * @throws IllegalArgumentException when the settings state a shape
   */
  public static List<LifeFit> all(Observations lives, FitSettings settings) {
    List<LifeFit> fits = new ArrayList<>();
    for (Family family : Family.values()) {
      fits.add(fit(family, lives, settings));
    }
    return List.copyOf(fits);
  }

  private static LifeFit carried(Family family, Observations lives, WeibullFit fit) {
    if (fit instanceof WeibullFit.NotEstimable none) {
      return new NotEstimable(family, none.lives(), none.failures(), none.reason());
    }
    WeibullFit.Fitted f = (WeibullFit.Fitted) fit;
    boolean exponential = family == Family.EXPONENTIAL;
    Covariance c = f.covariance();
    Map<String, Estimate> parameters = new LinkedHashMap<>();
    if (!exponential) {
      parameters.put(SHAPE, f.shape());
    }
    parameters.put(SCALE, f.scale());
    return new Fitted(
        family,
        exponential ? new Exponential(f.weibull().scale()) : f.weibull(),
        f.lives(),
        f.failures(),
        f.logLikelihood(),
        exponential
            ? new double[][] {{c.scaleScale()}}
            : new double[][] {{c.scaleScale(), c.scaleShape()}, {c.scaleShape(), c.shapeShape()}},
        parameters,
        f.quantiles(),
        exponential ? f.scale() : WeibullFitter.mean(lives, f),
        f.method(),
        f.confidence(),
        f.parameters(),
        f.proof());
  }

  /**
   * Survival probabilities at some ages with limits: pointwise, by the fit's own method and
   * confidence.
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
   * Mean life with limits by the fit's own method and confidence; Wald limits are symmetric in the
   * log of the mean.
   *
   * @param lives the lives that were fitted
   * @param fit their fit
   */
  public static Estimate mean(Observations lives, Fitted fit) {
    return limits(lives, fit).mean();
  }

  /**
   * One-sided lower limit of an exponential scale, also with no failures: total time run over half
   * the chi-square quantile with 2 r + 2 degrees of freedom, as {@link
   * WeibullFitter#scaleLowerLimit} at shape 1.
   *
   * @param confidence between 0 and 1
   * @return the limit in the unit of age; 0 when no life was seen to run
   * @throws IllegalArgumentException when the confidence is out of its range
   */
  public static double exponentialLowerLimit(Observations lives, double confidence) {
    return WeibullFitter.scaleLowerLimit(lives, 1, confidence);
  }

  /**
   * Likelihood-ratio test of the exponential family inside the Weibull family: does the failure
   * rate depend on age at all?
   *
   * @return the test with one degree of freedom; empty when either has no fit
   */
  public static Optional<LikelihoodRatio> exponentialInsideWeibull(Observations lives) {
    FitSettings quick = FitSettings.defaults().withLimits(LimitMethod.WALD).withShares(List.of());
    if (WeibullFitter.fit(lives, quick) instanceof WeibullFit.Fitted full
        && WeibullFitter.fit(lives, quick.withFixedShape(1))
            instanceof WeibullFit.Fitted constant) {
      return Optional.of(LikelihoodRatio.of(full.logLikelihood(), constant.logLikelihood(), 1));
    }
    return Optional.empty();
  }

  private static AgeLimits limits(Observations lives, Fitted fit) {
    return switch (fit.family()) {
      case WEIBULL, EXPONENTIAL -> WeibullFitter.limits(lives, asWeibull(fit));
      case LOGNORMAL -> LognormalFitter.limits(lives, fit);
    };
  }

  private static WeibullFit.Fitted asWeibull(Fitted fit) {
    double[][] c = fit.covariance();
    Estimate scale = fit.parameter(SCALE);
    boolean weibull = fit.distribution() instanceof Weibull;
    return new WeibullFit.Fitted(
        fit.distribution() instanceof Weibull w ? w : new Weibull(1, scale.estimate()),
        fit.lives(),
        fit.failures(),
        fit.logLikelihood(),
        weibull ? new Covariance(c[0][0], c[0][1], c[1][1]) : new Covariance(c[0][0], 0, 0),
        weibull ? fit.parameter(SHAPE) : new Estimate(1, 1, 1),
        scale,
        fit.quantiles(),
        fit.method(),
        fit.confidence(),
        fit.parameterCount(),
        fit.proof());
  }
}

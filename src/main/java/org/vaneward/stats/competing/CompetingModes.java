package org.vaneward.stats.competing;

import java.util.OptionalDouble;
import org.vaneward.stats.Observations;
import org.vaneward.stats.fit.FitSettings;
import org.vaneward.stats.fit.WeibullFit;
import org.vaneward.stats.fit.WeibullFitter;
import org.vaneward.stats.numeric.Quantiles;

/**
 * One Weibull for all failures, or one for each cause? A plot of all failures that bends may be
 * that of causes with different shapes, each straight on its own.
 *
 * <p>Both models are held to the same data, age and cause of each failure. One Weibull says nothing
 * of causes, so the cause is drawn at the age of failure with a chance that does not depend on age:
 * its log-likelihood is that of the ages plus the sum over causes of d_k log(d_k / d), with 2
 * parameters and one for each further cause. The causes' own log-likelihoods add up to that of the
 * other model, with 2 parameters for each. The first model is the second with equal shapes, so
 * beside Akaike's criterion there is a likelihood-ratio test with one degree of freedom for each
 * further cause.
 */
public sealed interface CompetingModes {
  /**
   * The comparison.
   *
   * @param one one Weibull, causes at random
   * @param byCause a Weibull for each cause
   * @param statistic twice the gain in log-likelihood
   * @param degreesOfFreedom one less than the number of causes with failures
   * @param p chance of as great a gain or greater if all causes had one shape
   */
  record Compared(Model one, Model byCause, double statistic, int degreesOfFreedom, double p)
      implements CompetingModes {}

  /**
   * There is nothing to compare.
   *
   * @param reason why, in one short phrase
   */
  record NotCompared(String reason) implements CompetingModes {}

  /**
   * A model's fit to ages and causes.
   *
   * @param logLikelihood of ages and causes
   * @param parameters free parameters
   * @param lives number of lives
   */
  record Model(double logLikelihood, int parameters, double lives) {
    /** Akaike's information criterion. */
    public double aic() {
      return 2.0 * parameters - 2 * logLikelihood;
    }

    /**
     * Akaike's criterion with the small-sample term, n = number of lives; empty when n is at most
     * the number of parameters + 1.
     */
    public OptionalDouble aicc() {
      double room = lives - parameters - 1;
      return room > 0
          ? OptionalDouble.of(aic() + 2.0 * parameters * (parameters + 1) / room)
          : OptionalDouble.empty();
    }
  }

  /** The comparison for lives with causes. */
  static CompetingModes of(CauseLives lives) {
    if (lives.hasIntervals()) {
      return new NotCompared("a failure within an interval is not placed against other causes");
    }
    Observations all = lives.lives();
    double failures = all.failures();
    double mixing = 0;
    double byCause = 0;
    int causes = 0;
    for (int k = 0; k < lives.causes(); k++) {
      double d = lives.failures(k);
      if (d > 0) {
        if (!(fit(lives.forCause(k)) instanceof WeibullFit.Fitted own)) {
          return new NotCompared("no fit for " + lives.names().get(k));
        }
        byCause += own.logLikelihood();
        mixing += d * Math.log(d / failures);
        causes++;
      }
    }
    if (causes < 2) {
      return new NotCompared("fewer than two causes have failures");
    }
    if (!(fit(all) instanceof WeibullFit.Fitted one)) {
      return new NotCompared("no fit for all failures together");
    }
    double n = all.lives();
    double joint = one.logLikelihood() + mixing;
    double statistic = Math.max(0, 2 * (byCause - joint));
    return new Compared(
        new Model(joint, causes + 1, n),
        new Model(byCause, 2 * causes, n),
        statistic,
        causes - 1,
        Quantiles.chiSquareTail(statistic, causes - 1));
  }

  private static WeibullFit fit(Observations lives) {
    return WeibullFitter.fit(lives, FitSettings.defaults().withLimits(WeibullFit.LimitMethod.WALD));
  }
}

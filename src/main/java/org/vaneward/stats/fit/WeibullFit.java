package org.vaneward.stats.fit;

import java.util.List;
import java.util.OptionalDouble;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.distribution.Weibull;

/** What a Weibull fit comes to: numbers with their proof, or the reason why there are none. */
public sealed interface WeibullFit {
  /** Number of lives, counts summed. */
  double lives();

  /** Number of lives that failed, counts summed. */
  double failures();

  /**
   * A checked maximum of the likelihood.
   *
   * @param weibull the distribution at the maximum
   * @param lives number of lives
   * @param failures number of failures
   * @param logLikelihood of the ages themselves
   * @param covariance inverse observed information of (log scale, log shape); with a stated shape
   *     only the first entry is not zero
   * @param shape shape with its limits
   * @param scale scale with its limits
   * @param quantiles ages by which a share has failed, with limits
   * @param method how the limits were made
   * @param confidence of the two-sided limits
   * @param parameters number of free parameters, 2 or 1
   * @param proof how the maximum was reached and checked
   */
  record Fitted(
      Weibull weibull,
      double lives,
      double failures,
      double logLikelihood,
      Covariance covariance,
      Estimate shape,
      Estimate scale,
      List<Quantile> quantiles,
      LimitMethod method,
      double confidence,
      int parameters,
      Proof proof)
      implements WeibullFit {
    public Fitted {
      quantiles = List.copyOf(quantiles);
    }

    /** Akaike's information criterion. */
    public double aic() {
      return 2.0 * parameters - 2 * logLikelihood;
    }

    /**
     * Akaike's criterion with the small-sample term, n = number of lives; empty when n is at most k
     * + 1.
     */
    public OptionalDouble aicc() {
      double room = lives - parameters - 1;
      return room > 0
          ? OptionalDouble.of(aic() + 2.0 * parameters * (parameters + 1) / room)
          : OptionalDouble.empty();
    }

    /** Schwarz's criterion, n = number of lives. */
    public double bic() {
      return parameters * Math.log(lives) - 2 * logLikelihood;
    }
  }

  /**
   * No finite maximum exists, or none could be proved.
   *
   * @param lives number of lives
   * @param failures number of failures
   * @param reason why, in one short phrase
   */
  record NotEstimable(double lives, double failures, String reason) implements WeibullFit {}

  /**
   * Covariance of (log scale, log shape).
   *
   * @param scaleScale variance of log scale
   * @param scaleShape their covariance
   * @param shapeShape variance of log shape
   */
  record Covariance(double scaleScale, double scaleShape, double shapeShape) {}

  /**
   * Age by which a share of lives has failed.
   *
   * @param p the share
   * @param age that age, with limits
   */
  record Quantile(double p, Estimate age) {}

  /**
   * How a maximum was reached.
   *
   * @param iterations steps taken
   * @param gradientNorm largest component of the gradient in (log scale, log shape), divided by the
   *     number of failures
   * @param smallestCurvature smaller eigenvalue of the observed information scaled to unit diagonal
   */
  record Proof(int iterations, double gradientNorm, double smallestCurvature) {}

  /** How limits are made. */
  enum LimitMethod {
    /** Where twice the drop of the profile log-likelihood reaches the chi-square quantile. */
    PROFILE,
    /** Symmetric on the log scale, from the covariance. */
    WALD,
    /**
     * As {@link #PROFILE} with the chi-square quantile times 1 + 1.25 / failures, which makes up
     * for what few failures take from the coverage. A factor of this form is Bartlett's
     * (Proceedings of the Royal Society A 160, 1937; from memory); the 1.25 was found by simulation
     * and is no theorem: with 10 failures or more these limits at 90% hold the truth in 88% to 92%
     * of samples, however observation ends. For a Weibull whose shape is fitted; at a stated shape
     * they are those of {@link #PROFILE}.
     */
    LIFTED
  }
}

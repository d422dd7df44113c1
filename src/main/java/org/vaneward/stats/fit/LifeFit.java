package org.vaneward.stats.fit;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.distribution.Family;
import org.vaneward.stats.distribution.LifeDistribution;
import org.vaneward.stats.fit.WeibullFit.LimitMethod;
import org.vaneward.stats.fit.WeibullFit.Proof;
import org.vaneward.stats.fit.WeibullFit.Quantile;

/**
 * What the fit of a family to one group of lives comes to: numbers with their proof, or the reason
 * why there are none.
 */
public sealed interface LifeFit {
  /** The family asked for. */
  Family family();

  /** Number of lives, counts summed. */
  double lives();

  /** Number of lives that failed, counts summed. */
  double failures();

  /**
   * A checked maximum of the likelihood.
   *
   * @param distribution the distribution at the maximum
   * @param logLikelihood of the ages themselves (not of their logs), so that families compare
   * @param covariance inverse observed information, 2 x 2 of (log scale, log shape) for Weibull and
   *     of (location, log spread) for lognormal, 1 x 1 of log scale for exponential; with a stated
   *     Weibull shape only the first entry is not zero
   * @param parameters by name, in order, with limits: shape and scale; location and spread; scale
   * @param quantiles ages by which a share has failed, with limits
   * @param mean mean life with limits; infinite when beyond what a number can hold
   * @param method how the limits were made
   * @param confidence of the two-sided limits
   * @param parameterCount number of free parameters
   * @param proof how the maximum was reached and checked
   */
  @SuppressWarnings("ArrayRecordComponent") // copied on the way in and out
  record Fitted(
      Family family,
      LifeDistribution distribution,
      double lives,
      double failures,
      double logLikelihood,
      double[][] covariance,
      Map<String, Estimate> parameters,
      List<Quantile> quantiles,
      Estimate mean,
      LimitMethod method,
      double confidence,
      int parameterCount,
      Proof proof)
      implements LifeFit {
    public Fitted {
      covariance = copy(covariance);
      parameters = Collections.unmodifiableMap(new LinkedHashMap<>(parameters));
      quantiles = List.copyOf(quantiles);
    }

    /** A copy of the covariance. */
    @Override
    public double[][] covariance() {
      return copy(covariance);
    }

    private static double[][] copy(double[][] matrix) {
      double[][] copy = new double[matrix.length][];
      for (int i = 0; i < matrix.length; i++) {
        copy[i] = matrix[i].clone();
      }
      return copy;
    }

    /**
     * A parameter with its limits.
     *
     * @throws IllegalArgumentException when the family has none of that name
     */
    public Estimate parameter(String name) {
      Estimate estimate = parameters.get(name);
      if (estimate == null) {
        throw new IllegalArgumentException(
            "a " + family.word() + " fit has " + parameters.keySet() + ", not " + name);
      }
      return estimate;
    }

    /** Akaike's information criterion, 2 k - 2 log-likelihood. */
    public double aic() {
      return 2.0 * parameterCount - 2 * logLikelihood;
    }

    /**
     * Akaike's criterion with the small-sample term 2 k (k + 1) / (n - k - 1), n the number of
     * lives (C. M. Hurvich and C.-L. Tsai, Biometrika 76, 1989); empty when n is at most k + 1.
     */
    public OptionalDouble aicc() {
      double room = lives - parameterCount - 1;
      return room > 0
          ? OptionalDouble.of(aic() + 2.0 * parameterCount * (parameterCount + 1) / room)
          : OptionalDouble.empty();
    }

    /** Schwarz's criterion k log n - 2 log-likelihood, n the number of lives. */
    public double bic() {
      return parameterCount * Math.log(lives) - 2 * logLikelihood;
    }

    /**
     * Schwarz's criterion with n the number of failures, which is what information grows with when
     * most lives are censored.
     */
    public double bicWithEvents() {
      return parameterCount * Math.log(failures) - 2 * logLikelihood;
    }
  }

  /**
   * No finite maximum exists, or none could be proved.
   *
   * @param reason why, in one short phrase
   */
  record NotEstimable(Family family, double lives, double failures, String reason)
      implements LifeFit {}
}

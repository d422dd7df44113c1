package org.vaneward.stats.regression;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.LikelihoodRatio;
import org.vaneward.stats.fit.WeibullFit.LimitMethod;
import org.vaneward.stats.fit.WeibullFit.Proof;

/** What a regression comes to: numbers with their proof, or the reason why there are none. */
public sealed interface RegressionFit {
  /**
   * A checked maximum of the likelihood.
   *
   * @param coefficients the intercept, then those of the covariates in the order given: log scale
   *     is their sum, each times its covariate
   * @param references the level of each categorical covariate that the others are held against, as
   *     {@code name=level}: its coefficient is 0
   * @param shape the shape with its limits
   * @param lives number of lives, or of spans of lives
   * @param failures number of failures
   * @param logLikelihood of the ages themselves
   * @param nullLogLikelihood with the intercept alone; empty when that model has no proved maximum
   * @param overall the test of the intercept alone inside this model; empty without covariates or
   *     without the figure above
   * @param termTests the test of each covariate by leaving it out, in the order given; none for a
   *     covariate in {@code untested}
   * @param untested covariates whose model without them has no proved maximum; all when no test was
   *     asked for
   * @param covariance inverse observed information of the coefficients and log shape
   * @param covarianceOrder the names of its rows: those of the coefficients, then {@code log_shape}
   * @param method how limits were made
   * @param confidence of the two-sided limits
   * @param proof how the maximum was reached and checked, in scaled parameters: gradient per
   *     failure, smallest eigenvalue of the information scaled to unit diagonal
   */
  record Fitted(
      List<Coefficient> coefficients,
      List<String> references,
      Estimate shape,
      double lives,
      double failures,
      double logLikelihood,
      OptionalDouble nullLogLikelihood,
      Optional<LikelihoodRatio> overall,
      List<TermTest> termTests,
      List<String> untested,
      List<List<Double>> covariance,
      List<String> covarianceOrder,
      LimitMethod method,
      double confidence,
      Proof proof)
      implements RegressionFit {
    public Fitted {
      coefficients = List.copyOf(coefficients);
      references = List.copyOf(references);
      termTests = List.copyOf(termTests);
      untested = List.copyOf(untested);
      covariance = covariance.stream().map(List::copyOf).toList();
      covarianceOrder = List.copyOf(covarianceOrder);
    }

    /** Number of free parameters: coefficients and shape. */
    public int parameters() {
      return coefficients.size() + 1;
    }

    /** Akaike's information criterion. */
    public double aic() {
      return 2.0 * parameters() - 2 * logLikelihood;
    }

    /**
     * Akaike's criterion with the small-sample term, n = number of lives; empty when n is at most k
     * + 1.
     */
    public OptionalDouble aicc() {
      double k = parameters();
      double room = lives - k - 1;
      return room > 0 ? OptionalDouble.of(aic() + 2 * k * (k + 1) / room) : OptionalDouble.empty();
    }

    /** Schwarz's criterion, n = number of lives. */
    public double bic() {
      return parameters() * Math.log(lives) - 2 * logLikelihood;
    }

    /**
     * The coefficient of a term.
     *
     * @param term {@code intercept}, the name of a numeric covariate, or {@code name=level}
     * @throws IllegalArgumentException when there is none of that name
     */
    public Coefficient coefficient(String term) {
      for (Coefficient coefficient : coefficients) {
        if (coefficient.term().equals(term)) {
          return coefficient;
        }
      }
      throw new IllegalArgumentException("no coefficient " + term);
    }
  }

  /**
   * No finite maximum exists, or none could be proved.
   *
   * @param lives number of lives
   * @param failures number of failures
   * @param reason why, in one short phrase
   * @param terms the covariates, or {@code name=level}, that are at fault; none when it is the
   *     lives
   */
  record NotEstimable(double lives, double failures, String reason, List<String> terms)
      implements RegressionFit {
    public NotEstimable {
      terms = List.copyOf(terms);
    }
  }

  /**
   * One coefficient of log scale.
   *
   * @param term {@code intercept}, the name of a numeric covariate, or {@code name=level}
   * @param value the coefficient with its limits
   * @param stdError its standard error
   * @param z the one divided by the other
   * @param p two-sided, by the normal distribution (a large-sample result)
   * @param lifeRatio exp(coefficient): by what every quantile of life is multiplied, per unit or
   *     against the first level; empty for the intercept
   * @param hazardRatio exp(-shape coefficient): by what the failure rate at any age is multiplied;
   *     limits from the standard error of its logarithm (delta method); empty for the intercept
   */
  record Coefficient(
      String term,
      Estimate value,
      double stdError,
      double z,
      double p,
      Optional<Estimate> lifeRatio,
      Optional<Estimate> hazardRatio) {}

  /**
   * Likelihood-ratio test of a covariate, by leaving all its columns out.
   *
   * @param term name of the covariate
   * @param statistic twice the difference of the log-likelihoods
   * @param degreesOfFreedom how many columns it has
   * @param p by the chi-square distribution (a large-sample result)
   * @param pHolm the same after Holm's adjustment over all tests of the fit
   */
  record TermTest(String term, double statistic, int degreesOfFreedom, double p, double pHolm) {}
}

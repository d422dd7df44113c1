package org.vaneward.stats.recurrence;

import java.util.OptionalDouble;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.fit.WeibullFit.Covariance;
import org.vaneward.stats.fit.WeibullFit.Proof;
import org.vaneward.stats.recurrence.EventHistories.Truncation;

/** What a fit of a power-law process comes to: numbers with their proof, or why there are none. */
public sealed interface PowerLawFit {
  /** Number of units. */
  int units();

  /** Number of events. */
  int events();

  /**
   * A checked maximum of the likelihood.
   *
   * @param process the process at the maximum
   * @param units number of units
   * @param events number of events
   * @param truncation what ended observation
   * @param totalTime time under observation, summed over units
   * @param logLikelihood of the ages themselves
   * @param covariance inverse observed information of (log scale, log shape)
   * @param shape shape with its limits
   * @param shapeMethod how those were made
   * @param scale scale with its limits, by {@code method}
   * @param endAge greatest age to which a unit was watched
   * @param intensityAtEnd events for each unit of age at that age, with limits
   * @param intensityMethod how those were made
   * @param shapeBiasCorrected shape times (m - 1) / n, with n events, m of which did not end their
   *     observation, for units watched from 0 to one and the same age; empty otherwise and with m =
   *     1
   * @param constantRate a constant rate inside the power law
   * @param method how limits without an exact law were made
   * @param confidence of the two-sided limits
   * @param proof how the maximum was reached and checked
   */
  record Fitted(
      PowerLawProcess process,
      int units,
      int events,
      Truncation truncation,
      double totalTime,
      double logLikelihood,
      Covariance covariance,
      Estimate shape,
      LimitMethod shapeMethod,
      Estimate scale,
      double endAge,
      Estimate intensityAtEnd,
      LimitMethod intensityMethod,
      OptionalDouble shapeBiasCorrected,
      ConstantRate constantRate,
      LimitMethod method,
      double confidence,
      Proof proof)
      implements PowerLawFit {
    /** Mean time between events at the rate of the end: the reciprocal of the intensity. */
    public Estimate mtbfAtEnd() {
      return new Estimate(
          1 / intensityAtEnd.estimate(), 1 / intensityAtEnd.upper(), 1 / intensityAtEnd.lower());
    }
  }

  /**
   * No finite maximum exists, or none could be proved.
   *
   * @param units number of units
   * @param events number of events
   * @param reason why, in one short phrase
   */
  record NotEstimable(int units, int events, String reason) implements PowerLawFit {}

  /**
   * A constant rate of events, and whether the power law is better by more than chance.
   *
   * @param rate events for each unit of age
   * @param logLikelihood at that rate
   * @param statistic twice what the power law gains
   * @param p chance of as much gain if the rate is constant, by chi-square with one degree of
   *     freedom
   */
  record ConstantRate(double rate, double logLikelihood, double statistic, double p) {}

  /** How limits are made. */
  enum LimitMethod {
    /** By the exact law of the estimate, where there is one; otherwise as {@link #PROFILE}. */
    EXACT,
    /** Where twice the drop of the profile log-likelihood reaches the chi-square quantile. */
    PROFILE,
    /** Symmetric on the log scale, from the covariance. */
    WALD
  }
}

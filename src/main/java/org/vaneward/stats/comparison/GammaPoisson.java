package org.vaneward.stats.comparison;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.nonparametric.FailureRate;
import org.vaneward.stats.numeric.Quantiles;

/**
 * Failure rates of many units, each drawn towards the fleet's as far as its exposure is short.
 *
 * <p>Model: a unit's count is Poisson with mean rate times exposure; the rates of the units are
 * drawn from a gamma distribution (shape a, rate parameter b, mean a / b). Counts are then negative
 * binomial, and a and b are found by maximum likelihood of the counts. Given its own count y and
 * exposure t, a unit's rate is gamma(a + y, b + t): its mean lies between the unit's raw rate y / t
 * and the fleet's a / b. (Empirical Bayes: A. Gelman and others, Bayesian Data Analysis, 3rd ed.
 * 2013, section 2.6; G. K. Robinson, Statistical Science 6, 1991; from memory.) Limits of a unit
 * take a and b as known, so with few units they are too narrow.
 *
 * <p>When counts spread no more than chance makes them, the likelihood rises towards a gamma
 * distribution without width: every unit then has the pooled rate, and there is nobody to rank.
 */
public sealed interface GammaPoisson {
  /** Failures of all units. */
  double events();

  /** Exposure of all units. */
  double exposure();

  /**
   * Rates that differ from unit to unit, with the checked maximum of the likelihood.
   *
   * @param shape shape a of the gamma distribution of rates
   * @param rateParameter its rate parameter b, in the unit of exposure
   * @param covariance of (log shape, log rate parameter): inverse observed information
   * @param logLikelihood at the maximum
   * @param againstPoisson test against one rate for all units
   * @param units what is known of each unit, in the order given
   * @param events failures of all units
   * @param exposure exposure of all units
   * @param confidence of the two-sided limits
   * @param proof how the maximum was reached and checked
   */
  record Spread(
      double shape,
      double rateParameter,
      Covariance covariance,
      double logLikelihood,
      AgainstPoisson againstPoisson,
      List<Unit> units,
      double events,
      double exposure,
      double confidence,
      Proof proof)
      implements GammaPoisson {
    /** Copies. */
    public Spread {
      units = List.copyOf(units);
    }

    /** Mean rate a / b. */
    public double meanRate() {
      return shape / rateParameter;
    }

    /** Standard deviation of the units' rates over their mean, 1 / sqrt(a). */
    public double betweenUnitCv() {
      return 1 / Math.sqrt(shape);
    }

    /** Chance that the rate of unit {@code i} is above {@code rate}, given its own count. */
    public double probabilityAbove(int i, double rate) {
      Unit unit = units.get(i);
      return Quantiles.gammaTail(rate * (rateParameter + unit.exposure()), shape + unit.count());
    }

    /**
     * The units by how sure it is that they are worse than the fleet: those whose rate is above
     * {@code multiple} times the mean rate. Beside each stands the share of false finds to be
     * expected when the list is cut after it: the mean of 1 - probability down to it (a Bayesian
     * false discovery rate: B. Efron, Large-Scale Inference, 2010; from memory).
     *
     * @param multiple of the mean rate, positive
     * @return all units, surest first; equal ones in the order given
     * @throws IllegalArgumentException when the multiple is not positive and finite
     */
    public List<Ranked> worseThan(double multiple) {
      if (!(multiple > 0 && multiple < Double.POSITIVE_INFINITY)) {
        throw new IllegalArgumentException(
            "a multiple of the mean rate is positive and finite, not " + multiple);
      }
      List<Ranked> unsorted = new ArrayList<>();
      for (int i = 0; i < units.size(); i++) {
        double above = probabilityAbove(i, multiple * meanRate());
        unsorted.add(new Ranked(i, units.get(i).rate(), above, 1 - above));
      }
      unsorted.sort(Comparator.comparingDouble(Ranked::probabilityAbove).reversed());
      List<Ranked> ranked = new ArrayList<>();
      double sum = 0;
      for (Ranked r : unsorted) {
        sum += r.expectedFalseShare();
        double share = sum / (ranked.size() + 1);
        ranked.add(new Ranked(r.unit(), r.rate(), r.probabilityAbove(), share));
      }
      return List.copyOf(ranked);
    }
  }

  /**
   * One rate for all units.
   *
   * @param rate the pooled rate with exact Poisson limits
   * @param logLikelihood of the Poisson counts
   * @param events failures of all units
   * @param exposure exposure of all units
   * @param reason why no spread between units was found, in one short phrase
   */
  record Pooled(Estimate rate, double logLikelihood, double events, double exposure, String reason)
      implements GammaPoisson {}

  /**
   * Nothing can be said.
   *
   * @param events failures of all units
   * @param exposure exposure of all units
   * @param reason why, in one short phrase
   */
  record NotEstimable(double events, double exposure, String reason) implements GammaPoisson {}

  /**
   * One unit.
   *
   * @param count its failures
   * @param exposure its exposure; 0 leaves it at the fleet's mean
   * @param rate posterior mean of its rate with limits
   * @param probabilityAboveMean chance that its rate is above the fleet's mean rate
   */
  record Unit(double count, double exposure, Estimate rate, double probabilityAboveMean) {
    /** Failures over exposure; not a number without exposure. */
    public double rawRate() {
      return count / exposure;
    }
  }

  /**
   * A unit on the list of those worse than the fleet.
   *
   * @param unit its place in the order given, from 0
   * @param rate posterior mean of its rate with limits
   * @param probabilityAbove chance that its rate is above the threshold
   * @param expectedFalseShare share of units down to this one that are to be expected not to be
   */
  record Ranked(int unit, Estimate rate, double probabilityAbove, double expectedFalseShare) {}

  /**
   * Covariance of (log shape, log rate parameter).
   *
   * @param shapeShape variance of log shape
   * @param shapeRate their covariance
   * @param rateRate variance of log rate parameter
   */
  record Covariance(double shapeShape, double shapeRate, double rateRate) {}

  /**
   * Likelihood-ratio test of no spread between units.
   *
   * @param poissonLogLikelihood log-likelihood with one rate for all
   * @param statistic twice the gain in log-likelihood
   * @param p half the chi-square(1) tail: no spread is at the edge of what is possible (S. G. Self
   *     and K.-Y. Liang, Journal of the American Statistical Association 82, 1987; from memory)
   */
  record AgainstPoisson(double poissonLogLikelihood, double statistic, double p) {}

  /**
   * How the maximum was reached.
   *
   * @param iterations Newton steps taken
   * @param gradientNorm largest component of the gradient in (log spread, log mean rate), divided
   *     by the number of failures
   * @param smallestCurvature smaller eigenvalue of the observed information scaled to unit diagonal
   */
  record Proof(int iterations, double gradientNorm, double smallestCurvature) {}

  /**
   * Fits the rates.
   *
   * @param counts failures of each unit: whole numbers up to a million. Not modified.
   * @param exposures exposure of each, not negative; 0 only without failures. Not modified.
   * @param confidence of the two-sided limits, between 0 and 1
   * @throws IllegalArgumentException when an argument is out of its range
   */
  static GammaPoisson fit(double[] counts, double[] exposures, double confidence) {
    CountLikelihood likelihood = CountLikelihood.of(counts, exposures);
    if (!(confidence > 0 && confidence < 1)) {
      throw new IllegalArgumentException("a confidence is between 0 and 1, not " + confidence);
    }
    double events = likelihood.events();
    double exposure = likelihood.exposure();
    if (!(exposure > 0)) {
      return new NotEstimable(events, exposure, "no exposure");
    }
    if (!(events > 0)) {
      return pooled(likelihood, confidence, "no failures in any unit");
    }
    if (likelihood.exposedUnits() < 2) {
      return pooled(likelihood, confidence, "one unit tells nothing of the spread between units");
    }
    return SpreadSearch.fit(likelihood, confidence)
        .orElseGet(
            () -> pooled(likelihood, confidence, "counts spread no more than chance makes them"));
  }

  private static GammaPoisson pooled(CountLikelihood likelihood, double confidence, String reason) {
    double events = likelihood.events();
    return new Pooled(
        FailureRate.of(events, likelihood.exposure(), confidence),
        likelihood.poisson(),
        events,
        likelihood.exposure(),
        reason);
  }
}

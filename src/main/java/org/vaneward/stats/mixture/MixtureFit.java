package org.vaneward.stats.mixture;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.distribution.TwoWeibulls;
import org.vaneward.stats.fit.WeibullFit;

/** What a fit of two Weibulls comes to: numbers with their proof, or the reason for none. */
public sealed interface MixtureFit {
  /** Free parameters of a mixture: share, two shapes, two scales. */
  int PARAMETERS = 5;

  /** Number of lives, counts summed. */
  double lives();

  /** Number of lives that failed, counts summed. */
  double failures();

  /**
   * The best interior maximum of the likelihood, checked. (The likelihood itself has no bound: a
   * component that closes on one failure raises it without end. Such ends are counted and left
   * out.)
   *
   * @param law the mixture at the maximum, components in order of their scales
   * @param lives number of lives
   * @param failures number of failures
   * @param logLikelihood of the ages themselves
   * @param share share of the first component with Wald limits, symmetric in its logit
   * @param first shape and scale of the first component
   * @param second shape and scale of the second component
   * @param covariance 5 x 5, row by row: inverse observed information of (logit share, log shape
   *     and log scale of the first, log shape and log scale of the second)
   * @param single one Weibull fitted to the same lives
   * @param ratio the mixture against the one Weibull
   * @param starts from where the maximum was looked for and how often it was found
   * @param proof how the maximum was checked
   * @param confidence of the two-sided limits
   */
  record Fitted(
      TwoWeibulls law,
      double lives,
      double failures,
      double logLikelihood,
      Estimate share,
      Component first,
      Component second,
      List<List<Double>> covariance,
      WeibullFit.Fitted single,
      Ratio ratio,
      Starts starts,
      Proof proof,
      double confidence)
      implements MixtureFit {
    public Fitted {
      covariance = covariance.stream().map(List::copyOf).toList();
    }

    /** Akaike's information criterion. */
    public double aic() {
      return 2.0 * PARAMETERS - 2 * logLikelihood;
    }

    /**
     * Akaike's criterion with the small-sample term, n = number of lives; empty when n is at most k
     * + 1.
     */
    public OptionalDouble aicc() {
      double room = lives - PARAMETERS - 1;
      return room > 0
          ? OptionalDouble.of(aic() + 2.0 * PARAMETERS * (PARAMETERS + 1) / room)
          : OptionalDouble.empty();
    }

    /** Schwarz's criterion, n = number of lives. */
    public double bic() {
      return PARAMETERS * Math.log(lives) - 2 * logLikelihood;
    }
  }

  /**
   * No interior maximum better than one Weibull exists, or none could be proved.
   *
   * @param lives number of lives
   * @param failures number of failures
   * @param reason why, in one short phrase
   * @param single one Weibull fitted to the same lives, where there is one
   */
  record NotEstimable(
      double lives, double failures, String reason, Optional<WeibullFit.Fitted> single)
      implements MixtureFit {}

  /**
   * One component.
   *
   * @param shape shape with Wald limits, symmetric in its log
   * @param scale scale with Wald limits, symmetric in its log
   * @param failures failures, each weighted by the chance that it is of this component
   */
  record Component(Estimate shape, Estimate scale, double failures) {}

  /**
   * A mixture against one Weibull.
   *
   * @param statistic twice the gain in log-likelihood
   * @param aicGain Akaike's criterion of the one Weibull less that of the mixture: positive speaks
   *     for the mixture
   * @param bicGain the same of Schwarz's criterion, which is the stricter one
   * @param bootstrap the test by simulation, when asked for
   */
  record Ratio(double statistic, double aicGain, double bicGain, Optional<Bootstrap> bootstrap) {}

  /**
   * Likelihood-ratio test by parametric bootstrap: samples of the fitted single Weibull, seen as
   * the lives were. A chi-square table does not hold here: under one Weibull the share lies on the
   * edge of its range and the second component is anywhere.
   *
   * @param replicates samples drawn
   * @param atLeast how many of them gained as much or more
   * @param p (atLeast + 1) / (replicates + 1)
   */
  record Bootstrap(int replicates, int atLeast, double p) {}

  /**
   * Where the climbs from all starts ended.
   *
   * @param starts number of starts
   * @param reachedBest those that ended at the reported maximum
   * @param otherMaxima those that ended at lower interior maxima
   * @param closed those that closed on one failure, or on too few, and were left out
   * @param elsewhere those that ran off to an edge with nothing better there, or did not arrive
   */
  record Starts(int starts, int reachedBest, int otherMaxima, int closed, int elsewhere) {}

  /**
   * How the maximum was checked, in (logit share, log shapes, log scales).
   *
   * @param iterations Newton steps taken from the best start
   * @param gradientNorm largest component of the gradient, divided by the number of failures
   * @param newtonStep largest component of the step that Newton's method would still take
   * @param smallestCurvature smallest eigenvalue of the observed information scaled to unit
   *     diagonal
   */
  record Proof(int iterations, double gradientNorm, double newtonStep, double smallestCurvature) {}
}

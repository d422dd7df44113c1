package org.vaneward.stats.goodness;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.apache.commons.rng.UniformRandomProvider;
import org.vaneward.stats.Observations;
import org.vaneward.stats.bootstrap.ParametricSampler;
import org.vaneward.stats.bootstrap.Refit;
import org.vaneward.stats.bootstrap.Replicates;
import org.vaneward.stats.distribution.LifeDistribution;

/**
 * Does a fitted curve describe the lives? The distance between the fit and the estimate that
 * assumes no curve, and the chance to see one as large when the fitted family is right.
 *
 * <p>With F the fitted share failed, F* the product limit's and n the number of lives,
 *
 * <pre>
 *   W2 = n integral (F* - F)^2 dF                     (Cramér, von Mises)
 *   A2 = n integral (F* - F)^2 / (F (1 - F)) dF       (Anderson, Darling)
 * </pre>
 *
 * over the ages at which the product limit is known: up to the greatest age seen, or all ages when
 * it has come down to 0. A2 weighs the early and the late failures more. Of a complete sample they
 * are the classical statistics (R. B. D'Agostino and M. A. Stephens, Goodness-of-Fit Techniques,
 * 1986, ch. 4, with the censored forms in section 4.7; J. A. Koziol and S. B. Green, Biometrika 63,
 * 1976, 465–474, for W2 of the product limit; all from memory).
 *
 * <ul>
 *   <li>Delayed entry: where no life was seen before an age, both shares are of those that reached
 *       it. A step that would bring the product limit to 0 though lives come under observation or
 *       fail later is passed over: with so few at risk it says nothing (after T. L. Lai and Z.
 *       Ying, Annals of Statistics 19, 1991; from memory).
 *   <li>Intervals: the masses of Turnbull's estimate take the place of the product limit's steps.
 *       Where within an interval a mass lies is not known; it is spread as the fitted curve spreads
 *       it, so that only what can be seen counts against the fit. Not available when lives known to
 *       an interval come with entry ages, for which that estimate is not made.
 * </ul>
 *
 * <p>The p-values come from the parametric bootstrap: samples like these lives are drawn from the
 * fit, each is fitted again and its distance taken from its own fit; p = (1 + number as large) / (1
 * + number drawn) (Davison and Hinkley, Bootstrap Methods and their Application, 1997, ch. 4; from
 * memory). So parameters found from the data, and censoring, are allowed for.
 */
public sealed interface GoodnessOfFit {
  /** Share of samples without a fit beyond which there is no test. */
  double MOST_NOT_ESTIMABLE = 0.05;

  /** Fewest failures: a curve with two parameters goes through any two. */
  int FEWEST_FAILURES = 3;

  /**
   * The test.
   *
   * @param andersonDarling A2
   * @param cramerVonMises W2
   * @param replicates samples drawn
   * @param notEstimable how many of them had no fit and were left out
   */
  record Tested(
      Statistic andersonDarling, Statistic cramerVonMises, int replicates, int notEstimable)
      implements GoodnessOfFit {}

  /**
   * No test.
   *
   * @param reason why, in one short phrase
   */
  record NotAvailable(String reason) implements GoodnessOfFit {}

  /**
   * A distance and the chance of one as large under the fitted family.
   *
   * @param value the distance
   * @param p the chance, positive
   */
  record Statistic(double value, double p) {}

  /**
   * Tests a fit. Same seed, same p, on any number of threads.
   *
   * @param lives the lives that were fitted
   * @param fitted their fit
   * @param refit how they were fitted
   * @param replicates how many samples to draw, positive; 999 tell a p of 0.05 from one of 0.03
   * @param seed of the draws
   * @throws IllegalArgumentException when there are no replicates to run
   */
  static GoodnessOfFit test(
      Observations lives, LifeDistribution fitted, Refit refit, int replicates, long seed) {
    Optional<String> obstacle = obstacle(lives);
    if (obstacle.isPresent()) {
      return new NotAvailable(obstacle.get());
    }
    Optional<Distance> seen = Distance.of(lives, fitted);
    if (seen.isEmpty()) {
      return new NotAvailable("the distance from the fit could not be computed");
    }
    ParametricSampler sampler = ParametricSampler.of(lives, fitted);
    List<Optional<Distance>> drawn =
        Replicates.of(replicates, seed, random -> distance(sampler, refit, random));
    List<Distance> distances = drawn.stream().flatMap(Optional::stream).toList();
    int missing = replicates - distances.size();
    if (missing > MOST_NOT_ESTIMABLE * replicates) {
      return new NotAvailable(
          String.format(
              Locale.ROOT,
              "%d of %d samples drawn like these lives have no fit",
              missing,
              replicates));
    }
    Distance at = seen.get();
    long larger = distances.stream().filter(d -> d.a2() >= at.a2()).count();
    long wider = distances.stream().filter(d -> d.w2() >= at.w2()).count();
    double all = 1.0 + distances.size();
    return new Tested(
        new Statistic(at.a2(), (1 + larger) / all),
        new Statistic(at.w2(), (1 + wider) / all),
        replicates,
        missing);
  }

  private static Optional<Distance> distance(
      ParametricSampler sampler, Refit refit, UniformRandomProvider random) {
    Observations sample = sampler.draw(random);
    return refit.fit(sample).flatMap(fit -> Distance.of(sample, fit));
  }

  private static Optional<String> obstacle(Observations lives) {
    if (lives.failures() < FEWEST_FAILURES) {
      return Optional.of("fewer than " + FEWEST_FAILURES + " failures");
    }
    if (lives.lives() > ParametricSampler.MOST_LIVES) {
      return Optional.of("too many lives to draw one by one");
    }
    boolean interval = false;
    boolean late = false;
    for (int i = 0; i < lives.size(); i++) {
      interval |= !lives.isExact(i) && !lives.isRightCensored(i);
      late |= lives.entry(i) > 0;
    }
    return interval && late
        ? Optional.of("failures known to an interval together with entry ages")
        : Optional.empty();
  }
}

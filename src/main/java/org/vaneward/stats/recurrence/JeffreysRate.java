package org.vaneward.stats.recurrence;

import org.vaneward.stats.Estimate;
import org.vaneward.stats.numeric.Quantiles;

/**
 * The rate of a Poisson process under Jeffreys' prior: gamma with shape events + 1/2 and the
 * exposure as rate parameter (NUREG/CR-6823, Handbook of Parameter Estimation for Probabilistic
 * Risk Assessment, 2003, section 6.2.2, from memory). Beside it stand the exact limits of {@link
 * org.vaneward.stats.nonparametric.FailureRate}, which are wider.
 */
public final class JeffreysRate {
  private JeffreysRate() {}

  /**
   * Mean of the rate's law with its equal-tailed limits.
   *
   * @param events 0 or more
   * @param exposure total time watched, positive
   * @param confidence share of the law between the limits, between 0 and 1
   * @throws IllegalArgumentException when an argument is out of its range
   */
  public static Estimate of(double events, double exposure, double confidence) {
    if (!(events >= 0 && events < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException("a number of events is 0 or more, not " + events);
    }
    if (!(exposure > 0 && exposure < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException("an exposure is positive and finite, not " + exposure);
    }
    double tail = (1 - confidence) / 2;
    double freedom = 2 * events + 1;
    return new Estimate(
        (events + 0.5) / exposure,
        Quantiles.chiSquare(tail, freedom) / 2 / exposure,
        Quantiles.chiSquare(1 - tail, freedom) / 2 / exposure);
  }
}

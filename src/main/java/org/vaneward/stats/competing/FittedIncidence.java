package org.vaneward.stats.competing;

import java.util.List;
import org.vaneward.stats.distribution.Weibull;
import org.vaneward.stats.numeric.Integral;

/**
 * Cumulative incidence of causes whose hazards are Weibull and add up: by age t cause k has ended
 * the share integral from 0 to t of h_k(u) exp(-sum of H_j(u)) du.
 *
 * <p>The integral is taken over x = H_k(u), where the integrand starts at 1 and falls whatever the
 * shapes are: exp(-x - sum over the other causes of H_j(u)). It is cut where the cumulative hazard
 * of all causes passes stated values and refined until halving a panel changes nothing beyond
 * {@link Integral#RELATIVE_ACCURACY}. The result is good to {@link #ACCURACY} of its size.
 *
 * @param causes one distribution for each cause
 */
public record FittedIncidence(List<Weibull> causes) {
  /** Relative accuracy of an incidence. */
  public static final double ACCURACY = 1e-10;

  /** Cumulative hazard of all causes from which on nobody is left, as far as a double can tell. */
  private static final double NOBODY_LEFT = 745;

  private static final double[] CUTS = {1e-3, 0.01, 0.1, 0.3, 1, 2, 4, 8, 16, 40, 100};
  private static final int HALVINGS = 60;

  /** Copies. */
  public FittedIncidence {
    causes = List.copyOf(causes);
  }

  /** Cumulative hazard of all causes. */
  public double cumulativeHazard(double age) {
    double sum = 0;
    for (Weibull cause : causes) {
      sum += cause.cumulativeHazard(age);
    }
    return sum;
  }

  /** Share that no cause has ended by {@code age}: the product of the causes' own survivals. */
  public double eventFree(double age) {
    return Math.exp(-cumulativeHazard(age));
  }

  /**
   * Share that cause {@code k} has ended by {@code age}.
   *
   * @param age not negative, may be infinite: then the share the cause ends in the long run
   * @return the share; not a number when the integral could not be had to {@link #ACCURACY}
   * @throws IllegalArgumentException when the age is negative or there is no such cause
   */
  public double incidence(int k, double age) {
    if (!(age >= 0)) {
      throw new IllegalArgumentException("an age is not negative, as is " + age);
    }
    if (!(k >= 0 && k < causes.size())) {
      throw new IllegalArgumentException(
          "a cause is from 0 to " + (causes.size() - 1) + ", not " + k);
    }
    Weibull cause = causes.get(k);
    if (causes.size() == 1) {
      return cause.failed(age);
    }
    double latest = Math.min(age, ageAt(NOBODY_LEFT));
    double end = cause.cumulativeHazard(latest);
    if (end == 0) {
      return 0;
    }
    double[] splits = new double[CUTS.length];
    for (int i = 0; i < CUTS.length; i++) {
      splits[i] = cause.cumulativeHazard(ageAt(CUTS[i]));
    }
    Integral integral =
        Integral.overAges(
            x -> Math.exp(-x - others(k, cause.scale() * Math.exp(Math.log(x) / cause.shape()))),
            end,
            splits);
    boolean good = integral.converged() || integral.error() <= ACCURACY * integral.value();
    return good ? Math.min(1, integral.value()) : Double.NaN;
  }

  private double others(int k, double age) {
    double sum = 0;
    for (int j = 0; j < causes.size(); j++) {
      if (j != k) {
        sum += causes.get(j).cumulativeHazard(age);
      }
    }
    return sum;
  }

  /** Age at which the cumulative hazard of all causes is {@code hazard}: halving in log age. */
  private double ageAt(double hazard) {
    double high = Double.POSITIVE_INFINITY;
    double low = Double.POSITIVE_INFINITY;
    for (Weibull cause : causes) {
      double logScale = Math.log(cause.scale());
      high = Math.min(high, logScale + Math.log(hazard) / cause.shape());
      low = Math.min(low, logScale + Math.log(hazard / causes.size()) / cause.shape());
    }
    for (int i = 0; i < HALVINGS && low < high; i++) {
      double middle = low + (high - low) / 2;
      if (cumulativeHazard(Math.exp(middle)) < hazard) {
        low = middle;
      } else {
        high = middle;
      }
    }
    return Math.exp(low);
  }
}

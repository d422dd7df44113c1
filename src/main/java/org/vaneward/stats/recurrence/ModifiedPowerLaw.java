package org.vaneward.stats.recurrence;

import java.util.Optional;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.numeric.Quantiles;
import org.vaneward.stats.recurrence.EventHistories.Truncation;
import org.vaneward.stats.recurrence.PowerLawFit.Fitted;

/**
 * Estimates of a power law with the bias-corrected shape, and approximate limits of the mean time
 * between events at the end, for one unit watched from 0 to a set time T (NIST/SEMATECH e-Handbook
 * of Statistical Methods, 8.4.5.2). With r events and z the normal quantile:
 *
 * <pre>{@code
 * shape = (r - 1) / sum(log(T / t)),  a = r / T^shape,  mean time at T = T / (r shape)
 * lower = mean time * r (r - 1) / (r + z²/4 + root(r z²/2 + z⁴/16))²
 * upper = mean time * r (r - 1) / (r - z root(r/2))²
 * }</pre>
 *
 * @param shape bias-corrected shape
 * @param intensityCoefficient a: the factor of t^shape in the mean count
 * @param mtbfAtEnd mean time between events at T, with limits; the upper one is infinite when r is
 *     at most z²/2
 */
public record ModifiedPowerLaw(double shape, double intensityCoefficient, Estimate mtbfAtEnd) {
  /** 1 - shape: how fast the mean time between events grows on log scales. */
  public double improvementSlope() {
    return 1 - shape;
  }

  /**
   * The modified estimates.
   *
   * @param fit of one unit
   * @param confidence of two-sided limits, between 0 and 1
   * @return empty unless one unit was watched from 0 to a set time and had two events
   */
  public static Optional<ModifiedPowerLaw> of(Fitted fit, double confidence) {
    boolean applies = fit.units() == 1 && fit.truncation() == Truncation.TIME;
    if (!applies || fit.shapeBiasCorrected().isEmpty()) {
      return Optional.empty();
    }
    double shape = fit.shapeBiasCorrected().getAsDouble();
    double r = fit.events();
    double z = Quantiles.twoSidedNormal(confidence);
    double mean = fit.endAge() / (r * shape);
    double below = r + z * z / 4 + Math.sqrt(r * z * z / 2 + Math.pow(z, 4) / 16);
    double above = r - z * Math.sqrt(r / 2);
    double upper = above > 0 ? mean * r * (r - 1) / (above * above) : Double.POSITIVE_INFINITY;
    return Optional.of(
        new ModifiedPowerLaw(
            shape,
            Math.exp(Math.log(r) - shape * Math.log(fit.endAge())),
            new Estimate(mean, mean * r * (r - 1) / (below * below), upper)));
  }
}

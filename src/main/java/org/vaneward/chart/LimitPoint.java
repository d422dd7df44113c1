package org.vaneward.chart;

/**
 * Pointwise limits at one age.
 *
 * @param ageHours age in running hours, positive
 * @param lower lower limit of the share, 0 to 1
 * @param upper upper limit of the share, at least {@code lower}, at most 1
 */
public record LimitPoint(double ageHours, double lower, double upper) {
  /**
   * Limits.
   *
   * @throws IllegalArgumentException when a value is outside its domain
   */
  public LimitPoint {
    Guard.positive("age in hours", ageHours);
    Guard.limits(lower, upper);
  }
}

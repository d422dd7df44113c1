package org.vaneward.stats.recurrence;

/**
 * A Poisson process whose mean number of events by age t is (t / scale)^shape = lambda t^shape, so
 * that events come at the rate (shape / scale) (t / scale)^(shape - 1) for each unit of age. Shape
 * above 1: ever faster; below 1: ever slower. Mending brings a unit back to where it was, not to
 * new.
 *
 * @param shape positive
 * @param scale positive, in the unit of age: the age by which one event is expected
 */
public record PowerLawProcess(double shape, double scale) {
  /**
   * Checks.
   *
   * @throws IllegalArgumentException when a parameter is not positive and finite
   */
  public PowerLawProcess {
    if (!(shape > 0 && shape < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException("a power-law shape is positive and finite, not " + shape);
    }
    if (!(scale > 0 && scale < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException("a power-law scale is positive and finite, not " + scale);
    }
  }

  /** lambda = scale^(-shape): the factor of t^shape. May be 0 or infinite on extreme scales. */
  public double intensityCoefficient() {
    return Math.exp(-shape * Math.log(scale));
  }

  /** Mean number of events by an age of 0 or more. */
  public double meanCount(double age) {
    return Math.exp(shape * Math.log(age / scale));
  }

  /** Mean number of events after {@code from} and by {@code to}. */
  public double meanCount(double from, double to) {
    return from > 0 ? -meanCount(to) * Math.expm1(shape * Math.log(from / to)) : meanCount(to);
  }

  /** Events for each unit of age, at a positive age. */
  public double intensity(double age) {
    return shape / scale * Math.exp((shape - 1) * Math.log(age / scale));
  }
}

package org.vaneward.api;

import org.vaneward.report.Words;
import org.vaneward.stats.Estimate;

/**
 * A number and how sure it is.
 *
 * <pre>{@code
 * Figure shape = fit.shape();
 * boolean wearsOut = shape.lower() > 1;
 * }</pre>
 *
 * @param estimate the number
 * @param lower lower limit; 0 or negative infinity when there is none
 * @param upper upper limit; infinity when there is none
 */
public record Figure(double estimate, double lower, double upper) {
  static Figure of(Estimate e) {
    return new Figure(e.estimate(), e.lower(), e.upper());
  }

  /** For people, rounded: {@code 1.73 (1.49 to 1.99)}. */
  @Override
  public String toString() {
    return words(estimate) + " (" + words(lower) + " to " + words(upper) + ")";
  }

  private static String words(double x) {
    return Double.isInfinite(x) ? "no limit" : Words.significant(x);
  }
}

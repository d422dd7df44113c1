package org.vaneward.stats.recurrence;

import org.vaneward.stats.recurrence.PowerLawFit.LimitMethod;

/**
 * What to ask of a power-law fit. Defaults: two-sided limits of confidence 0.90, exact where there
 * is an exact law and by profile likelihood elsewhere.
 *
 * @param confidence of two-sided limits, between 0 and 1
 * @param limits how limits are made
 */
public record PowerLawSettings(double confidence, LimitMethod limits) {
  /**
   * Checks.
   *
   * @throws IllegalArgumentException when the confidence is not between 0 and 1
   */
  public PowerLawSettings {
    if (!(confidence > 0 && confidence < 1)) {
      throw new IllegalArgumentException("a confidence is between 0 and 1, not " + confidence);
    }
  }

  /** The defaults. */
  public static PowerLawSettings defaults() {
    return new PowerLawSettings(0.90, LimitMethod.EXACT);
  }

  /** A copy with limits of another confidence. */
  public PowerLawSettings withConfidence(double other) {
    return new PowerLawSettings(other, limits);
  }

  /** A copy with limits made another way. */
  public PowerLawSettings withLimits(LimitMethod other) {
    return new PowerLawSettings(confidence, other);
  }
}

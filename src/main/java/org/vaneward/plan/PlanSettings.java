package org.vaneward.plan;

/**
 * What to ask of a plan.
 *
 * @param weeks weeks the calendar covers, at least 1
 * @param confidence of the limits of dates, between 0 and 1
 */
public record PlanSettings(int weeks, double confidence) {
  /**
   * Checks.
   *
   * @throws IllegalArgumentException when a number is out of its range
   */
  public PlanSettings {
    if (weeks < 1) {
      throw new IllegalArgumentException("a calendar has at least 1 week, not " + weeks);
    }
    if (!(confidence > 0 && confidence < 1)) {
      throw new IllegalArgumentException("a confidence is between 0 and 1, not " + confidence);
    }
  }

  /** Two years, limits of confidence 0.90. */
  public static PlanSettings defaults() {
    return new PlanSettings(104, 0.90);
  }

  /** A copy with another number of weeks. */
  public PlanSettings withWeeks(int other) {
    return new PlanSettings(other, confidence);
  }

  /** A copy with limits of another confidence. */
  public PlanSettings withConfidence(double other) {
    return new PlanSettings(weeks, other);
  }
}

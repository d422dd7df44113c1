package org.vaneward.stats.recurrence;

/** What a test on event ages comes to: a statistic with its p-value, or why there is none. */
public sealed interface TestOutcome {
  /**
   * A test that could be made.
   *
   * @param statistic the test's statistic
   * @param degreesOfFreedom of its chi-square law, 0 when it has none
   * @param events number of events that took part
   * @param p two-sided p-value
   */
  record Tested(double statistic, double degreesOfFreedom, int events, double p)
      implements TestOutcome {}

  /**
   * A test that could not be made.
   *
   * @param reason why, in one short phrase
   */
  record NotTestable(String reason) implements TestOutcome {}
}

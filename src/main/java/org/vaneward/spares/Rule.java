package org.vaneward.spares;

/**
 * When pumps are opened and what is done then.
 *
 * @param planned whether planned rebuilds take place; else every pump runs to failure
 * @param intervalFactor what planned intervals are multiplied by; the first rebuild of each pump
 *     moves by as much, within its limits
 * @param mends whether a failure brings only what failed to be renewed, not the full rebuild
 */
public record Rule(boolean planned, double intervalFactor, boolean mends) {
  /** The plan as it stands: rebuilt in full at every opening. */
  public static final Rule PLAN = new Rule(true, 1, false);

  /** No planned rebuild: rebuilt in full at every failure. */
  public static final Rule TO_FAILURE = new Rule(false, 1, false);

  /** Checks. */
  public Rule {
    if (!(intervalFactor > 0 && intervalFactor < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException("a factor is positive and finite, not " + intervalFactor);
    }
  }

  /** The same with intervals longer or shorter. */
  public Rule withIntervals(double factor) {
    return new Rule(planned, factor, mends);
  }

  /** The same where failures are only mended. */
  public Rule mending() {
    return new Rule(planned, intervalFactor, true);
  }
}

package org.vaneward.backtest;

/**
 * Scores summed over half-years; the lower, the better.
 *
 * @param brierSum Brier scores of each pump's chance of a stop
 * @param logSum log scores of the same
 * @param pumps how many such chances
 * @param crpsSum ranked probability scores of the fleet's stops
 * @param halfYears how many half-years
 */
public record Score(double brierSum, double logSum, int pumps, double crpsSum, int halfYears) {
  static final Score NONE = new Score(0, 0, 0, 0, 0);

  Score plus(Score other) {
    return new Score(
        brierSum + other.brierSum,
        logSum + other.logSum,
        pumps + other.pumps,
        crpsSum + other.crpsSum,
        halfYears + other.halfYears);
  }

  /** Mean Brier score of a pump's half-year. */
  public double brier() {
    return brierSum / pumps;
  }

  /** Mean log score of a pump's half-year. */
  public double log() {
    return logSum / pumps;
  }

  /** Mean ranked probability score of a half-year, in stops. */
  public double crps() {
    return crpsSum / halfYears;
  }
}

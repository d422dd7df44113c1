package org.vaneward.stats.scoring;

import org.vaneward.stats.renewal.CountDistribution;

/**
 * Scores of a forecast once what it spoke of has come. All are proper: whoever forecasts what he
 * believes does best on average. The lower, the better.
 *
 * <p><em>Source</em>: T. Gneiting and A. E. Raftery, Journal of the American Statistical
 * Association 102, 2007, 359-378, from memory.
 */
public final class ForecastScores {
  private ForecastScores() {}

  /**
   * Continuous ranked probability score of a forecast count: the sum over k of (F(k) − 1[k ≥
   * came])². In the unit of the count; for a forecast that is sure of a number it is how far off
   * that number is.
   *
   * @param came the number that came, not negative
   */
  public static double crps(CountDistribution forecast, int came) {
    notNegative(came);
    double score = 0;
    double below = 0;
    int last = Math.max(forecast.largest(), came);
    for (int k = 0; k < last; k++) {
      below += forecast.chance(k);
      double off = k < came ? below : 1 - below;
      score += off * off;
    }
    return score;
  }

  /**
   * Brier score of the forecast chance of an event: its squared distance from 1 where the event
   * came, from 0 where it did not.
   *
   * @param chance from 0 to 1
   */
  public static double brier(double chance, boolean came) {
    checked(chance);
    double off = (came ? 1 : 0) - chance;
    return off * off;
  }

  /**
   * Log score of the forecast chance of an event: minus the log of the chance it gave to what came;
   * infinite where it had ruled that out.
   *
   * @param chance from 0 to 1
   */
  public static double log(double chance, boolean came) {
    checked(chance);
    return came ? -Math.log(chance) : -Math.log1p(-chance);
  }

  private static void checked(double chance) {
    if (!(chance >= 0 && chance <= 1)) {
      throw new IllegalArgumentException("a chance is from 0 to 1, not " + chance);
    }
  }

  private static void notNegative(int came) {
    if (came < 0) {
      throw new IllegalArgumentException("a count is not negative: " + came);
    }
  }
}

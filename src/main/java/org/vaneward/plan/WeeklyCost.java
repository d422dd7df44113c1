package org.vaneward.plan;

import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.time.temporal.TemporalAdjusters;
import java.util.Arrays;

/**
 * Expected extra cost of rebuilding a pump in the weeks to come, against its best moment.
 *
 * <p>Worked out every {@value #STEP_WEEKS} weeks and at the end of the horizon, and by a cubic
 * between: the cost is smooth.
 */
public final class WeeklyCost {
  static final int STEP_WEEKS = 4;

  private final double[] money;

  private WeeklyCost(double[] money) {
    this.money = money;
  }

  /** Expected extra cost after some days. */
  interface Cost {
    double after(double days);
  }

  /** The cost over {@code weeks} weeks from the first Monday on or after {@code asOf}. */
  static WeeklyCost of(LocalDate asOf, int weeks, Cost cost) {
    LocalDate monday = asOf.with(TemporalAdjusters.nextOrSame(DayOfWeek.MONDAY));
    double start = ChronoUnit.DAYS.between(asOf, monday);
    int knots = weeks / STEP_WEEKS + 4;
    double[] at = new double[knots];
    for (int k = 1; k < knots; k++) {
      // Two knots past the last week, for the slope there.
      at[k] = cost.after(start + 7.0 * STEP_WEEKS * (k - 1));
    }
    // Before the first week there is none: the parabola through the next three goes on.
    at[0] = 3 * at[1] - 3 * at[2] + at[3];
    double[] money = new double[weeks + 1];
    for (int w = 0; w <= weeks; w++) {
      money[w] =
          Math.max(0, between(at, 1 + w / STEP_WEEKS, (w % STEP_WEEKS) / (double) STEP_WEEKS));
    }
    return new WeeklyCost(money);
  }

  /** The cubic through a stretch's ends with the slopes of their neighbours. */
  private static double between(double[] at, int k, double x) {
    double from = (at[k + 1] - at[k - 1]) / 2;
    int last = Math.min(k + 2, at.length - 1);
    double to = (at[last] - at[k]) / (last - k);
    double rise = at[k + 1] - at[k];
    double a = from - rise;
    double b = rise - to;
    return at[k] + x * rise + x * (1 - x) * (a * (1 - x) + b * x);
  }

  /** Weeks covered. */
  public int weeks() {
    return money.length - 1;
  }

  /**
   * Extra cost of a rebuild in week {@code week}, 0 being the first; the number of weeks stands for
   * the end of the horizon.
   */
  public double in(int week) {
    return money[week];
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof WeeklyCost cost && Arrays.equals(money, cost.money);
  }

  @Override
  public int hashCode() {
    return Arrays.hashCode(money);
  }
}

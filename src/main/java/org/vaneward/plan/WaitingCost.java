package org.vaneward.plan;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.List;
import org.vaneward.fleet.FleetSettings;

/**
 * What opening a pump in each week costs beyond its best moment: {@link WeeklyCost} where its costs
 * are known. A pump dated by a limit alone pays for each week opened early its share of a planned
 * opening, as of life thrown away.
 */
final class WaitingCost implements ExtraCost {
  private static final double DAYS_PER_WEEK = 7;
  private static final double WEEKS_PER_MONTH = 365.25 / 12 / DAYS_PER_WEEK;
  private static final int MONTHS_WITHOUT_LIMIT = 60;
  private static final double LEAST = 1;

  private final double earlyPerWeek;

  WaitingCost(FleetSettings settings) {
    int months = settings.limits().maxIntervalMonths().orElse(MONTHS_WITHOUT_LIMIT);
    earlyPerWeek = Math.max(LEAST, settings.costs().planned().total() / (months * WEEKS_PER_MONTH));
  }

  @Override
  public double[] byWeek(PumpPlan pump, List<LocalDate> days) {
    LocalDate due = pump.nextRebuild().date().orElseThrow();
    double[] cost = new double[days.size()];
    for (int w = 0; w < cost.length; w++) {
      cost[w] =
          pump.byWeek().isPresent()
              ? pump.byWeek().get().in(w)
              : earlyPerWeek
                  * Math.max(0, ChronoUnit.DAYS.between(days.get(w), due) / DAYS_PER_WEEK);
    }
    int after = cost.length - 1;
    if (due.isAfter(days.get(after))) {
      // It is due after the calendar: left until then, it waits for its best moment.
      cost[after] = 0;
    }
    return cost;
  }
}

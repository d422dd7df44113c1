package org.vaneward.plan;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.List;
import org.vaneward.fleet.FleetSettings;

/**
 * Extra cost that grows with the square of the weeks from the due day, scaled to what the first
 * week late costs. A pump past its due day pays from the calendar's first day on, along the same
 * curve. A pump dated by a limit alone pays for each week opened early its share of a planned
 * opening, as of life thrown away.
 */
final class NearDueCost implements ExtraCost {
  private static final double DAYS_PER_WEEK = 7;
  private static final double WEEKS_PER_MONTH = 365.25 / 12 / DAYS_PER_WEEK;
  private static final int MONTHS_WITHOUT_LIMIT = 60;
  private static final double LEAST = 1;

  private final LocalDate asOf;
  private final double earlyPerWeek;

  NearDueCost(FleetSettings settings) {
    asOf = settings.asOf();
    int months = settings.limits().maxIntervalMonths().orElse(MONTHS_WITHOUT_LIMIT);
    earlyPerWeek = Math.max(LEAST, settings.costs().planned().total() / (months * WEEKS_PER_MONTH));
  }

  @Override
  public double[] byWeek(PumpPlan pump, List<LocalDate> days) {
    LocalDate due = pump.nextRebuild().date().orElseThrow();
    double[] cost = new double[days.size()];
    double overdue = Math.max(0, weeks(due, asOf));
    for (int w = 0; w < cost.length; w++) {
      double off = weeks(due, days.get(w));
      boolean mayWait = w == cost.length - 1 && off < 0;
      if (mayWait) {
        cost[w] = 0;
      } else if (pump.costOfFirstWeekLate().isPresent()) {
        double first = Math.max(0, pump.costOfFirstWeekLate().getAsDouble());
        cost[w] = first / (2 * overdue + 1) * (off * off - overdue * overdue);
      } else {
        cost[w] = earlyPerWeek * Math.max(0, -off);
      }
    }
    return cost;
  }

  private static double weeks(LocalDate from, LocalDate to) {
    return ChronoUnit.DAYS.between(from, to) / DAYS_PER_WEEK;
  }
}

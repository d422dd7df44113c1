package org.vaneward.backtest;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.vaneward.fleet.FleetSettings.ClosedPeriod;
import org.vaneward.fleet.FleetSettings.Workshop;
import org.vaneward.plan.PumpPlan;

/**
 * What was advised for a pump at the origin of a half-year.
 *
 * @param pump asset tag
 * @param rebuild day of its next rebuild: when it was due or, where the workshop had no room, as
 *     soon after as it had; empty when no rebuild was advised
 * @param interval from that rebuild to the next, in the fleet's clock; empty when none
 */
public record Advice(String pump, Optional<LocalDate> rebuild, OptionalDouble interval) {
  private static final int DAYS_PER_WEEK = 7;
  private static final int MIDWEEK = 3;

  /**
   * Advice for each pump, by tag.
   *
   * @param due plans in order of urgency: that is the order in which the workshop takes them
   */
  static List<Advice> of(List<PumpPlan> due, Span span, Workshop workshop) {
    Map<Long, Integer> taken = new HashMap<>();
    List<Advice> all = new ArrayList<>();
    for (PumpPlan plan : due) {
      Optional<LocalDate> rebuild =
          plan.nextRebuild().date().map(day -> room(day, span, workshop, taken));
      all.add(new Advice(plan.pump(), rebuild, plan.intervalAfter().hours()));
    }
    all.sort(Comparator.comparing(Advice::pump));
    return all;
  }

  /** The first day, not before it is due, in a week with room; the due day itself when later. */
  private static LocalDate room(
      LocalDate due, Span span, Workshop workshop, Map<Long, Integer> taken) {
    LocalDate first = span.origin().plusDays(1);
    LocalDate day = due.isBefore(first) ? first : due;
    while (!day.isAfter(span.end())) {
      long week = (day.toEpochDay() - first.toEpochDay()) / DAYS_PER_WEEK;
      int most = workshop.rebuildsPerWeek().orElse(Integer.MAX_VALUE);
      LocalDate monday = first.plusDays(week * DAYS_PER_WEEK);
      if (!closed(monday.plusDays(MIDWEEK), workshop) && taken.getOrDefault(week, 0) < most) {
        taken.merge(week, 1, Integer::sum);
        return day;
      }
      day = monday.plusDays(DAYS_PER_WEEK);
    }
    return due.isAfter(day) ? due : day;
  }

  private static boolean closed(LocalDate day, Workshop workshop) {
    for (ClosedPeriod period : workshop.closed()) {
      if (!day.isBefore(period.from()) && !day.isAfter(period.to())) {
        return true;
      }
    }
    return false;
  }
}

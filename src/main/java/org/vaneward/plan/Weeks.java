package org.vaneward.plan;

import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.time.temporal.IsoFields;
import java.time.temporal.TemporalAdjusters;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.vaneward.fleet.FleetSettings;
import org.vaneward.fleet.FleetSettings.ClosedPeriod;

/**
 * The weeks of a calendar, from the first Monday not before the day of record. A week is closed
 * when every day from Monday to Friday is; a rebuild is booked on its week's first open day.
 *
 * @param monday the first Monday
 * @param firstOpen by week; empty when closed
 */
record Weeks(LocalDate monday, List<Optional<LocalDate>> firstOpen) {
  Weeks {
    firstOpen = List.copyOf(firstOpen);
  }

  static Weeks of(FleetSettings settings, int count) {
    LocalDate monday = settings.asOf().with(TemporalAdjusters.nextOrSame(DayOfWeek.MONDAY));
    List<Optional<LocalDate>> open = new ArrayList<>();
    for (int w = 0; w < count; w++) {
      open.add(firstOpen(monday.plusWeeks(w), settings.workshop().closed()));
    }
    return new Weeks(monday, open);
  }

  private static Optional<LocalDate> firstOpen(LocalDate monday, List<ClosedPeriod> closed) {
    return monday
        .datesUntil(monday.plusDays(5))
        .filter(
            day -> closed.stream().noneMatch(c -> !day.isBefore(c.from()) && !day.isAfter(c.to())))
        .findFirst();
  }

  /** {@code 2026-W36}, by ISO 8601. */
  static String iso(LocalDate day) {
    return String.format(
        Locale.ROOT,
        "%04d-W%02d",
        day.get(IsoFields.WEEK_BASED_YEAR),
        day.get(IsoFields.WEEK_OF_WEEK_BASED_YEAR));
  }

  int count() {
    return firstOpen.size();
  }

  LocalDate mondayOf(int week) {
    return monday.plusWeeks(week);
  }

  /** The Monday of each week. */
  List<LocalDate> mondays() {
    return IntStream.range(0, count()).mapToObj(this::mondayOf).toList();
  }

  /** The Mondays of the weeks in which the workshop is closed. */
  Set<LocalDate> closed() {
    return IntStream.range(0, count())
        .filter(w -> firstOpen.get(w).isEmpty())
        .mapToObj(this::mondayOf)
        .collect(Collectors.toSet());
  }

  /** The first Monday after the calendar. */
  LocalDate after() {
    return mondayOf(count());
  }

  /** Index of the week of {@code day}: negative before the first, at least {@link #count} after. */
  int indexOf(LocalDate day) {
    return (int) Math.floorDiv(ChronoUnit.DAYS.between(monday, day), 7L);
  }

  /** The day a rebuild in the week is booked on; its Monday when it is closed. */
  LocalDate dayOf(int week) {
    return firstOpen.get(week).orElseGet(() -> mondayOf(week));
  }

  /** Days of booking by week, then {@link #after}. */
  List<LocalDate> days() {
    List<LocalDate> days = new ArrayList<>();
    for (int w = 0; w < count(); w++) {
      days.add(dayOf(w));
    }
    days.add(after());
    return days;
  }

  /** The last open week whose booking day is not after {@code limit}; -1 when there is none. */
  int lastBy(LocalDate limit) {
    int last = -1;
    for (int w = 0; w < count(); w++) {
      if (firstOpen.get(w).filter(day -> !day.isAfter(limit)).isPresent()) {
        last = w;
      }
    }
    return last;
  }
}

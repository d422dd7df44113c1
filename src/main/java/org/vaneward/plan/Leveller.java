package org.vaneward.plan;

import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.time.temporal.IsoFields;
import java.time.temporal.TemporalAdjusters;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.OptionalLong;
import org.vaneward.fleet.FleetSettings;
import org.vaneward.fleet.FleetSettings.ClosedPeriod;

/**
 * Spreads due rebuilds over the weeks the workshop is open, so many a week.
 *
 * <p>A week is closed when every day from Monday to Friday is; a rebuild is booked for its week's
 * first open day. Pumps whose limit falls within the horizon come first, in the order of their
 * limits, then the others in the order of their due days. Each takes the free week nearest to the
 * one it is due in, first within its window, then outside, never past its limit. Because pumps are
 * placed in the order of their limits, one finds no week only when the pumps with limits as early
 * fill every week up to its own: no other order could have kept all of them. It then takes the
 * first free week of all and is listed. Only each pump's next rebuild is booked.
 */
final class Leveller {
  private final List<Slot> slots = new ArrayList<>();
  private final Map<String, LocalDate> booked = new HashMap<>();
  private final List<Calendar.NotKept> notKept = new ArrayList<>();
  private final LocalDate end;

  /** A week, and who is booked in it. */
  private record Slot(LocalDate monday, LocalDate firstOpen, int places, List<String> pumps) {
    boolean free() {
      return pumps.size() < places;
    }
  }

  Leveller(FleetSettings settings, int weeks) {
    int places = settings.workshop().rebuildsPerWeek().orElse(Integer.MAX_VALUE);
    LocalDate monday = settings.asOf().with(TemporalAdjusters.nextOrSame(DayOfWeek.MONDAY));
    end = monday.plusWeeks(weeks).minusDays(1);
    for (int i = 0; i < weeks; i++) {
      LocalDate start = monday.plusWeeks(i);
      firstOpen(start, settings.workshop().closed())
          .ifPresent(day -> slots.add(new Slot(start, day, places, new ArrayList<>())));
    }
  }

  private static Optional<LocalDate> firstOpen(LocalDate monday, List<ClosedPeriod> closed) {
    return monday
        .datesUntil(monday.plusDays(5))
        .filter(
            day -> closed.stream().noneMatch(c -> !day.isBefore(c.from()) && !day.isAfter(c.to())))
        .findFirst();
  }

  Calendar level(List<PumpPlan> plans) {
    plans.stream()
        .filter(p -> p.nextRebuild().date().filter(d -> !d.isAfter(end)).isPresent())
        .sorted(
            Comparator.comparing(this::limit)
                .thenComparing(p -> p.nextRebuild().date().orElseThrow())
                .thenComparing(PumpPlan::pump))
        .forEach(this::place);
    List<Calendar.Week> weeks =
        slots.stream()
            .filter(s -> !s.pumps().isEmpty())
            .map(s -> new Calendar.Week(isoWeek(s.monday()), s.monday(), s.pumps()))
            .toList();
    return new Calendar(weeks, notKept);
  }

  Optional<LocalDate> dayOf(String pump) {
    return Optional.ofNullable(booked.get(pump));
  }

  static String isoWeek(LocalDate day) {
    return String.format(
        Locale.ROOT,
        "%04d-W%02d",
        day.get(IsoFields.WEEK_BASED_YEAR),
        day.get(IsoFields.WEEK_OF_WEEK_BASED_YEAR));
  }

  /** The pump's limit; the furthest of days when it has none within the horizon. */
  private LocalDate limit(PumpPlan plan) {
    return plan.latest().filter(d -> !d.isAfter(end)).orElse(LocalDate.MAX);
  }

  private void place(PumpPlan plan) {
    LocalDate limit = limit(plan);
    OptionalInt week = nearest(plan, limit);
    if (week.isEmpty()) {
      week = firstFree();
    }
    if (week.isEmpty()) {
      notKept.add(unplaced(plan, limit));
      return;
    }
    Slot slot = slots.get(week.getAsInt());
    slot.pumps().add(plan.pump());
    booked.put(plan.pump(), slot.firstOpen());
    check(plan, limit, slot.firstOpen());
  }

  private OptionalInt nearest(PumpPlan plan, LocalDate limit) {
    int target = weekOf(plan.nextRebuild().date().orElseThrow());
    int best = -1;
    for (int i = 0; i < slots.size(); i++) {
      boolean allowed = slots.get(i).free() && !slots.get(i).firstOpen().isAfter(limit);
      if (allowed && (best < 0 || nearer(plan, i, best, target))) {
        best = i;
      }
    }
    return best < 0 ? OptionalInt.empty() : OptionalInt.of(best);
  }

  /** The last open week that starts by {@code day}; the first when none does. */
  private int weekOf(LocalDate day) {
    int week = 0;
    while (week + 1 < slots.size() && !slots.get(week + 1).firstOpen().isAfter(day)) {
      week++;
    }
    return week;
  }

  private boolean nearer(PumpPlan plan, int a, int b, int target) {
    boolean insideA = inWindow(plan, slots.get(a).firstOpen());
    boolean insideB = inWindow(plan, slots.get(b).firstOpen());
    return insideA == insideB ? Math.abs(a - target) < Math.abs(b - target) : insideA;
  }

  private static boolean inWindow(PumpPlan plan, LocalDate day) {
    NextRebuild next = plan.nextRebuild();
    return next.from().filter(day::isBefore).isEmpty() && next.to().filter(day::isAfter).isEmpty();
  }

  private OptionalInt firstFree() {
    for (int i = 0; i < slots.size(); i++) {
      if (slots.get(i).free()) {
        return OptionalInt.of(i);
      }
    }
    return OptionalInt.empty();
  }

  private void check(PumpPlan plan, LocalDate limit, LocalDate day) {
    if (day.isAfter(limit)) {
      notKept.add(late(plan, Calendar.Kept.LIMIT, limit, day));
      return;
    }
    plan.nextRebuild()
        .to()
        .filter(day::isAfter)
        .ifPresent(to -> notKept.add(late(plan, Calendar.Kept.WINDOW, to, day)));
  }

  private static Calendar.NotKept late(
      PumpPlan plan, Calendar.Kept what, LocalDate by, LocalDate day) {
    return new Calendar.NotKept(
        plan.pump(), what, by, Optional.of(day), OptionalLong.of(ChronoUnit.DAYS.between(by, day)));
  }

  private static Calendar.NotKept unplaced(PumpPlan plan, LocalDate limit) {
    boolean limited = limit.isBefore(LocalDate.MAX);
    LocalDate by =
        limited
            ? limit
            : plan.nextRebuild().to().orElseGet(() -> plan.nextRebuild().date().orElseThrow());
    return new Calendar.NotKept(
        plan.pump(),
        limited ? Calendar.Kept.LIMIT : Calendar.Kept.WINDOW,
        by,
        Optional.empty(),
        OptionalLong.empty());
  }
}

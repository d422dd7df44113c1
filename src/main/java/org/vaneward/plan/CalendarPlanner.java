package org.vaneward.plan;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.TreeMap;
import java.util.function.Consumer;
import org.vaneward.fleet.Commitment;
import org.vaneward.fleet.FleetSettings;
import org.vaneward.schedule.Job;
import org.vaneward.schedule.Schedule;
import org.vaneward.schedule.Scheduler;

/**
 * Books each pump's next rebuild into a week: limits first, then least expected extra cost and site
 * visits together. The order in which pumps are given does not matter.
 */
final class CalendarPlanner {
  private final FleetSettings settings;
  private final Weeks weeks;
  private final ExtraCost extraCost;
  private final Map<String, Commitment> committed = new LinkedHashMap<>();

  /**
   * A planner.
   *
   * @throws IllegalArgumentException when a pump is committed twice
   */
  CalendarPlanner(FleetSettings settings, CalendarRequest request, ExtraCost extraCost) {
    this.settings = settings;
    this.weeks = Weeks.of(settings, request.weeks());
    this.extraCost = extraCost;
    for (Commitment one : request.committed()) {
      if (committed.put(one.pump(), one) != null) {
        throw new IllegalArgumentException(one.pump() + " is committed twice");
      }
    }
  }

  /** A pump to book, and its job. */
  record Candidate(PumpPlan plan, Job job, Optional<Commitment> committed) {
    /** The last day any limit allows, the furthest of days when none is set. */
    LocalDate limit() {
      return plan.latest().orElse(LocalDate.MAX);
    }
  }

  Calendar plan(List<PumpPlan> plans, Consumer<String> progress) {
    List<Candidate> candidates = candidates(plans);
    int[] places = places(candidates.size());
    Schedule schedule =
        Scheduler.solve(
            places,
            settings.workshop().siteVisitCost(),
            candidates.stream().map(Candidate::job).toList(),
            progress);
    int[] week = schedule.weeks();
    List<Calendar.Booking> bookings = new ArrayList<>();
    int later = 0;
    for (int i = 0; i < candidates.size(); i++) {
      Optional<Calendar.Booking> booking = booking(candidates.get(i), week[i]);
      booking.ifPresent(bookings::add);
      later += booking.isEmpty() ? 1 : 0;
    }
    bookings.sort(Comparator.comparing(Calendar.Booking::day).thenComparing(urgency(candidates)));
    Broken broken = new Broken(weeks, places, candidates);
    return new Calendar(
        weeks.mondays(),
        weeks.closed(),
        byWeek(bookings),
        bookings,
        broken.notKept(bookings),
        new Calendar.Balance(
            schedule.optimal(),
            schedule.gap(),
            schedule.extraCost(),
            schedule.visits(),
            schedule.visitCost(),
            later),
        broken.remarks());
  }

  private List<Candidate> candidates(List<PumpPlan> plans) {
    List<PumpPlan> wanted =
        plans.stream()
            .filter(p -> p.nextRebuild().date().isPresent() || committed.containsKey(p.pump()))
            .sorted(Comparator.comparing(PumpPlan::pump))
            .toList();
    Map<String, Integer> sites = new TreeMap<>();
    wanted.forEach(p -> sites.put(p.site(), 0));
    int next = 0;
    for (Map.Entry<String, Integer> site : sites.entrySet()) {
      site.setValue(next++);
    }
    List<LocalDate> days = weeks.days();
    List<Candidate> candidates = new ArrayList<>();
    for (PumpPlan plan : wanted) {
      Optional<Commitment> one = Optional.ofNullable(committed.get(plan.pump()));
      double[] cost = cost(plan, days);
      Job job =
          new Job(sites.getOrDefault(plan.site(), 0), cost, daysLate(plan, days), weekOf(one));
      candidates.add(new Candidate(plan, job, one));
    }
    return candidates;
  }

  /**
   * A pump due within the calendar that is left until later needs a visit then: without its price,
   * leaving pumps out would look cheap.
   */
  private double[] cost(PumpPlan plan, List<LocalDate> days) {
    if (plan.nextRebuild().date().isEmpty()) {
      return new double[days.size()];
    }
    double[] cost = extraCost.byWeek(plan, days);
    if (plan.nextRebuild().date().get().isBefore(weeks.after())) {
      cost[cost.length - 1] += settings.workshop().siteVisitCost();
    }
    return cost;
  }

  /** A week before the first counts as the first: the running week, which the calendar skips. */
  private OptionalInt weekOf(Optional<Commitment> one) {
    return one.isEmpty()
        ? OptionalInt.empty()
        : OptionalInt.of(Math.max(0, Math.min(weeks.count(), weeks.indexOf(one.get().monday()))));
  }

  /** After the calendar is late only for a limit that ends within it. */
  private static long[] daysLate(PumpPlan plan, List<LocalDate> days) {
    LocalDate limit = plan.latest().orElse(LocalDate.MAX);
    long[] late = new long[days.size()];
    LocalDate after = days.get(days.size() - 1);
    for (int w = 0; w < late.length; w++) {
      boolean kept = w == late.length - 1 ? !limit.isBefore(after) : !days.get(w).isAfter(limit);
      late[w] = kept ? 0 : Math.max(1, ChronoUnit.DAYS.between(limit, days.get(w)));
    }
    return late;
  }

  private int[] places(int jobs) {
    int[] places = new int[weeks.count()];
    for (int w = 0; w < places.length; w++) {
      boolean open = weeks.firstOpen().get(w).isPresent();
      places[w] = open ? settings.workshop().rebuildsPerWeek().orElse(jobs) : 0;
    }
    return places;
  }

  private Optional<Calendar.Booking> booking(Candidate candidate, int week) {
    Optional<Commitment> commitment = candidate.committed();
    if (week == weeks.count() && commitment.isEmpty()) {
      return Optional.empty();
    }
    PumpPlan plan = candidate.plan();
    LocalDate day = commitment.isEmpty() ? weeks.dayOf(week) : committedDay(commitment.get());
    return Optional.of(
        new Calendar.Booking(
            plan.pump(),
            plan.site(),
            Weeks.iso(day),
            day,
            commitment.isPresent(),
            plan.latest(),
            candidate.job().cost(week),
            commitment.flatMap(Commitment::note)));
  }

  private LocalDate committedDay(Commitment commitment) {
    int week = weeks.indexOf(commitment.monday());
    boolean inside = week >= 0 && week < weeks.count();
    return commitment.day().orElseGet(() -> inside ? weeks.dayOf(week) : commitment.monday());
  }

  private static Comparator<Calendar.Booking> urgency(List<Candidate> candidates) {
    Map<String, PumpPlan> plans = new LinkedHashMap<>();
    candidates.forEach(c -> plans.put(c.plan().pump(), c.plan()));
    return Comparator.<Calendar.Booking, LocalDate>comparing(b -> b.limit().orElse(LocalDate.MAX))
        .thenComparing(
            b ->
                Optional.ofNullable(plans.get(b.pump()))
                    .flatMap(p -> p.nextRebuild().date())
                    .orElse(LocalDate.MAX))
        .thenComparing(Calendar.Booking::pump);
  }

  private static List<Calendar.Week> byWeek(List<Calendar.Booking> bookings) {
    Map<String, List<Calendar.Booking>> weeks = new LinkedHashMap<>();
    bookings.forEach(b -> weeks.computeIfAbsent(b.week(), w -> new ArrayList<>()).add(b));
    return weeks.entrySet().stream()
        .map(
            e -> {
              LocalDate day = e.getValue().get(0).day();
              return new Calendar.Week(
                  e.getKey(),
                  day.minusDays(day.getDayOfWeek().getValue() - 1L),
                  e.getValue().stream().map(Calendar.Booking::pump).toList());
            })
        .toList();
  }
}

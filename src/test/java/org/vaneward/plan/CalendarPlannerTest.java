package org.vaneward.plan;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.DayOfWeek;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.OptionalLong;
import java.util.Set;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.vaneward.fleet.Commitment;
import org.vaneward.fleet.FleetSettings;
import org.vaneward.fleet.FleetSettings.ClosedPeriod;
import org.vaneward.fleet.FleetSettings.Workshop;
import org.vaneward.policy.Bound;

class CalendarPlannerTest {
  /** 30 June 2026 is a Tuesday: the first week starts on 6 July. */
  private static final LocalDate FIRST = LocalDate.of(2026, 7, 6);

  @Test
  void weeksHaveTheirIsoNames() {
    assertEquals("2026-W28", Weeks.iso(FIRST));
    assertEquals("2026-W53", Weeks.iso(LocalDate.of(2027, 1, 2)));
    assertEquals("2025-W01", Weeks.iso(LocalDate.of(2024, 12, 30)));
  }

  @Test
  void duePumpsSpreadOverTheWeeksAroundTheirDay() {
    LocalDate due = FIRST.plusWeeks(5);
    List<PumpPlan> plans = new ArrayList<>();
    for (int i = 0; i < 5; i++) {
      plans.add(plan("P" + i, due.plusDays(i), due.minusWeeks(4), due.plusWeeks(4)));
    }
    Calendar calendar = level(Fleets.workshop(2), plans);
    assertEquals(
        List.of(
            new Calendar.Week("2026-W32", FIRST.plusWeeks(4), List.of("P0")),
            new Calendar.Week("2026-W33", FIRST.plusWeeks(5), List.of("P1", "P2")),
            new Calendar.Week("2026-W34", FIRST.plusWeeks(6), List.of("P3", "P4"))),
        calendar.weeks());
    assertTrue(calendar.notKept().isEmpty());
  }

  @Test
  void closedWeeksStayEmptyAndAPartlyClosedWeekStartsLate() {
    ClosedPeriod shut = new ClosedPeriod(FIRST, FIRST.plusDays(8));
    Calendar calendar =
        level(Fleets.workshop(1, shut), List.of(plan("P", FIRST, FIRST, FIRST.plusWeeks(3))));
    assertEquals("2026-W29", calendar.weeks().get(0).week());
    // Monday and Tuesday of the second week are closed too.
    assertEquals(Optional.of(FIRST.plusDays(9)), calendar.dayOf("P"));
  }

  @Test
  void limitIsKeptAheadOfTheOptimum() {
    LocalDate limit = FIRST.plusWeeks(3);
    List<PumpPlan> plans =
        List.of(
            limited("A", limit),
            limited("B", limit),
            limited("C", limit),
            plan("soft", limit, limit, limit));
    Calendar calendar = level(Fleets.workshop(1), plans);
    List<String> booked = calendar.weeks().stream().flatMap(w -> w.pumps().stream()).toList();
    assertEquals(Set.of("A", "B", "C"), Set.copyOf(booked.subList(0, 3)));
    assertEquals("soft", booked.get(3));
    assertEquals(
        List.of(
            new Calendar.NotKept(
                "soft",
                Calendar.Kept.WINDOW,
                limit,
                Optional.of(limit.plusWeeks(1)),
                OptionalLong.of(7),
                "opening it then costs less than taking another pump's place or one more visit")),
        calendar.notKept());
  }

  @Test
  void limitThatCannotBeKeptIsListedByHowMuch() {
    LocalDate limit = FIRST.plusDays(3);
    Calendar calendar =
        level(Fleets.workshop(1), List.of(limited("A", limit), limited("B", limit)));
    assertEquals(
        List.of(
            new Calendar.NotKept(
                "B",
                Calendar.Kept.LIMIT,
                limit,
                Optional.of(FIRST.plusWeeks(1)),
                OptionalLong.of(4),
                "only 1 place is free until 2026-W28, and 2 pumps have limits by then")),
        calendar.notKept());
  }

  @Test
  void overduePumpTakesTheFirstWeekAndIsListed() {
    LocalDate limit = Fleets.AS_OF.minusDays(10);
    Calendar calendar = level(Fleets.workshop(1), List.of(limited("A", limit)));
    assertEquals(FIRST, calendar.weeks().get(0).monday());
    assertEquals(OptionalLong.of(16), calendar.notKept().get(0).daysLate());
  }

  @Test
  void noPlaceAtAllIsSaid() {
    Calendar calendar = level(Fleets.workshop(0), List.of(limited("A", FIRST)));
    assertTrue(calendar.weeks().isEmpty());
    assertEquals(Optional.empty(), calendar.notKept().get(0).scheduled());
    ClosedPeriod always = new ClosedPeriod(FIRST.minusYears(1), FIRST.plusYears(9));
    calendar =
        level(Fleets.workshop(3, always), List.of(plan("B", FIRST, FIRST, FIRST.plusDays(9))));
    assertEquals("B", calendar.notKept().get(0).pump());
  }

  @Test
  void unlimitedWorkshopKeepsEveryWeek() {
    Workshop unlimited = new Workshop(OptionalInt.empty(), 0, List.of());
    List<PumpPlan> plans = new ArrayList<>();
    for (int i = 0; i < 40; i++) {
      plans.add(plan("P" + i, FIRST, FIRST, FIRST));
    }
    assertEquals(40, level(unlimited, plans).weeks().get(0).pumps().size());
  }

  @Test
  void committedPumpsKeepTheirWeekWhateverItBreaks() {
    ClosedPeriod shut = new ClosedPeriod(FIRST.plusWeeks(2), FIRST.plusWeeks(3));
    LocalDate limit = FIRST.plusWeeks(1);
    List<PumpPlan> plans =
        List.of(
            limited("A", limit),
            plan("B", FIRST, FIRST, FIRST.plusWeeks(4)),
            plan("C", FIRST, FIRST, FIRST.plusWeeks(4)));
    List<Commitment> committed =
        List.of(
            promise("A", FIRST.plusWeeks(2)),
            promise("B", FIRST.plusWeeks(5)),
            promise("C", FIRST.plusWeeks(5)));
    Calendar calendar =
        calendar(Fleets.settings(Fleets.NO_LIMITS, Fleets.workshop(1, shut)), committed, plans);
    assertEquals(Optional.of(FIRST.plusWeeks(2)), calendar.dayOf("A"));
    assertEquals(Optional.of(FIRST.plusWeeks(5)), calendar.dayOf("B"));
    assertEquals(Optional.of(FIRST.plusWeeks(5)), calendar.dayOf("C"));
    assertTrue(calendar.bookings().stream().allMatch(Calendar.Booking::committed));
    assertEquals(
        List.of(
            "2026-W30 is closed, and 1 rebuild committed to it.",
            "2026-W33 has 2 rebuilds committed and places for 1."),
        calendar.remarks());
    Calendar.NotKept late = calendar.notKept().get(0);
    assertEquals("A", late.pump());
    assertEquals("committed to that week", late.why());
  }

  @Test
  void commitmentsOutsideTheWeeksOrNotDueAreKeptAndSaid() {
    PumpPlan notDue = plan("N", NextRebuild.none(), Optional.empty());
    PumpPlan late = plan("L", FIRST, FIRST, FIRST.plusWeeks(4));
    Calendar calendar =
        calendar(
            Fleets.settings(Fleets.NO_LIMITS, Fleets.workshop(1)),
            List.of(promise("N", FIRST.minusWeeks(1)), promise("L", FIRST.plusWeeks(40))),
            List.of(notDue, late));
    assertEquals(Optional.of(FIRST.minusWeeks(1)), calendar.dayOf("N"));
    assertEquals(Optional.of(FIRST.plusWeeks(40)), calendar.dayOf("L"));
    assertEquals(3, calendar.remarks().size());
  }

  @Test
  void aCalendarCommittedComesBackTheSame() {
    SplittableRandom random = new SplittableRandom(8);
    FleetSettings settings = Fleets.settings(Fleets.NO_LIMITS, visits(2, 300));
    List<PumpPlan> plans = randomPlans(random);
    Calendar first = calendar(settings, List.of(), plans);
    List<Commitment> committed = new ArrayList<>();
    for (Calendar.Booking one : first.bookings()) {
      committed.add(
          new Commitment(
              one.pump(),
              one.day().with(DayOfWeek.MONDAY),
              Optional.of(one.day()),
              Optional.empty()));
    }
    Calendar again = calendar(settings, committed, plans);
    assertEquals(first.weeks(), again.weeks());
    assertEquals(first.balance().visits(), again.balance().visits());
    assertEquals(first.balance().extraCost(), again.balance().extraCost(), 1e-9);
    List<PumpPlan> shuffled = new ArrayList<>(plans);
    Collections.reverse(shuffled);
    assertEquals(first, calendar(settings, List.of(), shuffled));
  }

  @Test
  void neighboursInTimeShareAVisitWhereThatPays() {
    List<PumpPlan> plans =
        List.of(
            plan("A", FIRST.plusWeeks(4), FIRST, FIRST.plusWeeks(9)),
            plan("B", FIRST.plusWeeks(6), FIRST, FIRST.plusWeeks(9)));
    Calendar shared = level(visits(2, 100), plans);
    assertEquals(List.of("A", "B"), shared.weeks().get(0).pumps());
    assertEquals(1, shared.balance().visits());
    // In the week between, each is one week off: 10 for the first week, twice.
    assertEquals(20, shared.balance().extraCost(), 1e-9);
    assertTrue(shared.balance().optimal());
    assertEquals(2, level(visits(2, 5), plans).balance().visits());
  }

  @Test
  void whatPutsALimitOutOfReachIsSaid() {
    ClosedPeriod shut = new ClosedPeriod(FIRST, FIRST.plusWeeks(2));
    Calendar closed = level(Fleets.workshop(1, shut), List.of(limited("A", FIRST.plusDays(9))));
    assertEquals(
        "the workshop is closed from 2026-07-06 until the limit", closed.notKept().get(0).why());
    Calendar past = level(Fleets.workshop(1), List.of(limited("A", FIRST.minusDays(1))));
    assertEquals(
        "the limit is past before the calendar starts on 2026-07-06", past.notKept().get(0).why());
  }

  private static Workshop visits(int perWeek, double cost) {
    return new Workshop(OptionalInt.of(perWeek), cost, List.of());
  }

  private static Commitment promise(String pump, LocalDate monday) {
    return new Commitment(pump, monday, Optional.empty(), Optional.empty());
  }

  /**
   * On random fleets: capacity and closed weeks hold; every pump due is booked or listed; a limit
   * is overrun only where it is listed, and only when the pumps with limits as early fill every
   * open week up to it.
   */
  @Test
  void nothingIsBrokenInSilence() {
    SplittableRandom random = new SplittableRandom(41);
    int missed = 0;
    for (int trial = 0; trial < 200; trial++) {
      int places = 1 + random.nextInt(2);
      LocalDate shut = FIRST.plusDays(random.nextInt(60));
      ClosedPeriod closed = new ClosedPeriod(shut, shut.plusDays(random.nextInt(25)));
      List<PumpPlan> plans = randomPlans(random);
      FleetSettings settings = Fleets.settings(Fleets.NO_LIMITS, Fleets.workshop(places, closed));
      Calendar calendar = calendar(settings, List.of(), plans);
      Set<String> seen = new HashSet<>();
      for (Calendar.Week week : calendar.weeks()) {
        assertTrue(week.pumps().size() <= places);
        assertEquals(DayOfWeek.MONDAY, week.monday().getDayOfWeek());
        week.pumps().forEach(p -> assertTrue(seen.add(p)));
      }
      for (PumpPlan plan : plans) {
        Optional<LocalDate> day = calendar.dayOf(plan.pump());
        boolean listed =
            calendar.notKept().stream()
                .anyMatch(n -> n.pump().equals(plan.pump()) && n.what() == Calendar.Kept.LIMIT);
        assertEquals(seen.contains(plan.pump()), day.isPresent());
        day.ifPresent(d -> assertFalse(!d.isBefore(closed.from()) && !d.isAfter(closed.to())));
        LocalDate limit = plan.latest().orElse(LocalDate.MAX);
        assertEquals(day.orElse(LocalDate.MAX).isAfter(limit), listed);
        if (listed) {
          missed++;
          long rivals =
              plans.stream()
                  .filter(p -> p.latest().filter(l -> !l.isAfter(limit)).isPresent())
                  .count();
          assertTrue(
              rivals > places * openWeeks(closed, limit), "a limit was given up for nothing");
        }
      }
    }
    assertTrue(missed > 20, "too few limits missed to say: " + missed);
  }

  private static long openWeeks(ClosedPeriod closed, LocalDate limit) {
    long open = 0;
    for (LocalDate monday = FIRST; !monday.isAfter(limit); monday = monday.plusWeeks(1)) {
      for (int d = 0; d < 5; d++) {
        LocalDate day = monday.plusDays(d);
        if (day.isBefore(closed.from()) || day.isAfter(closed.to())) {
          open += day.isAfter(limit) ? 0 : 1;
          break;
        }
      }
    }
    return open;
  }

  private static List<PumpPlan> randomPlans(SplittableRandom random) {
    List<PumpPlan> plans = new ArrayList<>();
    int pumps = 5 + random.nextInt(20);
    for (int i = 0; i < pumps; i++) {
      LocalDate due = Fleets.AS_OF.plusDays(random.nextInt(100));
      plans.add(
          random.nextInt(3) > 0
              ? limited("P" + i, due)
              : plan("P" + i, due, due.minusDays(random.nextInt(40)), due.plusDays(30)));
    }
    return plans;
  }

  private static Calendar level(Workshop workshop, List<PumpPlan> plans) {
    return calendar(Fleets.settings(Fleets.NO_LIMITS, workshop), List.of(), plans);
  }

  private static Calendar calendar(
      FleetSettings settings, List<Commitment> committed, List<PumpPlan> plans) {
    return new CalendarPlanner(
            settings, new CalendarRequest(26, committed), new NearDueCost(settings))
        .plan(plans, said -> {});
  }

  private static PumpPlan limited(String pump, LocalDate limit) {
    return plan(
        pump,
        new NextRebuild(Optional.of(limit), Optional.of(limit), Optional.of(limit)),
        Optional.of(limit));
  }

  private static PumpPlan plan(String pump, LocalDate date, LocalDate from, LocalDate to) {
    return plan(
        pump,
        new NextRebuild(Optional.of(date), Optional.of(from), Optional.of(to)),
        Optional.empty());
  }

  private static PumpPlan plan(String pump, NextRebuild next, Optional<LocalDate> latest) {
    return new PumpPlan(
        pump,
        "North",
        Optional.empty(),
        OptionalDouble.empty(),
        OptionalDouble.empty(),
        next,
        Optional.empty(),
        new IntervalAfter(OptionalDouble.empty(), OptionalDouble.empty()),
        latest.isPresent() ? Bound.MANDATED : Bound.COST,
        Optional.empty(),
        OptionalDouble.empty(),
        OptionalDouble.of(10),
        Optional.empty(),
        Optional.empty(),
        "why",
        0,
        latest,
        latest,
        false,
        true,
        Optional.empty(),
        List.of(),
        List.of());
  }
}

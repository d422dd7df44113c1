package org.vaneward.plan;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.vaneward.fleet.FleetSettings;
import org.vaneward.fleet.FleetSettings.Clock;
import org.vaneward.fleet.FleetSettings.Limits;
import org.vaneward.policy.Bound;
import org.vaneward.policy.CostModels;
import org.vaneward.policy.ExpectedCost;
import org.vaneward.policy.LifeLookup;
import org.vaneward.stats.distribution.Weibull;

class PlanTest {
  private static final FleetSettings FREE = Fleets.settings(Fleets.NO_LIMITS, Fleets.TWO_A_WEEK);

  @Test
  void newPumpIsDueAfterTheIntervalOfPumpsLikeIt() {
    PumpPlan plan = one(FREE, Fleets.pump("P-1", 0), Fleets.wearing());
    double interval = interval(FREE);
    LocalDate want = Fleets.AS_OF.plusDays((long) Math.floor(interval / 50 * 7 - 1e-6));
    assertEquals(Optional.of(want), plan.nextRebuild().date());
    assertEquals(Bound.COST, plan.boundBy());
    assertTrue(plan.costOfWaitingPerWeek().orElseThrow() < 0);
    assertTrue(plan.costOfFirstWeekLate().orElseThrow() > 0);
    assertTrue(plan.nextRebuild().from().orElseThrow().isBefore(want));
    assertTrue(plan.nextRebuild().to().orElseThrow().isAfter(want));
    assertEquals(0, plan.overdueDays());
  }

  @Test
  void whyDueLaterOnCost() {
    PumpPlan plan = one(FREE, Fleets.pump("P-1", 1000, 2500), Fleets.wearing());
    LocalDate date = plan.nextRebuild().date().orElseThrow();
    assertTrue(date.isAfter(Fleets.AS_OF));
    assertEquals(
        "Seal-outboard has run 2,500 h (half fail by 7,773 h in petrol, loading); from "
            + date
            + " waiting costs more than opening.",
        plan.why());
    assertEquals(7773, new Weibull(2.5, 9000).quantile(0.5), 0.5);
  }

  @Test
  void whyOverdueOnCostWithoutALimitYetToCome() {
    FleetSettings settings = Fleets.settings(Fleets.months(120), Fleets.TWO_A_WEEK);
    PumpPlan plan = one(settings, Fleets.pump("P-1", 6000), Fleets.wearing());
    LocalDate date = plan.nextRebuild().date().orElseThrow();
    assertEquals(date.plusDays(plan.overdueDays()), Fleets.AS_OF);
    assertTrue(plan.overdueDays() > 100);
    assertEquals(
        "Seal-inboard has run 6,000 h (half fail by 7,773 h in petrol, loading); waiting has cost"
            + " more than opening since "
            + date
            + ", "
            + plan.overdueDays()
            + " days ago. Since then the chance of a stop was "
            + Math.round(100 * plan.riskRun().orElseThrow().chance())
            + "%.",
        plan.why());
    assertTrue(plan.costOfWaitingPerWeek().orElseThrow() > 0);
    assertEquals(plan.costOfWaitingPerWeek(), plan.costOfFirstWeekLate());
  }

  @Test
  void limitPastBesideAnEarlierDayOnCostIsSaid() {
    FleetSettings settings = Fleets.settings(Fleets.months(24), Fleets.TWO_A_WEEK);
    PumpPlan plan = one(settings, Fleets.pump("P-1", 6000), Fleets.wearing());
    assertEquals(Bound.COST, plan.boundBy());
    assertTrue(plan.pastLimit());
    assertTrue(
        plan.why().contains("; the 24-month limit is past as well, since 2026-03-12. Since then"),
        plan::why);
  }

  @Test
  void dueTodayOnCost() {
    double interval = interval(FREE);
    PumpPlan plan = one(FREE, Fleets.pump("P-1", interval - 1), Fleets.wearing());
    assertTrue(
        plan.why().endsWith("; from today, 2026-06-30, waiting costs more than opening."),
        plan::why);
    assertFalse(plan.pastLimit());
  }

  @Test
  void whyAMandatedLimit() {
    FleetSettings settings = Fleets.settings(Fleets.months(6), Fleets.TWO_A_WEEK);
    PumpPlan plan = one(settings, Fleets.pump("P-1", 500), Fleets.wearing());
    PumpPlan free = one(FREE, Fleets.pump("P-1", 500), Fleets.wearing());
    assertEquals(Bound.MANDATED, plan.boundBy());
    assertEquals(
        "The 6-month limit, counted from the last full rebuild on 2026-04-21, ends on 2026-10-21;"
            + " cost alone would wait until "
            + free.nextRebuild().date().orElseThrow()
            + ".",
        plan.why());
    assertEquals(plan.nextRebuild().date(), plan.nextRebuild().to());
  }

  @Test
  void whyAMandatedLimitThatIsPastAndCostSetsNoDate() {
    FleetSettings settings = Fleets.settings(Fleets.months(60), Fleets.TWO_A_WEEK);
    PumpNow pump =
        Fleets.unknownAges(Fleets.pump("P-1", 0), Optional.of(LocalDate.of(2020, 6, 30)));
    PumpPlan plan = one(settings, pump, noHidden(Fleets.lives(0.9, 0.8)));
    assertEquals(Bound.MANDATED, plan.boundBy());
    assertEquals(365, plan.overdueDays());
    assertEquals(
        "The 60-month limit, counted from the first day on record, 2020-06-30, ended on 2025-06-30,"
            + " 365 days ago; cost sets no date: the parts do not fail more as they age, so"
            + " rebuilding early gains nothing: look for the cause.",
        plan.why());
  }

  @Test
  void whyAFailureProbabilityCeiling() {
    Limits limits = new Limits(OptionalInt.of(60), Map.of("seal", 0.02));
    PumpPlan plan =
        one(Fleets.settings(limits, Fleets.TWO_A_WEEK), Fleets.pump("P-1", 1000), Fleets.wearing());
    PumpPlan free = one(FREE, Fleets.pump("P-1", 1000), Fleets.wearing());
    assertEquals(Bound.FAILURE_PROBABILITY, plan.boundBy());
    double hours = 9000 * Math.pow(-Math.log(0.98) / 2, 1 / 2.5) - 1000;
    LocalDate by = Fleets.AS_OF.plusDays((long) Math.floor(hours / 50 * 7));
    assertEquals(
        "The chance of a seal failure since fitting reaches its ceiling of 2% on "
            + by
            + "; cost alone would wait until "
            + free.nextRebuild().date().orElseThrow()
            + ".",
        plan.why());
    assertEquals(Optional.of(by), plan.latest());
    PumpPlan past =
        one(
            Fleets.settings(limits, Fleets.TWO_A_WEEK),
            Fleets.pump("P-1", 2500, 100),
            Fleets.wearing());
    assertTrue(
        past.why().startsWith("The chance of a seal failure since fitting reached its ceiling"),
        past::why);
  }

  @Test
  void whyNoPlannedRebuild() {
    PumpPlan plan = one(FREE, Fleets.pump("P-1", 1000), noHidden(Fleets.lives(0.9, 0.8)));
    assertEquals(Bound.NONE, plan.boundBy());
    assertEquals(NextRebuild.none(), plan.nextRebuild());
    assertEquals(
        "No planned rebuild: the parts do not fail more as they age, so rebuilding early gains"
            + " nothing: look for the cause.",
        plan.why());
    assertTrue(plan.costOfWaitingPerWeek().isEmpty());
    assertEquals(
        List.of("no failure of vanes is on record anywhere: its risk is left out"),
        plan.notKnown());
  }

  @Test
  void usageNotKnownLeavesTheMandatedDay() {
    PumpNow pump = Fleets.withUsage(Fleets.pump("P-1", 1000), OptionalDouble.empty());
    PumpPlan free = one(FREE, pump, Fleets.wearing());
    assertEquals("No planned rebuild: no running hours a week are known for it.", free.why());
    assertTrue(free.failureProbability().isEmpty());
    Limits limits = new Limits(OptionalInt.of(24), Map.of("seal", 0.1));
    PumpPlan limited = one(Fleets.settings(limits, Fleets.TWO_A_WEEK), pump, Fleets.wearing());
    assertEquals(Bound.MANDATED, limited.boundBy());
    assertTrue(
        limited
            .notKnown()
            .contains(
                "the ceiling on seal failures cannot be applied: the pump's usage is not known"));
  }

  @Test
  void unknownAgesAreTakenFromTheRecordsAndSaid() {
    PumpNow pump =
        Fleets.unknownAges(Fleets.pump("P-1", 0), Optional.of(Fleets.AS_OF.minusWeeks(100)));
    PumpPlan plan = one(FREE, pump, Fleets.wearing());
    assertEquals(
        "the age of seal-inboard is not on record: taken as 5,000 h, the running since the records"
            + " begin",
        plan.assumptions().get(0));
    assertEquals(4, plan.assumptions().size());
    assertEquals(
        one(FREE, Fleets.pump("P-1", 5000), Fleets.wearing()).nextRebuild(), plan.nextRebuild());
    PumpPlan nothing = one(FREE, Fleets.unknownAges(pump, Optional.empty()), Fleets.wearing());
    assertEquals(
        "No planned rebuild: the age of a part is not known, nor since when the pump has run.",
        nothing.why());
  }

  @Test
  void failureProbabilityIsThatOfTheAnnouncingParts() {
    PumpPlan plan = one(FREE, Fleets.pump("P-1", 1000, 3000), Fleets.wearing());
    double further = 50 * 90 / 7.0;
    Weibull seal = new Weibull(2.5, 9000);
    Weibull bearing = new Weibull(3, 20000);
    double none =
        (1 - seal.failedWithin(1000, further))
            * (1 - seal.failedWithin(3000, further))
            * (1 - bearing.failedWithin(1000, further));
    FailureProbability got = plan.failureProbability().orElseThrow();
    assertEquals(1 - none, got.d90(), 1e-12);
    assertTrue(got.d30() < got.d90() && got.d90() < got.d365());
  }

  @Test
  void noCostsStillGiveLimitsAndProbabilities() {
    LifeLookup none = (c, s) -> Optional.empty();
    PumpPlan plan =
        one(Fleets.settings(Fleets.months(60), Fleets.TWO_A_WEEK), Fleets.pump("P-1", 500), none);
    assertEquals(Bound.MANDATED, plan.boundBy());
    assertTrue(plan.failureProbability().isEmpty());
    assertFalse(plan.priced());
    assertEquals(3, plan.notKnown().size());
    assertTrue(
        plan.why().endsWith("cost sets no date: no component has a known life and a known cost."));
  }

  @Test
  void agesInDaysNeedNoUsage() {
    FleetSettings days = Fleets.settings(Clock.DAYS, Fleets.NO_LIMITS, Fleets.TWO_A_WEEK);
    PumpPlan plan =
        one(
            days,
            Fleets.withUsage(Fleets.pump("P-1", 0), OptionalDouble.empty()),
            Fleets.wearing());
    double interval = interval(days);
    assertEquals(
        Optional.of(Fleets.AS_OF.plusDays((long) Math.floor(interval - 1e-6))),
        plan.nextRebuild().date());
    assertTrue(plan.why().startsWith("Seal-inboard has run 0 days"), plan::why);
  }

  @Test
  void mandatedIntervalAlwaysWins() {
    SplittableRandom random = new SplittableRandom(31);
    for (int trial = 0; trial < 60; trial++) {
      Limits limits =
          new Limits(
              OptionalInt.of(1 + random.nextInt(90)),
              random.nextBoolean() ? Map.of("seal", 0.01 + 0.5 * random.nextDouble()) : Map.of());
      LifeLookup lives = Fleets.lives(0.6 + 4 * random.nextDouble(), 0.6 + 4 * random.nextDouble());
      PumpPlan plan =
          one(
              Fleets.settings(limits, Fleets.TWO_A_WEEK),
              Fleets.pump("P", 8000 * random.nextDouble(), 8000 * random.nextDouble()),
              lives);
      LocalDate mandated = plan.mandatedBy().orElseThrow();
      LocalDate date = plan.nextRebuild().date().orElseThrow();
      assertFalse(date.isAfter(mandated));
      assertFalse(date.isAfter(plan.latest().orElseThrow()));
      assertFalse(plan.nextRebuild().to().orElseThrow().isAfter(mandated));
      assertFalse(plan.nextRebuild().from().orElse(date).isAfter(date));
    }
  }

  @Test
  void pumpsComeByUrgencyWhateverOrderTheyAreGivenIn() {
    FleetSettings settings = Fleets.settings(Fleets.months(24), Fleets.TWO_A_WEEK);
    List<PumpNow> pumps =
        List.of(
            Fleets.pump("new", 0),
            Fleets.pump("past-limit", 5500),
            Fleets.pump("worn", 4500),
            Fleets.pump("middle", 2000),
            Fleets.pump("further-past", 6500));
    Plan plan = Plan.of(settings, pumps, Fleets.wearing());
    assertEquals(
        List.of("further-past", "past-limit", "worn", "middle", "new"),
        plan.pumps().stream().map(PumpPlan::pump).toList());
    List<PumpNow> reversed = new ArrayList<>(pumps);
    java.util.Collections.reverse(reversed);
    assertEquals(plan, Plan.of(settings, reversed, Fleets.wearing()));
    assertThrows(IllegalArgumentException.class, () -> new CalendarRequest(0, List.of()));
  }

  @Test
  void bookedDaysAreThoseOfTheCalendarAndKeepTheLimitsOrAreListed() {
    FleetSettings settings = Fleets.settings(Fleets.months(18), Fleets.workshop(1));
    SplittableRandom random = new SplittableRandom(32);
    List<PumpNow> pumps = new ArrayList<>();
    for (int i = 0; i < 60; i++) {
      pumps.add(Fleets.pump("P" + i, 5000 * random.nextDouble(), 5000 * random.nextDouble()));
    }
    Plan plan = Plan.of(settings, pumps, Fleets.wearing());
    for (PumpPlan pump : plan.pumps()) {
      LocalDate day = pump.scheduled().orElseThrow();
      LocalDate monday = day.with(java.time.DayOfWeek.MONDAY);
      assertTrue(
          plan.calendar().weeks().stream()
              .anyMatch(w -> w.monday().equals(monday) && w.pumps().contains(pump.pump())));
      boolean listed =
          plan.calendar().notKept().stream()
              .anyMatch(n -> n.pump().equals(pump.pump()) && n.what() == Calendar.Kept.LIMIT);
      assertEquals(day.isAfter(pump.latest().orElseThrow()), listed);
    }
  }

  private static PumpPlan one(FleetSettings settings, PumpNow pump, LifeLookup lives) {
    return Plan.of(settings, List.of(pump), lives).pumps().get(0);
  }

  /** Without the vane set, whose hidden wear would make an interval pay. */
  private static LifeLookup noHidden(LifeLookup lives) {
    return (c, s) -> c.equals("vanes") ? Optional.empty() : lives.find(c, s);
  }

  /** The interval of pumps like these, from the same lives. */
  private static double interval(FleetSettings settings) {
    CostModels.Available cost =
        assertInstanceOf(
            CostModels.Available.class,
            CostModels.forService(
                settings, Optional.of("VP-2"), Optional.of(Fleets.PETROL), Fleets.wearing()));
    return ExpectedCost.of(cost.model(), 0.9).best().intervalHours().orElseThrow();
  }
}

package org.vaneward.plan;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.vaneward.fleet.FleetSettings;
import org.vaneward.fleet.FleetSettings.Clock;
import org.vaneward.fleet.FleetSettings.OpeningCost;
import org.vaneward.io.BadInputException;
import org.vaneward.life.UsageRate;
import org.vaneward.plan.Calendar.Booking;
import org.vaneward.policy.Bound;

class WhatIfTest {
  private static final FleetSettings FLEET = Fleets.settings(Fleets.months(60), Fleets.TWO_A_WEEK);

  private static WhatIf usage(double times) {
    return new WhatIf(OptionalDouble.empty(), Map.of(), OptionalInt.empty(), times);
  }

  private static WhatIf stop(String component, double cost) {
    return new WhatIf(OptionalDouble.empty(), Map.of(component, cost), OptionalInt.empty(), 1);
  }

  @Test
  void nothingAskedChangesNothing() {
    WhatIf nothing = WhatIf.asRecorded();
    List<PumpNow> pumps = List.of(Fleets.pump("P-1", 1000));
    assertFalse(nothing.isAsked());
    assertEquals("", nothing.words());
    assertEquals(FLEET, nothing.of(FLEET));
    assertSame(pumps, nothing.of(pumps));
  }

  @Test
  void aCostKeepsTheSharesItIsMadeOf() {
    FleetSettings asked = stop("seal", 4900).of(FLEET);
    var seal = unplanned(asked, "seal");
    assertEquals(1000, seal.labour(), 1e-9);
    assertEquals(3000, seal.downtime(), 1e-9);
    assertEquals(900, seal.cleanUp(), 1e-9);
    assertEquals(unplanned(FLEET, "bearing"), unplanned(asked, "bearing"));
    assertEquals(FLEET.costs().planned(), asked.costs().planned());
  }

  @Test
  void aCostThatWasNotStatedBecomesLabour() {
    FleetSettings none =
        FLEET.withCosts(new FleetSettings.Costs(new OpeningCost(0, 0, 0), Map.of(), Map.of()));
    WhatIf question =
        new WhatIf(OptionalDouble.of(1500), Map.of("seal", 7000.0), OptionalInt.empty(), 1);
    assertEquals(1500, question.of(none).costs().planned().labour());
    assertEquals(7000, unplanned(question.of(none), "seal").labour());
  }

  @Test
  void usageScalesTheRateAndItsSpread() {
    PumpNow pump =
        Fleets.pump("P-1", 1000)
            .withUsage(
                OptionalDouble.of(50), Optional.of(new UsageRate(50, OptionalDouble.of(8), 6)));
    PumpNow asked = usage(1.2).of(List.of(pump)).get(0);
    assertEquals(60, asked.hoursPerWeek().orElseThrow(), 1e-12);
    UsageRate rate = asked.usage().orElseThrow();
    assertEquals(pump.usage().orElseThrow().relativeSd(10), rate.relativeSd(10), 1e-12);
  }

  @Test
  void dearerStopsAndMoreRunningBringRebuildsForward() {
    List<PumpNow> pumps = List.of(Fleets.pump("P-1", 1000));
    PumpPlan now = date(WhatIf.asRecorded(), pumps);
    PumpPlan dearer = date(stop("seal", 30000), pumps);
    PumpPlan more = date(usage(2), pumps);
    assertTrue(day(dearer) < day(now), dearer.nextRebuild() + " not before " + now.nextRebuild());
    assertTrue(day(more) < day(now), more.nextRebuild() + " not before " + now.nextRebuild());
  }

  @Test
  void aShorterMandateBinds() {
    WhatIf question = new WhatIf(OptionalDouble.empty(), Map.of(), OptionalInt.of(6), 1);
    PumpPlan asked = date(question, List.of(Fleets.pump("P-1", 1000)));
    assertEquals(Bound.MANDATED, asked.boundBy());
    assertEquals(
        "rebuilds were mandated every 6 months (a question, not a permission)", question.words());
  }

  @Test
  void datesWithoutACalendarAreThoseOfThePlan() {
    List<PumpNow> pumps =
        List.of(Fleets.pump("P-1", 1000), Fleets.pump("P-2", 6000), Fleets.pump("P-3", 0));
    Plan plan = Plan.of(FLEET, pumps, Fleets.wearing());
    PumpDates dates = new PumpDates(FLEET, Fleets.wearing(), Plan.CONFIDENCE);
    List<PumpPlan> alone =
        pumps.stream().map(dates::of).sorted(PumpDates.urgency(FLEET.asOf())).toList();
    for (int i = 0; i < alone.size(); i++) {
      PumpPlan one = alone.get(i);
      PumpPlan of = plan.pumps().get(i);
      assertEquals(of.pump(), one.pump());
      assertEquals(of.nextRebuild(), one.nextRebuild());
      assertEquals(of.range(), one.range());
      assertEquals(of.why(), one.why());
      assertEquals(of.failureProbability(), one.failureProbability());
      assertEquals(of.costOfWaitingPerWeek(), one.costOfWaitingPerWeek());
    }
    List<Booking> booked = plan.calendar().bookings();
    assertFalse(booked.isEmpty());
    assertTrue(alone.stream().allMatch(p -> p.scheduled().isEmpty()));
  }

  @Test
  void wordsSayAllThatIsAsked() {
    WhatIf question =
        new WhatIf(
            OptionalDouble.of(1500.5),
            Map.of("seal", 9000.0, "bearing", 7000.25),
            OptionalInt.of(1),
            1.15);
    assertEquals(
        "a planned rebuild cost 1,500.5 beside its parts; a stop by bearing cost 7,000.25 beside its"
            + " parts; a stop by seal cost 9,000 beside its parts; rebuilds were mandated every 1"
            + " month (a question, not a permission); the pumps ran 1.15 times what they do",
        question.words());
  }

  @ParameterizedTest
  @ValueSource(doubles = {0, -1, Double.NaN, Double.POSITIVE_INFINITY})
  void usageIsAboveZeroAndFinite(double times) {
    assertThrows(BadInputException.class, () -> usage(times));
  }

  @ParameterizedTest
  @ValueSource(doubles = {-1, Double.NaN, Double.POSITIVE_INFINITY})
  void costsAreAtLeastZeroAndFinite(double cost) {
    assertThrows(BadInputException.class, () -> stop("seal", cost));
  }

  @ParameterizedTest
  @ValueSource(ints = {0, -3, WhatIf.MOST_MONTHS + 1})
  void monthsAreOneToACentury(int months) {
    assertThrows(
        BadInputException.class,
        () -> new WhatIf(OptionalDouble.empty(), Map.of(), OptionalInt.of(months), 1));
  }

  @Test
  void aComponentThatDoesNotStopThePumpIsRefused() {
    BadInputException vanes =
        assertThrows(BadInputException.class, () -> stop("vanes", 10).of(FLEET));
    assertEquals(
        "no failure of vanes stops a pump; those that do: seal, bearing", vanes.getMessage());
  }

  @Test
  void usageSaysNothingWhereAgesAreInDays() {
    FleetSettings days = Fleets.settings(Clock.DAYS, Fleets.NO_LIMITS, Fleets.TWO_A_WEEK);
    assertThrows(BadInputException.class, () -> usage(1.2).of(days));
  }

  private static OpeningCost unplanned(FleetSettings settings, String component) {
    return settings.costs().unplanned().getOrDefault(component, new OpeningCost(-1, 0, 0));
  }

  private static PumpPlan date(WhatIf question, List<PumpNow> pumps) {
    return new PumpDates(question.of(FLEET), Fleets.wearing(), Plan.CONFIDENCE)
        .of(question.of(pumps).get(0));
  }

  private static long day(PumpPlan plan) {
    return plan.nextRebuild().date().orElseThrow().toEpochDay();
  }
}

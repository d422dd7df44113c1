package org.vaneward.spares;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.vaneward.plan.PumpNow;

/** What the futures are told of a fleet, and what they are not. */
class FleetAheadTest {

  @Test
  void monthsThatStartInTheMiddleArePartsOfMonths() {
    Months months = Months.of(LocalDate.of(2026, 7, 15), 2);
    assertEquals(
        List.of("2026-07", "2026-08", "2026-09"),
        months.all().stream().map(Object::toString).toList());
    assertTrue(months.isPart(0));
    assertFalse(months.isPart(1));
    assertTrue(months.isPart(2));
    assertEquals(62, months.days());
    assertEquals(0, months.at(0.2));
    assertEquals(0, months.at(16));
    assertEquals(1, months.at(16.01));
    assertEquals(2, months.at(62));
    Months whole = Months.of(LocalDate.of(2027, 2, 28), 12);
    assertEquals(12, whole.all().size());
    assertFalse(whole.isPart(0) || whole.isPart(11));
  }

  @Test
  void whatIsNotKnownIsSaidAndLeftOut() {
    MadeFleet fleet = MadeFleet.drawn(3, 1, 1);
    PumpNow first = fleet.pumps.get(0);
    fleet.pumps.set(
        0,
        new PumpNow(
            first.pump(),
            first.site(),
            first.model(),
            first.service(),
            OptionalDouble.empty(),
            Optional.empty(),
            first.lastRebuild(),
            first.inServiceSince(),
            first.hoursSinceRebuild(),
            first.parts()));
    FleetAhead ahead =
        fleet.ahead(
            MadeFleet.lives(Map.of("seal", MadeFleet.draws(2, 9000, new SplittableRandom(1)))), 6);
    assertEquals(2, ahead.pumpCount());
    assertEquals(
        List.of(
            "1 pump is left out: no running hours a week are known",
            "no failure of bearing is on record: it is taken not to fail",
            "no failure of vanes is on record: it is taken not to fail"),
        ahead.notKnown());
  }

  @Test
  void everyPumpNeedsAPlan() {
    MadeFleet fleet = MadeFleet.drawn(2, 1, 1);
    fleet.plans.remove(1);
    IllegalArgumentException e =
        assertThrows(IllegalArgumentException.class, () -> fleet.ahead(MadeFleet.usualLives(1), 6));
    assertEquals("P-0002 has no plan", e.getMessage());
  }

  @Test
  void requestsHaveTheirDomain() {
    assertThrows(IllegalArgumentException.class, () -> new DemandRequest(0, 100, 1));
    assertThrows(IllegalArgumentException.class, () -> new DemandRequest(12, 0, 1));
    assertThrows(
        IllegalArgumentException.class,
        () -> new DemandRequest(DemandRequest.MOST_MONTHS + 1, 100, 1));
    assertThrows(IllegalArgumentException.class, () -> Rule.PLAN.withIntervals(0));
  }

  @Test
  void aLargeFleetIsLivedThroughFewerFutures() {
    assertEquals(10_000, DemandRequest.plain(1, 0).futures());
    assertEquals(10_000, DemandRequest.plain(1, 200).futures());
    assertEquals(5000, DemandRequest.plain(1, 400).futures());
    assertEquals(2000, DemandRequest.plain(1, 1000).futures());
    assertEquals(2000, DemandRequest.plain(1, 1_000_000).futures());
    assertEquals(
        new DemandRequest(6, 300, 9), new DemandRequest(6, 300, 9).forFleetOf(1000), "asked fewer");
  }
}

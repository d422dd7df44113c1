package org.vaneward.plan;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.vaneward.fleet.Fleet;
import org.vaneward.fleet.FleetSettings;
import org.vaneward.fleet.Pump;
import org.vaneward.fleet.PumpHistory;
import org.vaneward.fleet.RowRef;
import org.vaneward.ingest.Ingest;
import org.vaneward.life.InstalledPart;
import org.vaneward.life.LifeBuilder;
import org.vaneward.life.Lives;
import org.vaneward.life.PumpState;

/** From records to plan. */
class SampleFleetPlanTest {
  private static final LocalDate NEW = LocalDate.of(2019, 3, 1);

  @Test
  void everyPumpInServiceHasAPlanThatBreaksNothingInSilence() {
    Fleet fleet = Ingest.read(Path.of("sample-fleet")).fleet();
    FleetSettings settings = fleet.settings();
    List<PumpNow> pumps = PumpNow.of(fleet, LifeBuilder.build(fleet));
    long running = fleet.pumps().stream().filter(p -> p.pump().retired().isEmpty()).count();
    Plan plan = Plan.of(settings, pumps, Fleets.wearing());
    assertEquals(running, plan.pumps().size());
    Set<String> limitsListed = new HashSet<>();
    plan.calendar().notKept().stream()
        .filter(n -> n.what() == Calendar.Kept.LIMIT)
        .forEach(n -> limitsListed.add(n.pump()));
    LocalDate end = settings.asOf().plusWeeks(CalendarRequest.WEEKS - 1);
    for (PumpPlan pump : plan.pumps()) {
      Optional<LocalDate> date = pump.nextRebuild().date();
      assertFalse(
          date.isPresent() && pump.latest().isPresent() && date.get().isAfter(pump.latest().get()));
      if (date.isPresent() && date.get().isBefore(end)) {
        LocalDate day = pump.scheduled().orElse(LocalDate.MAX);
        boolean late = pump.latest().isPresent() && day.isAfter(pump.latest().get());
        assertEquals(late, limitsListed.contains(pump.pump()), pump.pump());
      }
      assertTrue(pump.why().endsWith("."), pump::why);
    }
    int places = settings.workshop().rebuildsPerWeek().orElseThrow();
    plan.calendar().weeks().forEach(w -> assertTrue(w.pumps().size() <= places));
  }

  @Test
  void aCountFromTheStartOfTheRecordsIsNoRebuild() {
    PumpNow now = now(NEW, Optional.empty());
    assertEquals(Optional.empty(), now.lastRebuild());
    assertEquals(Optional.of(NEW), now.inServiceSince());
    PumpNow rebuilt = now(NEW.plusYears(2), Optional.empty());
    assertEquals(Optional.of(NEW.plusYears(2)), rebuilt.lastRebuild());
    assertEquals(
        List.of(new PartNow("vane-set", "vanes", OptionalDouble.empty())), rebuilt.parts());
    Ages ages = new Ages(now, Usage.of(Fleets.settings(Fleets.NO_LIMITS, Fleets.TWO_A_WEEK), now));
    assertEquals(OptionalDouble.of(777), ages.at("vane-set"));
    assertEquals(
        List.of(
            "the age of vane-set is not on record: taken as 777 h, the running since the records"
                + " begin"),
        ages.assumptions());
  }

  @Test
  void retiredPumpsDoNotAppear() {
    assertTrue(pumps(NEW, Optional.of(NEW.plusYears(1))).isEmpty());
  }

  private static PumpNow now(LocalDate since, Optional<LocalDate> retired) {
    return pumps(since, retired).get(0);
  }

  private static List<PumpNow> pumps(LocalDate lastFullRebuild, Optional<LocalDate> retired) {
    Pump pump =
        new Pump(
            "P",
            "North",
            Optional.of("VP-2"),
            Optional.of(NEW.minusYears(1)),
            Optional.of(NEW),
            OptionalDouble.empty(),
            retired,
            Map.of(),
            new RowRef("pumps.csv", 2));
    PumpState state =
        new PumpState(
            "P",
            "North",
            Optional.of(Fleets.PETROL),
            Map.of(),
            retired,
            OptionalDouble.of(40),
            Optional.empty(),
            OptionalDouble.of(40),
            OptionalDouble.empty(),
            Optional.of(lastFullRebuild),
            OptionalDouble.of(777),
            true,
            0,
            Optional.empty());
    InstalledPart part =
        new InstalledPart(
            "P",
            "vanes",
            "vane-set",
            Optional.empty(),
            OptionalDouble.empty(),
            OptionalDouble.empty());
    return PumpNow.of(
        new Fleet(
            Fleets.settings(Fleets.NO_LIMITS, Fleets.TWO_A_WEEK),
            List.of(new PumpHistory(pump, List.of(), List.of(), List.of()))),
        new Lives(
            List.of(), List.of(), List.of(), List.of(), List.of(part), List.of(), List.of(state)));
  }
}

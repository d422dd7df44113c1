package org.vaneward.backtest;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.OptionalLong;
import java.util.Set;
import java.util.function.Predicate;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.vaneward.fleet.Fleet;
import org.vaneward.fleet.FleetSettings.Limits;
import org.vaneward.fleet.PumpHistory;
import org.vaneward.fleet.Trigger;
import org.vaneward.ingest.Ingest;
import org.vaneward.life.LifeBuilder;
import org.vaneward.life.Lives;
import org.vaneward.life.LivesTable;
import org.vaneward.life.OpeningMade;
import org.vaneward.life.OpeningMade.Reason;
import org.vaneward.model.ServiceModels;
import org.vaneward.sample.Sample;
import org.vaneward.stats.pooling.PoolingSettings;
import org.vaneward.stats.renewal.CountDistribution;

class HindsightTest {
  @TempDir Path folder = Path.of("");

  /** Half-years in which every pump is told to run to failure. */
  private static List<HalfYear> noAdvice(Fleet records, LocalDate first) {
    CountDistribution none = CountDistribution.ofDraws(new int[] {0});
    List<HalfYear> all = new ArrayList<>();
    for (Span span : Span.halfYears(first, records.settings().asOf())) {
      List<Advice> advice =
          KnownThen.on(records, records, span.origin()).pumps().stream()
              .map(h -> new Advice(h.pump().pump(), Optional.empty(), OptionalDouble.empty()))
              .toList();
      all.add(
          new HalfYear(
              span,
              0,
              List.of(),
              0,
              new Forecast(none, List.of()),
              none,
              none,
              Map.of(),
              new Came(0, 0, 0, 0, Set.of()),
              advice));
    }
    return all;
  }

  private static MoneyCompared compared(Fleet records, LocalDate first, double confidence) {
    Lives lives = LifeBuilder.build(records);
    ServiceModels hindsight =
        ServiceModels.of(LivesTable.of(lives), PoolingSettings.defaults().withDraws(1000));
    return Hindsight.of(
            records,
            lives,
            hindsight,
            noAdvice(records, first),
            new BacktestRequest(40, 1000, 1, confidence, OptionalDouble.empty()))
        .orElseThrow();
  }

  private static Fleet without(Fleet fleet, Predicate<PumpHistory> out) {
    return new Fleet(
        fleet.settings().withLimits(new Limits(OptionalInt.empty(), Map.of())),
        fleet.pumps().stream().filter(out.negate()).toList());
  }

  /** Where the advice is what the shop did, what would have happened is what did. */
  @Test
  void adviceThatChangesNothingCostsNothing() {
    LocalDate first = LocalDate.parse("2018-12-31");
    Fleet neverPlanned =
        without(
            Ingest.read(Path.of("sample-fleet")).fleet(),
            h ->
                h.openings().stream()
                    .anyMatch(o -> o.trigger() == Trigger.PLANNED && o.date().isAfter(first)));
    MoneyCompared same = compared(neverPlanned, first, 0.9);
    assertTrue(same.pumps() >= 10, same.pumps() + " pumps");
    assertTrue(same.happened().stops().estimate() > 30);
    assertEquals(same.happened().stops().estimate(), same.advised().stops().lower());
    assertEquals(same.happened().stops().estimate(), same.advised().stops().upper());
    assertEquals(same.happened().stops().estimate(), same.onRecord().estimate());
    assertEquals(0, same.more().lower(), 1e-6);
    assertEquals(0, same.more().upper(), 1e-6);
  }

  /**
   * A fleet whose shop plans often, told to run to failure: the stops reckoned, from lives of which
   * planned rebuilds cut most short, are those of the same fleet drawn with a shop that never
   * plans.
   */
  @Test
  void whatPlannedRebuildsPreventedIsReckonedRight() throws IOException {
    Fleet planned = drawn("planned", 0, 3500, 11);
    LocalDate first = LocalDate.parse("2014-12-31");
    MoneyCompared reckoned = compared(without(planned, h -> false), first, 0.98);
    double prevented =
        reckoned.advised().stops().estimate() - reckoned.happened().stops().estimate();
    assertTrue(prevented > 60, "prevented " + prevented);
    double toFailureStops = 0;
    int fleets = 4;
    for (int seed = 21; seed < 21 + fleets; seed++) {
      Fleet toFailure = drawn("to-failure-" + seed, 1, 5500, seed);
      MoneyCompared came = compared(without(toFailure, h -> false), first, 0.9);
      assertEquals(0, planned(toFailure));
      toFailureStops += came.happened().stops().estimate() / fleets;
    }
    assertTrue(
        toFailureStops > reckoned.advised().stops().lower()
            && toFailureStops < reckoned.advised().stops().upper(),
        "came " + toFailureStops + ", reckoned " + reckoned.advised().stops());
  }

  private static long planned(Fleet fleet) {
    return LifeBuilder.build(fleet).openings().stream()
        .map(OpeningMade::reason)
        .filter(Reason.PLANNED::equals)
        .count();
  }

  private Fleet drawn(String name, double toFailure, int interval, long seed) throws IOException {
    String scenario =
        Files.readString(Path.of("seeds", "depots-plain.json"))
            .replaceFirst(
                "\"run_to_failure_share\": [0-9.]+", "\"run_to_failure_share\": " + toFailure)
            .replaceFirst("\"skip_probability\": [0-9.]+", "\"skip_probability\": 0")
            .replaceFirst(
                "\"planned_interval_hours\": [0-9.]+", "\"planned_interval_hours\": " + interval);
    Path file = folder.resolve(name + ".json");
    Files.writeString(file, scenario);
    Path fleet = folder.resolve(name);
    Sample.write(file, fleet, OptionalLong.of(seed));
    return Ingest.read(fleet).fleet();
  }
}

package org.vaneward.study;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.vaneward.sample.FleetSampler;
import org.vaneward.sample.Scenario;
import org.vaneward.sample.Scenario.PumpGroup;

/** Scenarios with other numbers of pumps and years. */
class ScaledScenarioTest {
  private static final Scenario SIX = Scenario.read(Path.of("seeds/depots-six.json"));

  @ParameterizedTest
  @ValueSource(strings = {"depots-plain", "depots-six", "depots-alike", "small-terminal"})
  void everySizeHasAsManyPumpsAsAskedFor(String name) {
    Scenario scenario = Scenario.read(Path.of("seeds", name + ".json"));
    for (int pumps : List.of(1, 10, 20, 50, 100, 300, 1000)) {
      Scenario scaled = ScaledScenario.of(scenario, pumps, 10);
      assertEquals(pumps, groups(scaled).stream().mapToInt(PumpGroup::pumps).sum());
      assertTrue(groups(scaled).stream().allMatch(group -> group.pumps() > 0));
    }
  }

  @ParameterizedTest
  @CsvSource({"2, 365", "5, 913", "10, 1095", "15, 1095"})
  void recordsSpanTheYears(int years, int commissioningDays) {
    Scenario.Period period = ScaledScenario.of(SIX, 20, years).period();
    LocalDate last = LocalDate.of(2026, 6, 30);
    assertEquals(last, period.asOf());
    assertEquals(last.minusYears(years), period.commissionedFrom());
    assertEquals(period.commissionedFrom().plusDays(commissioningDays), period.commissionedTo());
  }

  @Test
  void ofItsOwnSizeAScenarioKeepsItsPumps() {
    int pumps = groups(SIX).stream().mapToInt(PumpGroup::pumps).sum();
    assertEquals(groups(SIX), groups(ScaledScenario.of(SIX, pumps, 10)));
  }

  /** Whatever is said of a pump or a day that is no more would stop the drawing of the fleet. */
  @Test
  void namesAndDaysThatAreNoMoreAreDropped() {
    Scenario small = ScaledScenario.of(SIX, 10, 2);
    assertEquals(List.of(), small.serviceChanges());
    assertEquals(List.of(), small.retirements());
    Scenario.Practice practice = small.practice().orElseThrow();
    assertTrue(practice.crew().isPresent());
    assertFalse(practice.badLot().isPresent(), "the lot was fitted in 2021");
    assertFalse(practice.worsening().isPresent(), "no FW-P07 among ten pumps");
    assertTrue(small.sites().stream().allMatch(site -> site.recordsFrom().isEmpty()));
    assertFalse(FleetSampler.draw(small).drawnLives().isEmpty());

    Scenario large = ScaledScenario.of(SIX, 300, 10);
    assertEquals("FW-P07", large.practice().flatMap(p -> p.worsening()).orElseThrow().pump());
    assertTrue(large.practice().flatMap(p -> p.badLot()).isPresent());
    assertEquals(2, large.retirements().size());
    assertTrue(large.serviceChanges().size() < SIX.serviceChanges().size());
    double times = 300.0 / groups(SIX).stream().mapToInt(PumpGroup::pumps).sum();
    assertEquals(Math.round(3 * times), large.flaws().orElseThrow().oddProducts());
  }

  @Test
  void windowsAreCutToTheRecords() {
    Scenario.Site upper =
        ScaledScenario.of(SIX, 100, 15).sites().stream()
            .filter(site -> site.prefix().equals("UL"))
            .findFirst()
            .orElseThrow();
    assertEquals(LocalDate.of(2012, 4, 1), upper.commissioned().orElseThrow().from());
    assertEquals(LocalDate.of(2014, 6, 29), upper.commissioned().orElseThrow().to());
    assertEquals(LocalDate.of(2019, 1, 1), upper.recordsFrom().orElseThrow());
  }

  @Test
  void sharesAreRoundedByLargestRemainder() {
    assertArrayEquals(
        new int[] {4, 3, 3}, ScaledScenario.largestRemainder(new int[] {3, 3, 3}, 10));
    assertArrayEquals(new int[] {1, 0, 2}, ScaledScenario.largestRemainder(new int[] {2, 1, 4}, 3));
  }

  @Test
  void aFleetHasAPumpAndAYear() {
    assertThrows(IllegalArgumentException.class, () -> ScaledScenario.of(SIX, 0, 5));
    assertThrows(IllegalArgumentException.class, () -> ScaledScenario.of(SIX, 5, 0));
  }

  private static List<PumpGroup> groups(Scenario scenario) {
    return scenario.sites().stream().flatMap(site -> site.pumps().stream()).toList();
  }
}

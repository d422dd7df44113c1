package org.vaneward.sample;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.vaneward.sample.Samples.cell;
import static org.vaneward.sample.Samples.rows;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.vaneward.fleet.AsFound;
import org.vaneward.fleet.PartAction;
import org.vaneward.fleet.Trigger;

/** What is written keeps the record format, and nothing is lost or made up on the way. */
class SampledRecordsTest {
  private static final Set<String> POSITIONS =
      Set.of("seal-inboard", "seal-outboard", "bearing-inboard", "bearing-outboard", "vane-set");

  @ParameterizedTest
  @ValueSource(strings = {"depots-six.json", "depots-plain.json", "small-terminal.json"})
  void everyFindingBelongsToAnOpeningAndEveryOpeningHasFindings(String scenario) {
    SampledFleet fleet = Samples.draw(Samples.SEEDS.resolve(scenario));
    List<String> numbers =
        rows(fleet, "rebuilds.csv").stream().map(r -> cell(r, "rebuild")).toList();
    Set<String> opened = new HashSet<>(numbers);
    Set<String> found =
        rows(fleet, "findings.csv").stream()
            .map(r -> cell(r, "rebuild"))
            .collect(Collectors.toSet());

    assertEquals(numbers.size(), opened.size());
    assertEquals(opened, found);
  }

  @ParameterizedTest
  @ValueSource(strings = {"depots-plain.json", "small-terminal.json"})
  void wordsDatesAndTagsAreTheContracts(String scenario) {
    SampledFleet fleet = Samples.draw(Samples.SEEDS.resolve(scenario));
    Map<String, LocalDate> commissioned = new HashMap<>();
    for (Map<String, String> pump : rows(fleet, "pumps.csv")) {
      commissioned.put(cell(pump, "pump"), LocalDate.parse(cell(pump, "commissioned")));
      assertTrue(Double.parseDouble(cell(pump, "hours_per_week")) > 0);
    }
    for (Map<String, String> service : rows(fleet, "services.csv")) {
      assertTrue(commissioned.containsKey(cell(service, "pump")));
      assertTrue(Double.parseDouble(cell(service, "pressure_bar")) > 0);
    }
    LocalDate asOf = fleet.fleet().asOf();
    for (Map<String, String> opening : rows(fleet, "rebuilds.csv")) {
      LocalDate day = LocalDate.parse(cell(opening, "date"));
      LocalDate first = commissioned.getOrDefault(cell(opening, "pump"), LocalDate.MAX);
      assertFalse(day.isBefore(first) || day.isAfter(asOf), opening.toString());
      assertTrue(Trigger.of(cell(opening, "trigger")).isPresent(), opening.toString());
      assertTrue(Double.parseDouble(cell(opening, "cost")) > 0);
    }
    Set<String> seen = new HashSet<>();
    for (Map<String, String> finding : rows(fleet, "findings.csv")) {
      assertTrue(POSITIONS.contains(cell(finding, "position")), finding.toString());
      assertTrue(AsFound.of(cell(finding, "as_found")).isPresent(), finding.toString());
      assertTrue(PartAction.of(cell(finding, "action")).isPresent(), finding.toString());
      assertTrue(seen.add(cell(finding, "rebuild") + cell(finding, "position")));
    }
  }

  @Test
  void metersNeverFallInCleanRecords() {
    SampledFleet fleet = Samples.draw(Samples.PLAIN);
    Map<String, List<Map<String, String>>> byPump = new HashMap<>();
    List<Map<String, String>> all = new ArrayList<>(rows(fleet, "rebuilds.csv"));
    all.addAll(rows(fleet, "readings.csv"));
    for (Map<String, String> row : all) {
      byPump.computeIfAbsent(cell(row, "pump"), p -> new ArrayList<>()).add(row);
    }
    assertEquals(fleet.table("pumps.csv").rows().size(), byPump.size());
    for (List<Map<String, String>> rows : byPump.values()) {
      // Openings come before the reading of the same day: readings are taken in the evening.
      rows.sort(Comparator.comparing(r -> cell(r, "date")));
      double before = 0;
      for (Map<String, String> row : rows) {
        double hours = Double.parseDouble(cell(row, "hours"));
        assertTrue(hours >= before, row.toString());
        before = hours;
      }
    }
  }

  @Test
  void anOpeningSaysOnceWhyThePumpStopped() {
    SampledFleet fleet = Samples.draw(Samples.PLAIN);
    Map<String, List<Map<String, String>>> findings = new HashMap<>();
    for (Map<String, String> row : rows(fleet, "findings.csv")) {
      findings.computeIfAbsent(cell(row, "rebuild"), r -> new ArrayList<>()).add(row);
    }
    for (Map<String, String> opening : rows(fleet, "rebuilds.csv")) {
      List<Map<String, String>> found = findings.getOrDefault(cell(opening, "rebuild"), List.of());
      Trigger trigger = Trigger.of(cell(opening, "trigger")).orElseThrow();
      long primaries = found.stream().filter(f -> cell(f, "primary").equals("yes")).count();
      List<String> failedAnnouncing =
          found.stream()
              .filter(f -> cell(f, "as_found").equals("failed"))
              .map(f -> cell(f, "position"))
              .filter(p -> !p.equals("vane-set"))
              .toList();
      boolean startUp = !cell(opening, "note").isEmpty();
      switch (trigger) {
        case PLANNED, INSPECTION -> {
          assertEquals(0, primaries);
          assertEquals(List.of(), failedAnnouncing);
        }
        case LOW_FLOW -> {
          assertEquals(1, primaries);
          assertEquals(List.of(), failedAnnouncing);
        }
        default -> assertTrue(startUp || (primaries <= 1 && failedAnnouncing.size() == 1));
      }
    }
  }

  @Test
  void wearIsOverTheLimitExactlyWhereTheVanesHaveFailed() {
    SampledFleet fleet = Samples.draw(Samples.PLAIN);
    int over = 0;
    int under = 0;
    for (Map<String, String> finding : rows(fleet, "findings.csv")) {
      if (cell(finding, "position").equals("vane-set")) {
        double wear = Double.parseDouble(cell(finding, "measured_mm"));
        String state = cell(finding, "as_found");
        String action = cell(finding, "action");
        assertFalse(state.equals("failed") && wear < 1.5, finding.toString());
        assertFalse(state.equals("good") && wear >= 0.75, finding.toString());
        assertFalse(action.equals("reused") && wear >= 1.5, finding.toString());
        over += wear >= 1.5 ? 1 : 0;
        under += wear >= 1.5 ? 0 : 1;
      }
    }
    assertTrue(over >= 30 && under >= 100, over + " over, " + under + " under");
  }

  @Test
  void lateRecordsKeepOnlyTheLastSheetFromBefore() {
    SampledFleet fleet = Samples.draw(Samples.SIX);
    Map<String, Long> before =
        rows(fleet, "rebuilds.csv").stream()
            .filter(r -> cell(r, "pump").startsWith("UL-"))
            .filter(r -> cell(r, "date").compareTo("2019-01-01") < 0)
            .collect(Collectors.groupingBy(r -> cell(r, "pump"), Collectors.counting()));
    assertTrue(before.size() >= 3 && before.size() < 13, before.toString());
    assertTrue(before.values().stream().allMatch(n -> n == 1), before.toString());
    assertTrue(
        rows(fleet, "readings.csv").stream()
            .filter(r -> cell(r, "pump").startsWith("UL-"))
            .allMatch(r -> cell(r, "date").compareTo("2019-01-01") >= 0));
  }

  @Test
  void theSixDepotsHaveTheSizeTheyAreMeantToHave() {
    SampledFleet fleet = Samples.draw(Samples.SIX);
    int openings = fleet.table("rebuilds.csv").rows().size();
    int findings = fleet.table("findings.csv").rows().size();
    assertEquals(91, fleet.table("pumps.csv").rows().size());
    assertTrue(openings >= 600 && openings <= 900, "openings: " + openings);
    long repaired = count(fleet, Truth.Expected.REPAIRED);
    long setAside = count(fleet, Truth.Expected.SET_ASIDE);
    assertTrue(repaired >= 0.015 * (openings + findings), "repaired: " + repaired);
    assertTrue(repaired <= 0.05 * (openings + findings), "repaired: " + repaired);
    assertTrue(setAside >= 12 && setAside <= 24, "set aside: " + setAside);
  }

  private static long count(SampledFleet fleet, Truth.Expected expected) {
    return fleet.truth().flaws().stream().filter(f -> f.expected() == expected).count();
  }

  @Test
  void plainScenariosPlantNothing() {
    for (Path scenario : List.of(Samples.PLAIN, Samples.SMALL)) {
      Truth truth = Samples.draw(scenario).truth();
      assertEquals(List.of(), truth.flaws());
      assertEquals(List.of(), truth.causes());
    }
  }
}

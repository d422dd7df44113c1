package org.vaneward.sample;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.vaneward.sample.Samples.cell;
import static org.vaneward.sample.Samples.rows;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.vaneward.sample.Truth.Expected;
import org.vaneward.sample.Truth.FlawKind;
import org.vaneward.sample.Truth.PlantedFlaw;

/** Every flaw the truth lists stands where it says, and is what it says. */
class PlantedFlawsTest {
  private static final SampledFleet FLEET = Samples.draw(Samples.SIX);
  private static final SampledFleet CLEAN =
      FleetSampler.draw(withoutFlaws(Scenario.read(Samples.SIX)));

  private static Scenario withoutFlaws(Scenario s) {
    return new Scenario(
        s.name(),
        s.story(),
        s.seed(),
        s.currency(),
        s.period(),
        s.sites(),
        s.models(),
        s.products(),
        s.duties(),
        s.components(),
        s.overrides(),
        s.serviceChanges(),
        s.retirements(),
        s.shop(),
        s.practice(),
        Optional.empty(),
        s.economics());
  }

  private static List<PlantedFlaw> flaws(FlawKind kind) {
    List<PlantedFlaw> flaws = FLEET.truth().flaws().stream().filter(f -> f.kind() == kind).toList();
    assertFalse(flaws.isEmpty(), kind.toString());
    return flaws;
  }

  private static Map<String, String> row(PlantedFlaw flaw) {
    return row(flaw, 0);
  }

  private static Map<String, String> row(PlantedFlaw flaw, int offset) {
    return rows(FLEET, flaw.file()).get(Math.toIntExact(flaw.line().orElseThrow() - 2) + offset);
  }

  private static Set<String> values(SampledFleet fleet, String file, String column) {
    return rows(fleet, file).stream().map(r -> cell(r, column)).collect(Collectors.toSet());
  }

  @Test
  void everyKindIsPlantedAndStandsAtItsLine() {
    Set<FlawKind> kinds =
        FLEET.truth().flaws().stream().map(PlantedFlaw::kind).collect(Collectors.toSet());
    assertEquals(EnumSet.allOf(FlawKind.class), kinds);
    for (PlantedFlaw flaw : FLEET.truth().flaws()) {
      long line = flaw.line().orElseThrow();
      assertEquals(flaw.written(), FLEET.table(flaw.file()).cell(line, flaw.column()));
    }
  }

  @Test
  void noRowIsPlantedTwice() {
    List<String> places =
        FLEET.truth().flaws().stream().map(f -> f.file() + ":" + f.line().orElseThrow()).toList();
    assertEquals(places.size(), Set.copyOf(places).size());
  }

  @Test
  void oddSpellingsDifferInCaseSpaceOrUnderscoreOnly() {
    for (PlantedFlaw flaw : flaws(FlawKind.ODD_SPELLING)) {
      Set<String> words = values(CLEAN, flaw.file(), flaw.column());
      assertFalse(words.contains(flaw.written()), flaw.toString());
      Set<String> plainWords =
          words.stream().map(PlantedFlawsTest::plain).collect(Collectors.toSet());
      assertTrue(plainWords.contains(plain(flaw.written())), flaw.toString());
    }
  }

  private static String plain(String word) {
    return word.strip().toLowerCase(Locale.ROOT).replace(' ', '-').replace('_', '-');
  }

  @Test
  void unknownWordsPumpsAndPositionsAreUnknown() {
    Set<String> pumps = values(FLEET, "pumps.csv", "pump");
    flaws(FlawKind.UNKNOWN_PUMP).stream()
        .filter(f -> f.column().equals("pump"))
        .forEach(f -> assertFalse(pumps.contains(f.written()), f.toString()));
    Set<String> positions = values(CLEAN, "findings.csv", "position");
    flaws(FlawKind.UNKNOWN_POSITION)
        .forEach(f -> assertFalse(positions.contains(plain(f.written())), f.toString()));
    Set<String> words = values(CLEAN, "findings.csv", "as_found");
    flaws(FlawKind.UNKNOWN_WORD)
        .forEach(f -> assertFalse(words.contains(plain(f.written())), f.toString()));
  }

  @Test
  void datesThatCannotBeReadCannotBeRead() {
    for (PlantedFlaw flaw : flaws(FlawKind.UNREADABLE_DATE)) {
      if (flaw.column().equals("date")) {
        assertThrows(DateTimeException.class, () -> LocalDate.parse(flaw.written()));
      }
    }
  }

  @Test
  void fallingReadingsFallBelowTheOneBefore() {
    for (PlantedFlaw flaw : flaws(FlawKind.FALLING_READING)) {
      assertEquals(cell(row(flaw), "pump"), cell(row(flaw, -1), "pump"));
      assertTrue(
          Double.parseDouble(flaw.written()) < Double.parseDouble(cell(row(flaw, -1), "hours")));
      assertEquals(Expected.SET_ASIDE, flaw.expected());
    }
  }

  @Test
  void duplicatesRepeatTheSheetBefore() {
    for (PlantedFlaw flaw : flaws(FlawKind.DUPLICATE_SHEET)) {
      Map<String, String> copy = row(flaw);
      Map<String, String> original = row(flaw, -1);
      assertEquals(cell(original, "rebuild") + "-2", cell(copy, "rebuild"));
      copy.remove("rebuild");
      original.remove("rebuild");
      assertEquals(original, copy);
      assertEquals(findings(flaw.key().replace("-2", "")), findings(flaw.key()));
    }
  }

  private static List<Map<String, String>> findings(String rebuild) {
    return rows(FLEET, "findings.csv").stream()
        .filter(f -> cell(f, "rebuild").equals(rebuild))
        .peek(f -> f.remove("rebuild"))
        .toList();
  }

  @Test
  void whatIsMissingIsMissing() {
    flaws(FlawKind.MISSING_HOURS).forEach(f -> assertEquals("", f.written()));
    for (PlantedFlaw flaw : flaws(FlawKind.MISSING_FINDING)) {
      assertFalse(flaw.written().isEmpty(), "a kit was fitted");
      assertTrue(
          rows(FLEET, "findings.csv").stream()
              .noneMatch(f -> flaw.key().equals(cell(f, "rebuild") + "/" + cell(f, "position"))));
    }
  }

  @Test
  void contradictionsContradict() {
    Map<String, String> triggers =
        rows(FLEET, "rebuilds.csv").stream()
            .collect(Collectors.toMap(r -> cell(r, "rebuild"), r -> cell(r, "trigger")));
    for (PlantedFlaw flaw : flaws(FlawKind.PRIMARY_ON_PLANNED)) {
      assertEquals("yes", flaw.written());
      assertEquals("planned", plain(triggers.getOrDefault(cell(row(flaw), "rebuild"), "")));
    }
    for (PlantedFlaw flaw : flaws(FlawKind.IMPOSSIBLE_CLEARANCE)) {
      assertFalse(Double.parseDouble(flaw.written()) > 0);
    }
    Map<String, String> commissioned =
        rows(FLEET, "pumps.csv").stream()
            .collect(Collectors.toMap(r -> cell(r, "pump"), r -> cell(r, "commissioned")));
    for (PlantedFlaw flaw : flaws(FlawKind.BEFORE_COMMISSIONING)) {
      if (flaw.file().equals("rebuilds.csv")) {
        String first = commissioned.getOrDefault(cell(row(flaw), "pump"), "");
        assertTrue(flaw.written().compareTo(first) < 0);
      }
    }
  }

  @Test
  void aNewMeterStartsAtZero() {
    for (PlantedFlaw flaw : flaws(FlawKind.METER_REPLACED)) {
      assertEquals("0", cell(row(flaw), "hours"));
      double old = Double.parseDouble(cell(row(flaw), "old_hours"));
      assertTrue(old >= Double.parseDouble(cell(row(flaw, -1), "hours")));
      assertTrue(Double.parseDouble(cell(row(flaw, 1), "hours")) < old);
    }
  }

  @Test
  void flawsChangeNothingElse() {
    Set<String> flawed =
        FLEET.truth().flaws().stream()
            .filter(f -> f.file().equals("readings.csv"))
            .map(f -> f.file() + f.line().orElseThrow())
            .collect(Collectors.toSet());
    Set<String> newMeters =
        flaws(FlawKind.METER_REPLACED).stream()
            .map(f -> cell(row(f), "pump"))
            .collect(Collectors.toSet());
    List<Map<String, String>> clean = rows(CLEAN, "readings.csv");
    List<Map<String, String>> written = rows(FLEET, "readings.csv");
    assertEquals(clean.size(), written.size());
    for (int i = 0; i < clean.size(); i++) {
      boolean same = clean.get(i).equals(written.get(i));
      boolean meant =
          flawed.contains("readings.csv" + (i + 2))
              || newMeters.contains(cell(clean.get(i), "pump"));
      assertTrue(same || meant, "line " + (i + 2));
    }
  }
}

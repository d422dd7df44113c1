package org.vaneward.sample;

import static org.vaneward.sample.Records.FINDINGS;
import static org.vaneward.sample.Records.READINGS;
import static org.vaneward.sample.Records.REBUILDS;
import static org.vaneward.sample.Records.SERVICES;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalLong;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.vaneward.fleet.PartAction;
import org.vaneward.fleet.Trigger;
import org.vaneward.sample.Truth.Expected;
import org.vaneward.sample.Truth.FlawKind;

/**
 * Plants record-keeping flaws and remembers each. Flaws that lose a row are planted on rows whose
 * loss changes no life (a second sheet, a part that a kit implies was renewed, a reading among
 * many), so that the fleet behind the records stays the one the scenario describes.
 */
final class FlawPlanter {
  private final Scenario scenario;
  private final Scenario.Flaws flaws;
  private final Records records;
  private final Draws draws;
  private final List<Pending> planted = new ArrayList<>();
  private int strays;

  FlawPlanter(Scenario scenario, Scenario.Flaws flaws, Records records, Draws draws) {
    this.scenario = scenario;
    this.flaws = flaws;
    this.records = records;
    this.draws = draws;
  }

  /** A flaw whose line is known once every row has its place. */
  private record Pending(
      FlawKind kind, String file, Row row, String column, String key, Expected expected) {}

  List<Truth.PlantedFlaw> plant() {
    replaceMeters();
    duplicateSheets();
    unreadableDates();
    strayOpenings(FlawKind.UNKNOWN_PUMP, flaws.unknownPumps());
    strayOpenings(FlawKind.BEFORE_COMMISSIONING, flaws.openingsBeforeCommissioning());
    spoilReadings();
    spoilFindings();
    primaryOnPlanned();
    impossibleClearances();
    missingHours();
    missingFindings();
    oddSpellings();
    return planted.stream().map(this::located).toList();
  }

  private Truth.PlantedFlaw located(Pending flaw) {
    int index = indexOf(records.rows(flaw.file()), flaw.row());
    return new Truth.PlantedFlaw(
        flaw.kind(),
        flaw.file(),
        OptionalLong.of(index + 2L),
        flaw.column(),
        flaw.key(),
        flaw.row().get(flaw.column()),
        flaw.expected());
  }

  private static int indexOf(List<Row> rows, Row wanted) {
    for (int i = 0; i < rows.size(); i++) {
      if (rows.get(i) == wanted) {
        return i;
      }
    }
    throw new IllegalStateException("a planted row has left its table");
  }

  private void note(FlawKind kind, String file, Row row, String column, Expected expected) {
    row.markFlawed();
    String key =
        switch (file) {
          case REBUILDS -> row.get("rebuild");
          case FINDINGS -> row.get("rebuild") + "/" + row.get("position");
          case SERVICES -> row.get("pump") + "/" + row.get("from");
          default -> row.get("pump") + "/" + row.get("date");
        };
    planted.add(new Pending(kind, file, row, column, key, expected));
  }

  /** A row of {@code file} that fits and has no flaw yet; fewer when no more fit. */
  private List<Row> choose(String file, int count, Predicate<Row> fits) {
    List<Row> candidates =
        records.rows(file).stream()
            .filter(row -> !row.isFlawed())
            .filter(fits)
            .collect(Collectors.toCollection(ArrayList::new));
    List<Row> chosen = new ArrayList<>();
    while (chosen.size() < count && !candidates.isEmpty()) {
      chosen.add(candidates.remove(draws.below(candidates.size())));
    }
    return chosen;
  }

  // ---- meters and readings

  private void replaceMeters() {
    List<String> done = new ArrayList<>();
    for (int i = 0; i < flaws.metersReplaced(); i++) {
      choose(READINGS, 1, row -> isMidLife(row) && !done.contains(row.pump()))
          .forEach(
              row -> {
                done.add(row.pump());
                replaceMeter(row);
              });
    }
  }

  private boolean isMidLife(Row reading) {
    boolean openedThatDay =
        records.rebuilds.stream()
            .anyMatch(r -> r.pump().equals(reading.pump()) && r.day().equals(reading.day()));
    return !openedThatDay && !hasLateRecords(reading) && reading.hours() > 3000;
  }

  private void replaceMeter(Row reading) {
    double old = reading.hours();
    for (String file : List.of(READINGS, REBUILDS)) {
      for (Row row : records.rows(file)) {
        if (row.pump().equals(reading.pump()) && row.day().isAfter(reading.day())) {
          row.set("hours", Records.meter(row.hours() - old));
        }
      }
    }
    reading.set("event", "meter-replaced").set("old_hours", Records.meter(old)).set("hours", "0");
    note(FlawKind.METER_REPLACED, READINGS, reading, "event", Expected.USED);
  }

  private void spoilReadings() {
    for (Row row : choose(READINGS, flaws.fallingReadings(), this::standsHigh)) {
      String shown = row.get("hours");
      row.set("hours", shown.substring(0, shown.length() - 1));
      note(FlawKind.FALLING_READING, READINGS, row, "hours", Expected.SET_ASIDE);
    }
    for (Row row : choose(READINGS, flaws.unknownPumps(), this::standsHigh)) {
      row.set("pump", row.pump() + "x");
      note(FlawKind.UNKNOWN_PUMP, READINGS, row, "pump", Expected.SET_ASIDE);
    }
    for (Row row : choose(READINGS, flaws.unreadableDates(), this::standsHigh)) {
      row.set("date", row.day().getYear() + "-02-30");
      note(FlawKind.UNREADABLE_DATE, READINGS, row, "date", Expected.SET_ASIDE);
    }
  }

  /** High enough that a lost digit shows, in the middle of a run of plain readings. */
  private boolean standsHigh(Row row) {
    int at = indexOf(records.readings, row);
    if (at < 2 || at + 2 >= records.readings.size() || row.get("hours").length() < 4) {
      return false;
    }
    return records.readings.subList(at - 2, at + 3).stream()
        .allMatch(near -> near.pump().equals(row.pump()) && !near.isFlawed());
  }

  // ---- whole sheets

  private void duplicateSheets() {
    for (Row original : choose(REBUILDS, flaws.duplicateSheets(), this::isPlainSheet)) {
      Row copy = secondSheet(original, original.get("rebuild") + "-2");
      original.markFlawed();
      note(FlawKind.DUPLICATE_SHEET, REBUILDS, copy, "rebuild", Expected.REPAIRED);
    }
  }

  private void unreadableDates() {
    for (Row original : choose(REBUILDS, flaws.unreadableDates(), this::isShortSheet)) {
      Row copy = secondSheet(original, original.get("rebuild") + "-2");
      original.markFlawed();
      copy.set("date", original.day().getYear() + "-13-04");
      noteSheet(FlawKind.UNREADABLE_DATE, copy, "date");
    }
  }

  /** Sheets of no pump of this fleet, or of a time before the pump's. */
  private void strayOpenings(FlawKind kind, int count) {
    for (Row model : choose(REBUILDS, count, this::isShortSheet)) {
      strays++;
      Row stray = secondSheet(model, String.format(Locale.ROOT, "S%03d", strays));
      stray.set("hours", "").set("cost", "");
      if (kind == FlawKind.UNKNOWN_PUMP) {
        stray.set("pump", model.pump() + "x");
        noteSheet(kind, stray, "pump");
      } else {
        LocalDate early = commissioned(model).minusDays(200 + draws.below(700));
        stray.set("date", early.toString());
        noteSheet(kind, stray, "date");
      }
    }
  }

  private Row secondSheet(Row original, String rebuild) {
    Row copy = original.copy().set("rebuild", rebuild);
    records.rebuilds.add(indexOf(records.rebuilds, original) + 1, copy);
    List<Row> copies = new ArrayList<>();
    int last = 0;
    for (int i = 0; i < records.findings.size(); i++) {
      Row finding = records.findings.get(i);
      if (finding.get("rebuild").equals(original.get("rebuild"))) {
        finding.markFlawed();
        copies.add(finding.copy().set("rebuild", rebuild));
        last = i + 1;
      }
    }
    records.findings.addAll(last, copies);
    return copy;
  }

  private void noteSheet(FlawKind kind, Row sheet, String column) {
    note(kind, REBUILDS, sheet, column, Expected.SET_ASIDE);
    for (Row finding : records.findings) {
      if (finding.get("rebuild").equals(sheet.get("rebuild"))) {
        note(kind, FINDINGS, finding, "rebuild", Expected.SET_ASIDE);
      }
    }
  }

  private boolean isPlainSheet(Row row) {
    return !hasLateRecords(row) && !isByStartUpTest(row);
  }

  private boolean isShortSheet(Row row) {
    return isPlainSheet(row) && row.opening().orElseThrow().findings().size() <= 2;
  }

  private boolean isByStartUpTest(Row row) {
    return records.rebuilds.stream()
        .filter(other -> other.pump().equals(row.pump()) && other.hours() == row.hours())
        .anyMatch(other -> other.opening().orElseThrow().startUp());
  }

  private boolean hasLateRecords(Row row) {
    return !records.pumps.stream()
        .filter(pump -> pump.pump().equals(row.pump()))
        .allMatch(pump -> pump.get("records_from").isEmpty());
  }

  private LocalDate commissioned(Row row) {
    return records.pumps.stream()
        .filter(pump -> pump.pump().equals(row.pump()))
        .map(Row::day)
        .findFirst()
        .orElseThrow();
  }

  // ---- cells

  private void spoilFindings() {
    for (Row row : choose(FINDINGS, flaws.unknownPositions(), this::isImpliedByKit)) {
      row.set("position", row.get("position").replace("board", "bord"));
      note(FlawKind.UNKNOWN_POSITION, FINDINGS, row, "position", Expected.SET_ASIDE);
    }
    for (Row row : choose(FINDINGS, flaws.unknownWords(), this::isImpliedByKit)) {
      row.set("as_found", "fine");
      note(FlawKind.UNKNOWN_WORD, FINDINGS, row, "as_found", Expected.SET_ASIDE);
    }
  }

  private boolean isImpliedByKit(Row finding) {
    PumpRun.Found found = finding.found().orElseThrow();
    boolean announces =
        scenario.components().stream()
            .anyMatch(c -> c.announces() && c.positions().contains(found.position()));
    return announces
        && !found.hasFailed()
        && found.action() == PartAction.RENEWED
        && finding.opening().orElseThrow().kit().isPresent()
        && !hasLateRecords(finding);
  }

  private void primaryOnPlanned() {
    Predicate<Row> plannedFailure =
        row ->
            row.opening().orElseThrow().trigger() == Trigger.PLANNED
                && row.found().orElseThrow().hasFailed();
    for (Row row : choose(FINDINGS, flaws.primaryOnPlanned(), plannedFailure)) {
      row.set("primary", "yes");
      note(FlawKind.PRIMARY_ON_PLANNED, FINDINGS, row, "primary", Expected.REPAIRED);
    }
  }

  private void impossibleClearances() {
    int planned = flaws.badClearances();
    for (Row row : choose(REBUILDS, planned, r -> !r.get("end_clearance_mm").isEmpty())) {
      boolean negative = draws.chance(0.5);
      row.set("end_clearance_mm", negative ? "-" + row.get("end_clearance_mm") : "NaN");
      note(FlawKind.IMPOSSIBLE_CLEARANCE, REBUILDS, row, "end_clearance_mm", Expected.REPAIRED);
    }
  }

  private void missingHours() {
    for (Row row : records.rebuilds) {
      if (!row.isFlawed() && isPlainSheet(row) && draws.chance(flaws.missingHoursRate())) {
        row.set("hours", "");
        note(FlawKind.MISSING_HOURS, REBUILDS, row, "hours", Expected.REPAIRED);
      }
    }
  }

  private void missingFindings() {
    for (Row sheet : records.rebuilds) {
      boolean fits = !sheet.isFlawed() && !sheet.get("kit").isEmpty();
      if (fits && draws.chance(flaws.missingFindingRate())) {
        Predicate<Row> ofSheet =
            row -> row.get("rebuild").equals(sheet.get("rebuild")) && isImpliedByKit(row);
        for (Row row : choose(FINDINGS, 1, ofSheet)) {
          records.findings.remove(indexOf(records.findings, row));
          sheet.markFlawed();
          String key = row.get("rebuild") + "/" + row.get("position");
          planted.add(
              new Pending(
                  FlawKind.MISSING_FINDING, REBUILDS, sheet, "kit", key, Expected.REPAIRED));
        }
      }
    }
  }

  private void oddSpellings() {
    for (Row row : choose(SERVICES, flaws.oddProducts(), row -> true)) {
      misspell(SERVICES, row, "product");
    }
    Map<String, List<String>> columns =
        Map.of(REBUILDS, List.of("trigger"), FINDINGS, List.of("position", "as_found", "action"));
    for (String file : List.of(REBUILDS, FINDINGS)) {
      for (Row row : records.rows(file)) {
        if (!row.isFlawed() && draws.chance(flaws.oddSpellingRate())) {
          misspell(file, row, draws.pick(columns.getOrDefault(file, List.of())));
        }
      }
    }
  }

  /** Case, spaces and underscores: what a reader may put right without guessing. */
  private void misspell(String file, Row row, String column) {
    String word = row.get(column);
    String capital = word.substring(0, 1).toUpperCase(Locale.ROOT) + word.substring(1);
    List<String> ways =
        Stream.of(
                capital,
                word.toUpperCase(Locale.ROOT),
                word.toLowerCase(Locale.ROOT),
                word + " ",
                word.replace('-', ' '),
                word.replace('-', '_'))
            .filter(way -> !way.equals(word))
            .distinct()
            .toList();
    note(FlawKind.ODD_SPELLING, file, row, column, Expected.REPAIRED);
    row.set(column, draws.pick(ways));
  }
}

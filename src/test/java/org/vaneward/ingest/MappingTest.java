package org.vaneward.ingest;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.vaneward.fleet.Opening;
import org.vaneward.fleet.RowFate;
import org.vaneward.fleet.RowNote;
import org.vaneward.fleet.Trigger;

/** What {@code mapping} says and what it is refused for; whole fleets are read elsewhere. */
class MappingTest {
  @TempDir Path folder;

  private FleetFolder fleet() {
    return new FleetFolder(folder);
  }

  private FleetFolder mapped(String mapping) {
    return fleet().change("fleet.json", "\"mapping\": {}", "\"mapping\": " + mapping);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '`',
      value = {
        "{'tables': {'pumpz': {}}}|mapping.tables: 'pumpz' is no table; tables are pumps",
        "{'tables': {'pumps': {'columns': {'pmp': 'x'}}}}|mapping.tables.pumps.columns: 'pmp' is no column of pumps; nearest is 'pump'",
        "{'tables': {'pumps': {'columns': {'pump': ' '}}}}|mapping.tables.pumps.columns.pump: blank",
        "{'tables': {'pumps': {'columns': {'pump': 'Anlage'}}}}|pumps.csv, line 1: no column 'Anlage'; the header has: pump",
        "{'tables': {'pumps': {'columns': {'model': 'Typ'}}}}|pumps.csv: no column 'Typ', which mapping in fleet.json gives for 'model'",
        "{'tables': {'findings': {'joined': {'position': ['Part', 'Side']}}}}|findings.csv, line 1: no column 'Part'",
        "{'tables': {'findings': {'joined': {'position': ['Part']}}}}|mapping.tables.findings.joined.position: two headers or more belong here",
        "{'tables': {'findings': {'joined': {'position': ['Part', null]}}}}|mapping.tables.findings.joined.position: two headers or more belong here",
        "{'tables': {'findings': {'joined': {'position': ['Part', ' ']}}}}|mapping.tables.findings.joined.position: blank; name the column's header",
        "{'tables': {'findings': {'joined': {'place': ['Part', 'Side']}}}}|mapping.tables.findings.joined: 'place' is no column of findings",
        "{'tables': {'findings': {'columns': {'lot': 'x'}, 'joined': {'lot': ['x', 'y']}}}}|mapping.tables.findings.joined.lot: stands under columns too",
        "{'tables': {'rebuilds': {'joined': {'findings': ['x', 'y']}}}}|mapping.tables.rebuilds.joined.findings: a list is no text that could be joined",
        "{'tables': {'rebuilds': {'joined': {'crew': ['crew', 'kit']}, 'always': {'crew': 'A'}}}}|rebuilds.csv: has a column 'crew + kit', and mapping in fleet.json says always for it",
        "{'tables': {'pumps': {'file': '../pumps.csv'}}}|mapping.tables.pumps.file: '../pumps.csv' is not the name of a file in the fleet's folder",
        "{'tables': {'pumps': {'file': '..'}}}|is not the name of a file in the fleet's folder",
        "{'tables': {'pumps': {'file': '/etc/passwd'}}}|is not the name of a file in the fleet's folder",
        "{'tables': {'pumps': {'file': 'C:pumps.csv'}}}|is not the name of a file in the fleet's folder",
        "{'tables': {'pumps': {'file': 'pump.csv'}}}|no file 'pump.csv', which mapping in fleet.json names for pumps; nearest is 'pumps.csv'",
        "{'tables': {'pumps': {'header_line': 0}}}|mapping.tables.pumps.header_line: the first line is 1",
        "{'tables': {'rebuilds': {'words': {'trigger': {'Leck': 'leek'}}}}}|mapping.tables.rebuilds.words.trigger.Leck: 'leek' is none of planned, leak",
        "{'tables': {'findings': {'words': {'position': {'innen': 'seal-inbord'}}}}}|'seal-inbord' is none of bearing-inboard",
        "{'tables': {'rebuilds': {'units': {'hours': 'psi'}}}}|mapping.tables.rebuilds.units.hours: 'psi' is none of hours, days",
        "{'tables': {'rebuilds': {'units': {'crew': 'hours'}}}}|mapping.tables.rebuilds.units.crew: the column has no unit",
        "{'tables': {'rebuilds': {'always': {'trigger': 'leck'}}}}|mapping.tables.rebuilds.always.trigger: 'leck' is none of",
        "{'tables': {'services': {'always': {'duty': 'loading'}}}}|services.csv: has a column 'duty', and mapping in fleet.json says always for it",
        "{'tables': {'rebuilds': {'positions': {'seal-inbord': {'as_found': 'x'}}}}}|mapping.tables.rebuilds.positions: 'seal-inbord' is no position of fleet.json; nearest is 'seal-inboard'",
        "{'tables': {'pumps': {'positions': {'seal-inboard': {'as_found': 'x'}}}}}|only rebuilds can hold what was found",
        "{'tables': {'rebuilds': {'positions': {'seal-inboard': {'as_found': 'x'}}}}}|rebuilds.csv: no column 'x', which mapping in fleet.json gives for 'as_found'",
        "{'unsettled': {'pumps.dates': 'day or month first?'}}|mapping.unsettled: 1 point waits for your word; settle each in the mapping and take it off this list. The first: pumps.dates: day or month first?",
        "{'unsettled': {'a': 'b', 'c': 'd'}}|mapping.unsettled: 2 points wait for your word",
        "{'tables': {'rebuilds': {'also': [{}]}}}|mapping.tables.rebuilds.also: names neither file nor sheet",
        "{'tables': {'rebuilds': {'also': [{'file': '../more.csv'}]}}}|'../more.csv' is not the name of a file in the fleet's folder",
        "{'tables': {'rebuilds': {'also': [{'file': 'more.csv'}]}}}|no file 'more.csv', which mapping in fleet.json names for rebuilds",
        "{'tables': {'rebuilds': {'also': [{'file': 'rebuilds.csv'}]}}}|mapping.tables.rebuilds.also: rebuilds.csv stands twice; its rows would count twice",
        "{'encoding': 'klingon'}|mapping.encoding: 'klingon' is no encoding known here",
        "{'tables': {'pumps': {'encoding': 'klingon'}}}|mapping.tables.pumps.encoding: 'klingon'",
        "{'separator': ';;'}|mapping.separator: ';;' separates no cells",
        "{'decimal': ';'}|mapping.decimal: ';' is none of these: . ,",
        "{'decimal': ',', 'thousands': ','}|mapping.thousands: the same as decimal",
        "{'dates': ['foo']}|mapping.dates: 'foo' does not tell a day",
        "{'dates': ['dd.MM']}|mapping.dates: 'dd.MM' does not tell a day",
        "{'language': 'no such!'}|mapping.language: 'no such!' is no language tag",
        "{'colour': 'red'}|mapping.colour: unknown key",
        "{'tables': {'pumps': {'columns': {'pump': null}}}}|mapping.tables.pumps: holds null; leave it out",
      })
  void whatCannotBeIsRefusedInOneLine(String mapping, String expected) {
    String message = mapped(mapping.replace('\'', '"')).refusal();
    assertTrue(message.contains(expected), message);
  }

  @Test
  void aTableInTwoFormsIsRefused() {
    String message =
        fleet().with("pumps.jsonl", "{\"pump\": \"P1\", \"site\": \"North\"}").refusal();
    assertTrue(
        message.contains(
            "pumps stand in pumps.csv and in pumps.jsonl; keep one of them, or name it under mapping"
                + " in fleet.json"),
        message);
  }

  @Test
  void aDayThatTwoPatternsReadDifferentlyIsNotGuessed() {
    Ingested read =
        mapped("{\"tables\": {\"rebuilds\": {\"dates\": [\"dd/MM/yyyy\", \"MM/dd/yyyy\"]}}}")
            .change("rebuilds.csv", "2021-06-01", "01/06/2021")
            .change("rebuilds.csv", "2023-06-01", "13/06/2023")
            .change("rebuilds.csv", "2022-05-05", "05/05/2022")
            .read();
    assertEquals(
        List.of("R2", "R3"),
        read.fleet().pumps().stream()
            .flatMap(p -> p.openings().stream())
            .map(Opening::rebuild)
            .toList());
    assertTrue(
        read.notes().toString().contains("date '01/06/2021': is 2021-06-01 or 2021-01-06"),
        read.notes().toString());
  }

  @Test
  void yearsOfTwoDigitsLieInTheHundredYearsOfTheRecords() {
    DateForm days = DateForm.of(List.of("dd.MM.yy"), Locale.ROOT, LocalDate.of(2026, 6, 30));
    assertEquals(List.of(LocalDate.of(1998, 3, 31)), List.copyOf(days.days("31.03.98")));
    assertEquals(List.of(LocalDate.of(2026, 3, 31)), List.copyOf(days.days("31.03.26")));
    assertEquals(List.of(), List.copyOf(days.days("31.02.20")));
    assertEquals(List.of(), List.copyOf(days.days("31.03.2020")));
  }

  @Test
  void monthsHaveTheNamesOfTheLanguage() {
    DateForm days = DateForm.of(List.of("d. MMMM yyyy"), Locale.GERMAN, LocalDate.of(2026, 6, 30));
    assertEquals(List.of(LocalDate.of(2024, 3, 5)), List.copyOf(days.days("5. März 2024")));
  }

  @Test
  void aTimeOfDayDoesNotCount() {
    DateForm days =
        DateForm.of(List.of("dd/MM/yyyy HH:mm"), Locale.ROOT, LocalDate.of(2026, 6, 30));
    assertEquals(List.of(LocalDate.of(2024, 3, 31)), List.copyOf(days.days("31/03/2024 23:59")));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "1.234,5|1234.5",
        "1234,5|1234.5",
        "-12.345.678|-12345678",
        "1,5e3|1.5e3",
        "1 234,5|",
        "12.34,5|",
        "1.234.5|",
        "1,234,5|",
        "1.23|",
      })
  void aCommaBeforeDecimals(String text, @Nullable String plain) {
    assertEquals(Optional.ofNullable(plain), new NumberForm(',', Optional.of('.')).plain(text));
  }

  @Test
  void aUnitInTheCellIsTakenAtItsWord() {
    Ingested read =
        fleet()
            .change("rebuilds.csv", ",0.12,", ",12 thou,")
            .change("rebuilds.csv", ",K1,12,", ",K1,3 days,")
            .read();
    Opening opening = read.fleet().pumps().get(0).openings().get(0);
    assertEquals(0.3048, opening.endClearanceMm().orElseThrow());
    assertEquals(72, opening.downtimeHours().orElseThrow());
    assertEquals(
        List.of(
            "downtime_hours '3 days': taken as 72 hours",
            "end_clearance_mm '12 thou': taken as 0.3048 mm"),
        read.notes().stream().map(MappingTest::what).sorted().toList());
  }

  private static String what(RowNote note) {
    return note.fate() instanceof RowFate.Repaired repaired
        ? repaired.assumption()
        : note.toString();
  }

  @Test
  void columnsMayBeCalledByNumberAndOpeningsByTheirLine() {
    FleetFolder fleet =
        mapped(
                """
                {"tables": {"rebuilds": {"header_line": 2, "unknown": ["-"],
                  "columns": {"pump": "Tag", "date": "Opened", "trigger": "Why"},
                  "words": {"trigger": {"dripping": "leak"}},
                  "positions": {
                    "seal-inboard": {"as_found": "Seal", "action": "Seal"},
                    "vane-set": {"as_found": "#6", "action": "#6", "measured_mm": "Wear"}}},
                 "findings": {
                   "words": {"as_found": {"bad, new": "failed", "ok": "good"}, "action": {"bad, new": "renewed", "ok": "reused"}},
                   "units": {"measured_mm": "thousandths"}}}}
                """)
            .with(
                "rebuilds.csv",
                """
                Sheet 7,,,,,,
                Tag,Opened,Why,Note,Seal,Seal,Wear
                P1,2021-06-01,Dripping,n,BAD,  ok,20
                P1,2023-06-01,planned,,-,-,-
                """
                    .replace("BAD", "\"bad,  new\""))
            .without("findings.csv");
    Ingested read = fleet.read();
    List<Opening> openings = read.fleet().pumps().get(0).openings();
    assertEquals(List.of("line 3", "line 4"), openings.stream().map(Opening::rebuild).toList());
    assertEquals(Trigger.LEAK, openings.get(0).trigger());
    assertEquals(
        List.of("seal-inboard FAILED RENEWED empty", "vane-set GOOD REUSED 0.508"),
        openings.get(0).findings().stream()
            .map(
                f ->
                    f.position()
                        + " "
                        + f.asFound()
                        + " "
                        + f.action()
                        + " "
                        + (f.measuredMm().isPresent() ? f.measuredMm().getAsDouble() : "empty"))
            .toList());
    assertEquals(List.of(), openings.get(1).findings());
    assertEquals(1L, read.rowsRead().get("rebuilds.csv [vane-set]"));
    assertEquals(2L, read.rowsRead().get("rebuilds.csv"));
  }

  /** Days count as the day they are, however each file writes them; unknown cells say nothing. */
  @Test
  void cellsThatStandForOneColumnTogether() {
    FleetFolder fleet =
        mapped(
                """
                {"tables": {"rebuilds": {"joined": {"rebuild": ["pump", "date"]}},
                 "findings": {"dates": ["d.M.yyyy"], "unknown": ["-"],
                  "joined": {"rebuild": ["Tag", "Opened"], "position": ["Part", "Side"]},
                  "words": {"position": {"Seal in": "seal-inboard", "Vanes": "vane-set"}}}}}
                """)
            .with("rebuilds.csv", "pump,date,trigger\nP1,2021-06-01,leak\nP1,2023-06-01,planned\n")
            .with(
                "findings.csv",
                """
                Tag,Opened,Part,Side,as_found,action,shift
                P1,1.6.2021,Seal,in,failed,renewed,night
                P1,01.06.2021,Vanes,-,good,reused,
                P1,1.6.2023,seal  ,IN,good,reused,
                P1,2.6.2023,Vanes,,good,reused,
                P1,1.6.2023,Seal,,good,reused,
                """);
    Ingested read = fleet.read();
    assertEquals(
        List.of(
            "P1 2021-06-01: seal-inboard FAILED {shift=night}",
            "P1 2021-06-01: vane-set GOOD {}",
            "P1 2023-06-01: seal-inboard GOOD {}"),
        openings(read).stream()
            .flatMap(
                o ->
                    o.findings().stream()
                        .map(
                            f ->
                                o.rebuild()
                                    + ": "
                                    + f.position()
                                    + " "
                                    + f.asFound()
                                    + " "
                                    + f.covariates()))
            .toList());
    assertEquals(
        List.of(
            "findings.csv 5 Tag + Opened set aside: rebuild 'P1 2023-06-02' is not in rebuilds.csv;"
                + " nearest is 'P1 2023-06-01'",
            "findings.csv 6 Part + Side set aside: position 'Seal' is not in fleet.json"),
        fleet.notes().stream().filter(note -> note.startsWith("findings")).toList());
  }

  @Test
  void aListThatNothingIsReadFromIsNoted() {
    FleetFolder fleet =
        fleet()
            .without("rebuilds.csv")
            .with(
                "rebuilds.jsonl",
                """
                {"rebuild":"R1","pump":"P1","date":"2021-06-01","trigger":"leak","parts":[{"a":1}]}
                """)
            .with("findings.csv", "rebuild,position,as_found,action\n");
    assertEquals(
        List.of(
            "rebuilds.jsonl 1 parts repaired: key 'parts' holds a list, and nothing is read from it;"
                + " only rebuilds hold one, their findings"),
        fleet.notes());
  }

  @Test
  void aTableMayStandInAFileForEachYear() {
    FleetFolder fleet =
        mapped(
                """
                {"tables": {"rebuilds": {"also": [{"file": "2022.csv"}],
                  "positions": {"vane-set": {"as_found": "vanes", "action": "done"}}}}}
                """)
            .with(
                "rebuilds.csv",
                "pump,date,trigger,vanes,done\nP1,2021-02-01,leak,,\nP2,2022-03-01,other,,\n")
            .with(
                "2022.csv",
                "date,trigger,pump,crew,done,vanes\n2022-02-02,planned,P1,north,reused,good\nsoon,leak,P1,,,\n")
            .without("findings.csv");
    Ingested ingested = fleet.read();
    assertEquals(
        List.of("2022.csv line 2", "rebuilds.csv line 2", "rebuilds.csv line 3"),
        openings(ingested).stream().map(Opening::rebuild).sorted().toList());
    assertEquals(
        List.of("rebuilds.csv 2/2", "2022.csv 2/1", "2022.csv [vane-set] 1/1"),
        ingested.account().files().stream()
            .filter(file -> file.file().matches("rebuilds.csv|2022.csv.*"))
            .map(file -> file.file() + " " + file.rows() + "/" + file.used())
            .toList());
    assertEquals(
        1, openings(ingested).stream().mapToInt(opening -> opening.findings().size()).sum());
  }

  private static List<Opening> openings(Ingested ingested) {
    return ingested.fleet().pumps().stream().flatMap(pump -> pump.openings().stream()).toList();
  }

  @Test
  void oneOpeningInTwoFilesCountsOnce() {
    FleetFolder fleet =
        mapped("{\"tables\": {\"rebuilds\": {\"also\": [{\"file\": \"more.csv\"}]}}}")
            .with("rebuilds.csv", "rebuild,pump,date,trigger\nR1,P1,2021-02-01,leak\n")
            .with(
                "more.csv",
                "rebuild,pump,date,trigger\nR1,P1,2021-02-01,leak\nR2,P1,2021-02-01,leak\n")
            .with("findings.csv", "rebuild,position,as_found,action\n");
    assertEquals(
        List.of(
            "more.csv 2 rebuild repaired: same opening as rebuilds.csv, line 2; counted once",
            "more.csv 3  repaired: same opening as rebuilds.csv, line 2; counted once"),
        fleet.notes());
  }
}

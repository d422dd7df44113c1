package org.vaneward.ingest;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.vaneward.fleet.AsFound;
import org.vaneward.fleet.Effect;
import org.vaneward.fleet.Finding;
import org.vaneward.fleet.MeterReading;
import org.vaneward.fleet.Opening;
import org.vaneward.fleet.PartAction;
import org.vaneward.fleet.Pump;
import org.vaneward.fleet.PumpHistory;
import org.vaneward.fleet.RowAccount.FileAccount;
import org.vaneward.fleet.RowFate;
import org.vaneward.fleet.RowNote;
import org.vaneward.fleet.RowRef;
import org.vaneward.fleet.Service;
import org.vaneward.fleet.ServicePeriod;
import org.vaneward.fleet.Trigger;
import org.vaneward.io.BadInputException;

class IngestTest {
  @TempDir Path folder;
  private FleetFolder fleet;

  @BeforeEach
  void aFleetWithoutFault() {
    fleet = new FleetFolder(folder);
  }

  private static PumpHistory pump(Ingested ingested, String tag) {
    return ingested.fleet().pumps().stream()
        .filter(h -> h.pump().pump().equals(tag))
        .findFirst()
        .orElseThrow();
  }

  private PumpHistory pump(String tag) {
    return pump(fleet.read(), tag);
  }

  private static List<Double> hours(PumpHistory history) {
    return history.readings().stream().map(MeterReading::hours).toList();
  }

  // ---- a fleet without a fault

  @Test
  void everyRowOfACleanFleetIsUsedAsItStands() {
    Ingested ingested = fleet.read();
    assertEquals(List.of(), ingested.notes());
    assertEquals(
        List.of(
            new FileAccount("pumps.csv", 2, 2, 0, 0),
            new FileAccount("services.csv", 3, 3, 0, 0),
            new FileAccount("readings.csv", 6, 6, 0, 0),
            new FileAccount("rebuilds.csv", 3, 3, 0, 0),
            new FileAccount("findings.csv", 4, 4, 0, 0)),
        ingested.account().files());
  }

  @Test
  void cellsBecomeRecords() {
    PumpHistory p1 = pump("P1");
    assertEquals(
        new Pump(
            "P1",
            "North",
            Optional.of("VP-80"),
            Optional.of(LocalDate.of(2020, 1, 1)),
            Optional.empty(),
            OptionalDouble.of(50),
            Optional.empty(),
            Map.of(),
            new RowRef("pumps.csv", 2)),
        p1.pump());
    assertEquals(
        new ServicePeriod(
            "P1",
            LocalDate.of(2020, 1, 1),
            new Service("petrol", "loading"),
            Map.of("pressure_bar", 4.5, "temperature_c", -5.0),
            Map.of(),
            new RowRef("services.csv", 2)),
        p1.services().get(0));
    assertEquals(
        new MeterReading(
            "P1",
            LocalDate.of(2023, 1, 1),
            0,
            OptionalDouble.of(7800),
            new RowRef("readings.csv", 5)),
        p1.readings().get(3));
    Opening first = p1.openings().get(0);
    assertEquals(Trigger.LEAK, first.trigger());
    assertEquals(OptionalDouble.of(3700), first.meterHours());
    assertEquals(Optional.of("first, quoted"), first.note());
    assertEquals(
        new Finding(
            "seal-inboard",
            AsFound.FAILED,
            true,
            Optional.of("ELP"),
            Optional.empty(),
            PartAction.RENEWED,
            OptionalDouble.empty(),
            Optional.of("L7"),
            Map.of(),
            new RowRef("findings.csv", 2)),
        first.findings().get(0));
    assertEquals(OptionalDouble.of(0.8), first.findings().get(1).measuredMm());
    assertEquals(PartAction.RECONDITIONED, pump("P2").openings().get(0).findings().get(0).action());
  }

  @Test
  void historiesComeInOrderOfDateWhateverTheFileDoes() {
    fleet
        .with(
            "services.csv",
            "pump,from,product,duty\nP1,2023-01-01,diesel,loading\nP1,2020-01-01,petrol,loading\n")
        .with("readings.csv", "pump,date,hours\nP1,2022-01-01,5200\nP1,2021-01-01,2600\n")
        .with(
            "rebuilds.csv",
            """
            rebuild,pump,date,trigger
            R2,P1,2023-06-01,planned
            R1,P1,2021-06-01,leak
            R3,P2,2022-05-05,noise
            """);
    PumpHistory p1 = pump("P1");
    assertEquals(List.of(2600.0, 5200.0), hours(p1));
    assertEquals(List.of("R1", "R2"), p1.openings().stream().map(Opening::rebuild).toList());
    assertEquals("petrol", p1.services().get(0).service().product());
  }

  @Test
  void columnsBeyondTheContractAreKept() {
    fleet
        .with("pumps.csv", "pump,owner,site\nP1,Depot ,North\nP2,,South\n")
        .change("findings.csv", "measured_mm,lot", "measured_mm,bench");
    Ingested ingested = fleet.read();
    assertEquals(Map.of("owner", "Depot "), pump(ingested, "P1").pump().covariates());
    assertEquals(Map.of(), pump(ingested, "P2").pump().covariates());
    assertEquals(
        Map.of("bench", "L7"),
        pump(ingested, "P1").openings().get(0).findings().get(0).covariates());
  }

  @Test
  void semicolonsAndByteOrderMark() {
    fleet.with("pumps.csv", "\uFEFF" + fleet.text("pumps.csv").replace(',', ';'));
    assertEquals(List.of(), fleet.notes());
  }

  // ---- folders and files that cannot be used

  @Test
  void aFolderThatIsNone() throws IOException {
    Path file = Files.writeString(folder.resolve("x"), "");
    String end = "; give the folder that holds fleet.json and the tables";
    assertEquals(
        file + ": not a folder" + end,
        assertThrows(BadInputException.class, () -> Ingest.read(file)).getMessage());
    Path nowhere = folder.resolve("nowhere");
    assertEquals(
        nowhere + ": no such folder" + end,
        assertThrows(BadInputException.class, () -> Ingest.read(nowhere)).getMessage());
  }

  @ParameterizedTest
  @ValueSource(strings = {"pumps", "services", "readings", "rebuilds", "findings"})
  void everyTableMustBeThere(String table) {
    String message = fleet.without(table + ".csv").refusal();
    assertTrue(message.startsWith("FOLDER: no file " + table + ".csv; it holds one row "), message);
    message = fleet.with(table + ".csv", "").refusal();
    assertTrue(message.startsWith(table + ".csv: empty; line 1 must name the columns "), message);
    message = fleet.with(table + ".csv", "a,b\n1,2\n").refusal();
    assertTrue(message.startsWith(table + ".csv, line 1: no column '"), message);
    message = fleet.with(table + ".csv", new byte[] {'P', 'K', 3, 4, 0, 0, -1}).refusal();
    assertTrue(message.startsWith(table + ".csv, line 1: holds the control character 3"), message);
  }

  @Test
  void settingsMustBeThere() {
    assertEquals(
        "FOLDER: no file fleet.json; a fleet folder holds fleet.json, pumps.csv, services.csv,"
            + " readings.csv, rebuilds.csv and findings.csv",
        fleet.without("fleet.json").refusal());
  }

  @Test
  void tablesWithoutRowsAreAFleetWithoutHistory() {
    for (String table : List.of("services", "readings", "rebuilds", "findings")) {
      String name = table + ".csv";
      fleet.with(name, fleet.text(name).lines().findFirst().orElseThrow() + "\n");
    }
    Ingested ingested = fleet.read();
    assertEquals(0L, ingested.rowsRead().get("findings.csv"));
    assertEquals(List.of(), pump(ingested, "P1").openings());
  }

  // ---- cells

  /** One row put at the end of a table, and the one note it leads to. */
  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '~',
      ignoreLeadingAndTrailingWhitespace = false,
      value = {
        // structure
        "readings|P1|set aside: the row has 1 cells where the header has 5 columns|",
        "readings|,,,,|set aside: pump is blank; every row needs it|pump",
        // numbers
        "readings|P1,2026-01-01,\"12,5\",,|set aside: hours '12,5': decimals use a point and"
            + " thousands no separator, as in 1234.5|hours",
        "readings|P1,2026-01-01,NaN,,|set aside: hours 'NaN': not a number; write it as 1234.5|hours",
        "readings|P1,2026-01-01,Infinity,,|set aside: hours 'Infinity': not a number; write it as"
            + " 1234.5|hours",
        "readings|P1,2026-01-01,1e999,,|set aside: hours '1e999': beyond any number that makes sense"
            + " here|hours",
        "readings|P1,2026-01-01,0x1F,,|set aside: hours '0x1F': not a number; write it as"
            + " 1234.5|hours",
        "readings|P1,2026-01-01,12d,,|set aside: hours '12d': not a number; write it as 1234.5|hours",
        "readings|P1,2026-01-01,-5,,|set aside: hours '-5': cannot be negative|hours",
        "readings|P1,2026-01-01,,,|set aside: hours is blank; every row needs it|hours",
        "services|P2,2023-01-01,diesel,transfer,-1,|repaired: pressure_bar '-1': cannot be"
            + " negative; the cell is taken as unknown|pressure_bar",
        "services|P2,2023-01-01,diesel,transfer,,hot|repaired: temperature_c 'hot': not a number;"
            + " write it as 1234.5; the cell is taken as unknown|temperature_c",
        "pumps|P3,North,,,,200,|repaired: hours_per_week '200': a week has 168 hours; the cell is"
            + " taken as unknown|hours_per_week",
        // dates
        "readings|P1,31.03.2024,5,,|set aside: date '31.03.2024': not a date; write"
            + " it as 2024-03-31|date",
        "readings|P1,2024-3-31,5,,|set aside: date '2024-3-31': not a date; write it as"
            + " 2024-03-31|date",
        "readings|P1,2023-02-29,5,,|set aside: date '2023-02-29': not a day of the calendar; write"
            + " it as 2024-03-31|date",
        "readings|P1,0024-03-31,5,,|set aside: date '0024-03-31': lies before 1900; check the"
            + " year|date",
        "readings|P1,2026-07-01,5,,|set aside: date '2026-07-01': lies after 2026-06-30, the last"
            + " day the records speak of (as_of in fleet.json)|date",
        "services|P1,2026-07-01,petrol,loading,,|set aside: from '2026-07-01': lies after"
            + " 2026-06-30, the last day the records speak of (as_of in fleet.json)|from",
        "rebuilds|R9,P1,2026-07-01,,planned,,,,,,|set aside: date '2026-07-01': lies after"
            + " 2026-06-30, the last day the records speak of (as_of in fleet.json)|date",
        "pumps|P3,North,,2026-07-01,,,|set aside: commissioned 2026-07-01: lies after 2026-06-30,"
            + " the last day the records speak of (as_of in fleet.json)|commissioned",
        "pumps|P3,North,,,,,2027-01-01|repaired: retired '2027-01-01': lies after 2026-06-30, the"
            + " last day the records speak of (as_of in fleet.json); the cell is taken as"
            + " unknown|retired",
        // words
        "rebuilds|R9,P1,2024-01-01,,Low_Flow ,,,,,,|repaired: trigger 'Low_Flow ': read as"
            + " low-flow|trigger",
        "rebuilds|R9,P1,2024-01-01,,smell,,,,,,|set aside: trigger 'smell': not one of planned,"
            + " leak, noise, low-flow, seized, inspection, other|trigger",
        "rebuilds|R9,P1,2024-01-01,,,,,,,,|set aside: trigger is blank; every row needs it|trigger",
        "findings|R2,vane-set,Not Seen,,,,reused,,|repaired: as_found 'Not Seen': read as"
            + " not-seen|as_found",
        "findings|R2,vane-set,broken,,,,reused,,|set aside: as_found 'broken': not one of failed,"
            + " worn, good, not-seen|as_found",
        "findings|R2,vane-set,good,,,,RENEWED,,|repaired: action 'RENEWED': read as renewed|action",
        "findings|R2,vane-set,good,,,,replaced,,|set aside: action 'replaced': not one of renewed,"
            + " reused, reconditioned|action",
        "findings|R2,vane-set,good,Yes,,,renewed,,|repaired: primary 'Yes': read as yes|primary",
        "findings|R2,vane-set,good,x,,,renewed,,|repaired: primary 'x': not one of yes, no; the cell"
            + " is taken as unknown|primary",
        "readings|P2,2022-01-01,2000,swap,|set aside: event 'swap': not one of meter-replaced|event",
        "readings|P2,2022-01-01,0,Meter replaced,2000|repaired: event 'Meter replaced': read as"
            + " meter-replaced|event",
        "readings|P2,2022-01-01,1300,,7|repaired: old_hours without the event meter-replaced; not"
            + " used|old_hours",
        // names and references
        "pumps|P1,North,,,,,|set aside: pump 'P1' stands on line 2 already; tags are unique|pump",
        "pumps|P3,,,,,,|set aside: site is blank; every row needs it|site",
        "readings|P9,2024-01-01,5,,|set aside: pump 'P9' is not in pumps.csv; nearest is 'P1'|pump",
        "readings|Compressor,2024-01-01,5,,|set aside: pump 'Compressor' is not in pumps.csv|pump",
        "readings| P2,2022-01-01,1300,,|repaired: pump 'P2': white space around it left out|pump",
        "findings|R22,vane-set,good,,,,reused,,|set aside: rebuild 'R22' is not in rebuilds.csv;"
            + " nearest is 'R2'|rebuild",
        "findings|R2,Vane_Set ,good,,,,reused,,|repaired: position 'Vane_Set ': read as"
            + " vane-set|position",
        "findings|R2,,good,,,,reused,,|set aside: position is blank; every row needs it|position",
        "findings|R2,vaneset,good,,,,reused,,|set aside: position 'vaneset' is not in fleet.json;"
            + " nearest is 'vane-set'|position",
        "rebuilds|R1,P2,2021-06-01,,leak,,,,,,|set aside: rebuild 'R1' stands on line 2 already, for"
            + " another pump or day; record numbers are unique|rebuild",
        "rebuilds|R1,P1,2021-06-01,3700,leak,,,,,,|repaired: same opening as line 2; counted"
            + " once|rebuild",
        "rebuilds|R9,P1,2019-12-31,,leak,,,,,,|set aside: date 2019-12-31: lies before the pump was"
            + " commissioned, 2020-01-01 (pumps.csv, line 2)|date",
        "rebuilds|R9,P2,2026-01-01,,leak,,,,,,|set aside: date 2026-01-01: lies after the pump left"
            + " service, 2025-12-31 (pumps.csv, line 3)|date",
        // repeats
        "services|P1,2020-01-01,petrol,loading,4.5,-5|repaired: same as line 2; counted once|",
        "services|P1,2020-01-01,diesel,loading,4.5,-5|set aside: contradicts line 2, another service"
            + " of the same pump from the same day|from",
        "readings|P1,2021-01-01,2600,,|repaired: same as line 3; counted once|",
        "findings|R2,seal-inboard,good,,,,reused,,|repaired: same finding as line 4; counted once|",
        "findings|R2,seal-inboard,worn,,,,reused,,|set aside: contradicts line 4, another finding at"
            + " the same position of the same rebuild|position",
        // spellings
        "pumps|P3, north,,,,,|repaired: site ' north': taken as 'North'|site",
        "services|P2,2023-01-01,Petrol,transfer,,|repaired: product 'Petrol': taken as"
            + " 'petrol'|product",
        "services|P2,2023-01-01,diesel,LOADING,,|repaired: duty 'LOADING': taken as 'loading'|duty",
        "rebuilds|R9,P1,2024-01-01,,planned,crew  A,,,,,|repaired: crew 'crew  A': taken as 'Crew"
            + " A'|crew",
      })
  void oneBadRow(String table, String row, String expected, String column) {
    String file = table + ".csv";
    long line = fleet.plus(file, row).text(file).lines().count();
    assertEquals(
        List.of(file + " " + line + " " + (column == null ? "" : column) + " " + expected),
        fleet.notes());
  }

  @Test
  void theSpellingOfMostRowsStandsForAll() {
    fleet
        .plus("services.csv", "P2,2022-01-01,DIESEL,transfer,,")
        .plus("services.csv", "P2,2023-01-01,DIESEL,transfer,,")
        .plus("services.csv", "P2,2024-01-01,DIESEL,transfer,,");
    assertEquals(
        List.of(
            "services.csv 3 product repaired: product 'diesel': taken as 'DIESEL'",
            "services.csv 4 product repaired: product 'diesel': taken as 'DIESEL'"),
        fleet.notes());
    assertEquals("DIESEL", pump("P1").services().get(1).service().product());
  }

  @Test
  void aMultiLineValueIsQuotedOnOneLine() {
    fleet.plus("readings.csv", "P1,2026-01-01,\"1\n2\",,");
    assertEquals(
        List.of("readings.csv 8 hours set aside: hours '1 2': not a number; write it as 1234.5"),
        fleet.notes());
  }

  // ---- rows that depend on others

  @Test
  void theRowsOfAPumpThatIsSetAsideGoWithIt() {
    fleet.change("pumps.csv", "P2,South", "P2,");
    assertEquals(
        List.of(
            "findings.csv 5 rebuild set aside: rebuild 'R3' is set aside (rebuilds.csv, line 4)",
            "pumps.csv 3 site set aside: site is blank; every row needs it",
            "readings.csv 7 pump set aside: pump 'P2' is set aside (pumps.csv, line 3)",
            "rebuilds.csv 4 pump set aside: pump 'P2' is set aside (pumps.csv, line 3)",
            "services.csv 4 pump set aside: pump 'P2' is set aside (pumps.csv, line 3)"),
        fleet.notes());
    assertEquals(new FileAccount("pumps.csv", 2, 1, 0, 1), fleet.read().account().files().get(0));
  }

  @Test
  void theFindingsOfARebuildThatIsSetAsideGoWithIt() {
    fleet.change("rebuilds.csv", "2021-06-01", "2021-06-31");
    assertEquals(
        List.of(
            "findings.csv 2 rebuild set aside: rebuild 'R1' is set aside (rebuilds.csv, line 2)",
            "findings.csv 3 rebuild set aside: rebuild 'R1' is set aside (rebuilds.csv, line 2)",
            "rebuilds.csv 2 date set aside: date '2021-06-31': not a day of the calendar; write it as"
                + " 2024-03-31"),
        fleet.notes());
  }

  @Test
  void twoRecordsOfOneOpeningAreOne() {
    fleet
        .plus("rebuilds.csv", "R7,P1,2021-06-01,3700,leak,Crew A,K1,,,,")
        .plus("findings.csv", "R7,vane-set,worn,no,,,renewed,,")
        .plus("findings.csv", "R7,seal-inboard,failed,yes,,,renewed,,");
    String twice =
        "repaired: finding of an opening that stands twice, rebuilds.csv, line 2 and line 5;"
            + " counted once";
    assertEquals(
        List.of(
            "findings.csv 6  " + twice,
            "findings.csv 7  " + twice,
            "rebuilds.csv 5  repaired: same opening as line 2; counted once"),
        fleet.notes());
    assertEquals(
        List.of("R1", "R2"), pump("P1").openings().stream().map(Opening::rebuild).toList());
  }

  @Test
  void aSecondOpeningOfTheDayWithOtherFindingsIsAnother() {
    fleet
        .plus("rebuilds.csv", "R7,P1,2021-06-01,3700,leak,Crew A,,,,,")
        .plus("findings.csv", "R7,seal-outboard,failed,yes,,,renewed,,");
    assertEquals(List.of(), fleet.notes());
    assertEquals(
        List.of("R1", "R7", "R2"), pump("P1").openings().stream().map(Opening::rebuild).toList());
  }

  @Test
  void recordsFromThatCannotBeReadVouchesForNothing() {
    fleet.change("pumps.csv", "2022-01-01,,2025", "2022,,2025");
    assertEquals(
        List.of(
            "pumps.csv 3 commissioned repaired: taken as unknown together with records_from, so that"
                + " no part is given an age the records cannot vouch for",
            "pumps.csv 3 records_from repaired: records_from '2022': not a date; write it as"
                + " 2024-03-31; the cell is taken as unknown"),
        fleet.notes());
    assertEquals(Optional.empty(), pump("P2").pump().commissioned());
  }

  @Test
  void recordsCannotStartBeforeThePumpNorEndBeforeIt() {
    fleet.change("pumps.csv", "2022-01-01,,2025-12-31", "2019-01-01,,2025-12-31");
    assertEquals(
        List.of(
            "pumps.csv 3 records_from repaired: records_from 2019-01-01 lies before commissioned"
                + " 2020-01-01; taken as that day"),
        fleet.notes());
    assertEquals(Optional.of(LocalDate.of(2020, 1, 1)), pump("P2").pump().recordsFrom());
    fleet
        .change("pumps.csv", "2019-01-01,,2025-12-31", ",,2019-12-31")
        .change("rebuilds.csv", "2022-05-05", "2019-05-05");
    assertEquals(
        List.of(
            "pumps.csv 3 commissioned repaired: commissioned 2020-01-01 lies after retired"
                + " 2019-12-31; taken as unknown"),
        fleet.notes().stream().filter(n -> n.startsWith("pumps")).toList());
  }

  // ---- hour meters

  private List<String> readingNotes(String... rows) {
    fleet
        .with("readings.csv", "pump,date,hours,event,old_hours\n" + String.join("\n", rows) + "\n")
        .with("rebuilds.csv", "rebuild,pump,date,hours,trigger\n")
        .with("findings.csv", "rebuild,position,as_found,action\n");
    return fleet.notes();
  }

  private static final String HINT =
      "; if the meter was replaced, the first reading of the new one needs the event"
          + " meter-replaced and old_hours";

  @Test
  void aHighSlipGoesRatherThanTheReadingsAfterIt() {
    assertEquals(
        List.of(
            "readings.csv 3 hours set aside: hours 9200 would be more than 24 a day since 100 read"
                + " on 2021-01-01 (readings.csv, line 2)"
                + HINT),
        readingNotes("P1,2021-01-01,100,,", "P1,2021-02-01,9200,,", "P1,2021-03-01,300,,"));
    assertEquals(
        List.of(
            "readings.csv 3 hours set aside: hours 500 lie above 300 read on 2021-03-01"
                + " (readings.csv, line 4)"
                + HINT),
        readingNotes("P1,2021-01-01,100,,", "P1,2021-02-01,500,,", "P1,2021-03-01,300,,"));
  }

  @Test
  void aLowSlipGoesRatherThanTheReadingsBeforeIt() {
    assertEquals(
        List.of(
            "readings.csv 4 hours set aside: hours 30 fall below 200 read on 2021-02-01"
                + " (readings.csv, line 3)"
                + HINT),
        readingNotes(
            "P1,2021-01-01,100,,",
            "P1,2021-02-01,200,,",
            "P1,2021-03-01,30,,",
            "P1,2021-04-01,400,,"));
    assertEquals(List.of(100.0, 200.0, 400.0), hours(pump("P1")));
  }

  @Test
  void fasterThanTheClockIsNoReading() {
    assertEquals(
        List.of(
            "readings.csv 4 hours set aside: hours 1000 would be more than 24 a day since 200 read on"
                + " 2021-01-15 (readings.csv, line 3)"
                + HINT),
        readingNotes("P1,2021-01-01,100,,", "P1,2021-01-15,200,,", "P1,2021-02-01,1000,,"));
    assertEquals(
        List.of(),
        readingNotes("P1,2021-01-01,0,,", "P1,2021-01-02,48,,", "P1,2021-01-03,72,,"),
        "round the clock, read early one day and late the next");
  }

  @Test
  void readingsOfOneDayStandInOrderOfHours() {
    assertEquals(
        List.of(),
        readingNotes("P1,2021-01-01,108,,", "P1,2021-01-01,100,,", "P1,2021-01-02,120,,"));
    assertEquals(List.of(100.0, 108.0, 120.0), hours(pump("P1")));
  }

  @Test
  void aReplacedMeterMayFall() {
    assertEquals(
        List.of(),
        readingNotes(
            "P1,2021-01-01,9000,,", "P1,2022-01-01,3,meter-replaced,9800", "P1,2022-06-01,400,,"));
  }

  @Test
  void oldHoursThatAreNotStatedAreCarriedForward() {
    assertEquals(
        List.of(
            "readings.csv 4 old_hours repaired: old_hours is not known; taken as 920, carried forward"
                + " from 820 read on 2021-03-02 (readings.csv, line 3) at 2 hours a day"),
        readingNotes(
            "P1,2021-01-01,700,,", "P1,2021-03-02,820,,", "P1,2021-04-21,0,meter-replaced,"));
    assertEquals(OptionalDouble.of(920), pump("P1").readings().get(2).oldMeterHours());
  }

  @Test
  void withoutAnEarlierReadingTheStatedUsageCarriesFromCommissioning() {
    assertEquals(
        List.of(
            "readings.csv 2 old_hours repaired: old_hours is not known; taken as 500, carried forward"
                + " from 0 when commissioned at 7.1 hours a day"),
        readingNotes("P1,2020-03-11,0,meter-replaced,"));
  }

  @Test
  void anOldMeterNothingTellsOfIsSetAside() {
    assertEquals(
        List.of(
            "readings.csv 2 old_hours set aside: old_hours is not known, and no earlier row tells what"
                + " the old meter showed; give old_hours"),
        readingNotes("P2,2022-03-11,0,meter-replaced,"));
    assertEquals(List.of(), hours(pump("P2")));
  }

  @Test
  void oldHoursThatContradictTheReadingsAreTakenFromThem() {
    assertEquals(
        List.of(
            "readings.csv 4 old_hours repaired: old_hours 80 fall below 820 read on 2021-03-02"
                + " (readings.csv, line 3); taken as 920, carried forward from 820 read on 2021-03-02"
                + " (readings.csv, line 3) at 2 hours a day"),
        readingNotes(
            "P1,2021-01-01,700,,", "P1,2021-03-02,820,,", "P1,2021-04-21,0,meter-replaced,80"));
  }

  @Test
  void aNewMeterThatCannotShowItsFirstReadingStartsAtZero() {
    assertEquals(
        List.of(
            "readings.csv 2 hours repaired: hours 5000 of the new meter lie above 100 read on"
                + " 2021-02-01 (readings.csv, line 3); the new meter is taken to start at 0"),
        readingNotes(
            "P1,2021-01-01,5000,meter-replaced,9000",
            "P1,2021-02-01,100,,",
            "P1,2021-03-01,200,,"));
    assertEquals(List.of(0.0, 100.0, 200.0), hours(pump("P1")));
  }

  @Test
  void aBlankFirstReadingOfANewMeterIsZero() {
    assertEquals(
        List.of(
            "readings.csv 2 hours repaired: hours is blank; the new meter is taken to start at 0"),
        readingNotes("P1,2021-01-01,,meter-replaced,9000"));
  }

  @Test
  void hoursAtAnOpeningThatContradictTheReadingsAreUnknown() {
    fleet.change("rebuilds.csv", "2021-06-01,3700", "2021-06-01,370");
    assertEquals(
        List.of(
            "rebuilds.csv 2 hours repaired: hours 370 fall below 2600 read on 2021-01-01 (readings.csv,"
                + " line 3); taken from the readings instead"),
        fleet.notes());
    assertEquals(OptionalDouble.empty(), pump("P1").openings().get(0).meterHours());
  }

  @Test
  void openingsThatContradictEachOtherLoseTheFewestHours() {
    fleet
        .with("readings.csv", "pump,date,hours\n")
        .with(
            "rebuilds.csv",
            """
            rebuild,pump,date,hours,trigger
            R1,P1,2021-06-01,3000,leak
            R2,P1,2022-06-01,400,leak
            R3,P1,2023-06-01,6000,leak
            R4,P1,2024-06-01,9000,leak
            """)
        .with("findings.csv", "rebuild,position,as_found,action\n");
    List<String> notes = fleet.notes();
    assertEquals(1, notes.size(), notes.toString());
    assertTrue(notes.get(0).startsWith("rebuilds.csv 2 hours repaired: hours 3000 lie above 400"));
  }

  @Test
  void anOpeningOnTheDayAMeterIsReplacedShowsTheOldOne() {
    fleet.change("rebuilds.csv", "2023-06-01,,planned", "2023-01-01,7795,planned");
    assertEquals(List.of(), fleet.notes());
    fleet.change("rebuilds.csv", "2023-01-01,7795", "2023-01-01,0");
    assertEquals(
        List.of(
            "rebuilds.csv 3 hours repaired: hours 0 are those of the meter fitted that day"
                + " (readings.csv, line 5); taken as 7800, the last of the old one"),
        fleet.notes());
    assertEquals(OptionalDouble.of(7800), pump("P1").openings().get(1).meterHours());
  }

  // ---- what a flaw changes

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "pumps.csv    | P3,North,,2030-01-01,,,             | PUMP_LOST",
        "services.csv | P9,2020-01-01,diesel,transfer,3,    | SERVICE_LOST",
        "readings.csv | P1,2019-12-31,0,,                   | READING_LOST",
        "readings.csv | P1,2025-01-01,60000,,               | READING_LOST",
        "rebuilds.csv | R9,P1,2019-12-31,,leak,,,,,,        | OPENING_LOST",
        "findings.csv | R1,seal-inbord,good,,,,reused,,     | FINDING_LOST",
        "findings.csv | R2,vane-set,worn,,,,renewed,1.x,    | WEAR_UNSURE",
        "pumps.csv    | P3,North,,2020-01-01,,,soon         | STILL_RUNNING",
        "pumps.csv    | P3,North,,2020-01-01,,200,          | USAGE_ESTIMATED",
        "pumps.csv    | P3,North,,once,,,                   | AGE_LOST",
      })
  void eachRemarkSaysWhatItChanges(String file, String row, Effect effect) {
    fleet.plus(file, row);
    List<RowNote> notes = fleet.read().notes();
    assertEquals(
        List.of(effect),
        notes.stream().map(RowNote::effect).distinct().toList(),
        () -> notes.toString());
  }

  @Test
  void clearancesInTwoUnitsAreNamedAndTakenAsWritten() {
    String[] mm = {"0.18", "0.2", "0.19", "0.15", "0.17", "0.21", "0.22", "7", "8", "7.5"};
    StringBuilder rows = new StringBuilder("rebuild,pump,date,trigger,end_clearance_mm\n");
    for (int i = 0; i < mm.length; i++) {
      rows.append("R%d,P1,2021-02-%02d,planned,%s\n".formatted(i, i + 1, mm[i]));
    }
    fleet.with("rebuilds.csv", rows.toString());
    fleet.with("findings.csv", "rebuild,position,as_found,action\n");
    Ingested ingested = fleet.read();
    assertEquals(
        List.of(
            "end_clearance_mm 7: far from the 7 others (from 0.15 to 0.22); would fit thousandths and"
                + " is taken as mm; write the unit into the cell if it is another",
            "end_clearance_mm 8: far from the 7 others (from 0.15 to 0.22); would fit thousandths and"
                + " is taken as mm; write the unit into the cell if it is another",
            "end_clearance_mm 7.5: far from the 7 others (from 0.15 to 0.22); would fit thousandths"
                + " and is taken as mm; write the unit into the cell if it is another"),
        ingested.notes().stream()
            .map(note -> ((RowFate.Repaired) note.fate()).assumption())
            .toList());
    assertEquals(
        List.of(Effect.UNIT_UNSURE),
        ingested.notes().stream().map(RowNote::effect).distinct().toList());
    assertEquals(OptionalDouble.of(7), pump(ingested, "P1").openings().get(7).endClearanceMm());
  }

  @Test
  void aCellThatNamesItsUnitIsNoOddOne() {
    String[] mm = {
      "0.18", "0.2", "0.19", "0.15", "0.17", "0.21", "0.22", "7 thou", "8 thou", "7 mil"
    };
    StringBuilder rows = new StringBuilder("rebuild,pump,date,trigger,end_clearance_mm\n");
    for (int i = 0; i < mm.length; i++) {
      rows.append("R%d,P1,2021-02-%02d,planned,%s\n".formatted(i, i + 1, mm[i]));
    }
    fleet.with("rebuilds.csv", rows.toString());
    fleet.with("findings.csv", "rebuild,position,as_found,action\n");
    Ingested ingested = fleet.read();
    assertEquals(3, ingested.notes().size());
    assertEquals(
        List.of(Effect.NOTHING),
        ingested.notes().stream().map(RowNote::effect).distinct().toList());
  }
}

package org.vaneward.life;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.vaneward.fleet.AsFound.FAILED;
import static org.vaneward.fleet.AsFound.GOOD;
import static org.vaneward.fleet.PartAction.RENEWED;
import static org.vaneward.fleet.PartAction.REUSED;
import static org.vaneward.fleet.Trigger.LEAK;
import static org.vaneward.fleet.Trigger.NOISE;
import static org.vaneward.fleet.Trigger.PLANNED;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.SortedMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.function.Executable;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.vaneward.fleet.Service;
import org.vaneward.io.BadInputException;
import org.vaneward.life.Life.LifeEnd;
import org.vaneward.life.Life.LifeSpan;
import org.vaneward.stats.Observation;
import org.vaneward.stats.Observations;
import tech.tablesaw.api.Table;

class LivesTableTest {
  private static final double NEVER = Double.POSITIVE_INFINITY;

  @TempDir private Path folder;

  private Path file(String text) throws IOException {
    return Files.writeString(folder.resolve("lives.csv"), text);
  }

  /** Seals: one failed after a change of product, one found failed, one running. */
  private static Lives sealsOfOnePump() {
    return Records.tenHoursADay()
        .service(0, "petrol", 4)
        .service(200, "diesel", 6.5)
        .open(300, 3000, LEAK)
        .found("seal-inboard", FAILED, RENEWED)
        .open(500, 5000, NOISE)
        .found("seal-inboard", GOOD, REUSED)
        .open(700, 7000, PLANNED)
        .found("seal-inboard", FAILED, RENEWED)
        .lives();
  }

  private static LivesTable sealTable() {
    LivesTable all = LivesTable.of(sealsOfOnePump());
    return all.where(i -> all.text("position", i).equals("seal-inboard"));
  }

  private static void assertRow(LivesTable table, int i, double entry, double lower, double upper) {
    assertArrayEquals(
        new double[] {entry, lower, upper, 1},
        new double[] {table.entry(i), table.lower(i), table.upper(i), table.count(i)},
        "row " + i);
  }

  @Test
  void oneRowForEachSpan() {
    LivesTable table = sealTable();
    assertEquals(4, table.rows());
    assertRow(table, 0, 0, 2000, NEVER);
    assertRow(table, 1, 2000, 3000, 3000);
    assertRow(table, 2, 0, 2000, 4000);
    assertRow(table, 3, 0, 3000, NEVER);
    assertEquals(List.of("petrol", "diesel", "diesel", "diesel"), texts(table, "product"));
    assertEquals(List.of("4", "6.5", "6.5", "6.5"), texts(table, "pressure_bar"));
    assertEquals(List.of("failed", "failed", "found-failed", "running"), texts(table, "end"));
    assertEquals(List.of("", "", "crew 1", "crew 3"), texts(table, "crew"));
    assertEquals("2020-10-27", table.text("fitted_on", 2));
  }

  private static String refusal(Executable reading) {
    String message = assertThrows(BadInputException.class, reading).getMessage();
    return message == null ? "" : message;
  }

  private static List<String> texts(LivesTable table, String column) {
    List<String> texts = new ArrayList<>();
    for (int i = 0; i < table.rows(); i++) {
      texts.add(table.text(column, i));
    }
    return texts;
  }

  @Test
  void columnsStandInAFixedOrder() {
    assertEquals(
        List.of(
            "life",
            "component",
            "position",
            "pump",
            "site",
            "product",
            "duty",
            "fitted_on",
            "ended_on",
            "end",
            "seen_good",
            "reconditioned",
            "marks",
            "bay",
            "crew"),
        sealTable().columns().subList(0, 15));
  }

  @Test
  void theSpansOfOneLifeAreOneLife() {
    LivesTable table = sealTable();
    assertEquals(3, table.lives());
    assertEquals(2, table.failures());
  }

  @Test
  void anIntervalAcrossAChangeIsEnteredAtItsStart() {
    Optional<Service> petrol = Optional.of(new Service("petrol", "loading"));
    Optional<Service> diesel = Optional.of(new Service("diesel", "loading"));
    Life life =
        new Life(
            1,
            "P1",
            "North",
            "seal",
            "seal-inboard",
            Records.day(0),
            0,
            Records.day(300),
            0,
            new LifeEnd.FoundFailed(1000, 3000),
            OptionalDouble.empty(),
            List.of(new LifeSpan(petrol, 0, 1000), new LifeSpan(diesel, 1000, 3000)),
            false,
            List.of(),
            Map.of("count", "a covariate of that name"),
            List.of());
    LivesTable table =
        LivesTable.of(
            new Lives(
                List.of(life), List.of(), List.of(), List.of(), List.of(), List.of(), List.of()));
    assertRow(table, 0, 0, 1000, NEVER);
    assertRow(table, 1, 1000, 1000, 3000);
    assertEquals("a covariate of that name", table.text("other_count", 0));
  }

  @Test
  void observationsAreTheRows() {
    Observations observations = sealTable().observations();
    assertEquals(
        List.of(
            new Observation.RightCensored(0, 2000, 1),
            new Observation.Exact(2000, 3000, 1),
            new Observation.Interval(0, 2000, 4000, 1),
            new Observation.RightCensored(0, 3000, 1)),
        observations.asList());
  }

  @Test
  void groupsAreSortedAndCountLives() {
    LivesTable all = LivesTable.of(sealsOfOnePump());
    SortedMap<List<String>, LivesTable> groups = all.groupBy(List.of("component", "product"));
    assertEquals(
        List.of(
            List.of("bearing", "diesel"),
            List.of("bearing", "petrol"),
            List.of("seal", "diesel"),
            List.of("seal", "petrol"),
            List.of("vanes", "diesel"),
            List.of("vanes", "petrol")),
        List.copyOf(groups.keySet()));
    LivesTable sealsOnDiesel = groups.values().stream().toList().get(2);
    assertEquals(4, sealsOnDiesel.lives());
    assertEquals(2, sealsOnDiesel.failures());
    assertEquals(all.rows(), groups.values().stream().mapToInt(LivesTable::rows).sum());
    assertEquals(1, all.groupBy(List.of()).size());
  }

  @Test
  void groupingByAColumnThatIsNotThereNamesThoseThatAre() {
    String message = refusal(() -> sealTable().groupBy(List.of("colour")));
    assertTrue(message.startsWith("no column 'colour' in the lives table"), message);
    assertTrue(message.contains("component"), message);
  }

  @Test
  void whatIsWrittenReadsBackTheSame() {
    LivesTable table = LivesTable.of(sealsOfOnePump());
    Path file = folder.resolve("out.csv");
    table.write(file);
    LivesTable back = LivesTable.read(file);
    assertEquals(table.columns(), back.columns());
    assertEquals(table.toCsv(), back.toCsv());
    assertEquals(table.observations().asList(), back.observations().asList());
    assertEquals(table.lives(), back.lives());
  }

  @Test
  void blanksMeanWhatTheContractSays() throws IOException {
    LivesTable table =
        LivesTable.read(
            file("entry;lower;upper;count;component\n;100;;;seal\n5;;20;2;seal\n;7;7;;vanes\n"));
    assertRow(table, 0, 0, 100, NEVER);
    assertEquals(5, table.lower(1));
    assertEquals(20, table.upper(1));
    assertEquals(2, table.count(1));
    assertRow(table, 2, 0, 7, 7);
    assertEquals(4, table.lives());
    assertEquals(3, table.failures());
    assertEquals(List.of("component"), table.columns());
  }

  @Test
  void columnsOfNumbersMayBeAbsent() throws IOException {
    LivesTable table = LivesTable.read(file("upper,pump\n30,A\n40,B\n"));
    assertRow(table, 0, 0, 0, 30);
    assertRow(table, 1, 0, 0, 40);
  }

  @Test
  void aTableWithoutAgesIsRefused() throws IOException {
    Path file = file("pump,component\nA,seal\n");
    String message = refusal(() -> LivesTable.read(file));
    assertTrue(message.contains("no column 'lower' or 'upper'"), message);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "-1,5,5,1 | entry -1.0 is negative",
        "5,3,9,1 | lower 3.0 is below entry 5.0",
        "0,9,5,1 | upper 5.0 is below lower 9.0",
        "0,0,0,1 | observation ends at age 0.0",
        "5,5,,1 | observation ends at age 5.0",
        "0,5,5,0 | count 0.0 is not positive",
        "0,5,5,-2 | count -2.0 is not positive",
        "0,NaN,,1 | column 'lower' holds 'NaN'",
        "0,5,Infinity,1 | column 'upper' holds 'Infinity'",
        "0,1e999,,1 | column 'lower' holds '1e999'",
        "0,5d,,1 | column 'lower' holds '5d'",
        "0,0x10,,1 | column 'lower' holds '0x10'",
        "0,\"12,5\",,1 | column 'lower' holds '12,5'",
        "0,5 | the row has 2 cells"
      })
  void aRowThatIsNoObservationIsRefusedWithItsLine(String row, String expected) throws IOException {
    Path file = file("entry,lower,upper,count\n0,1,1,1\n" + row + "\n");
    String message = refusal(() -> LivesTable.read(file));
    assertTrue(message.contains("lives.csv, line 3: " + expected), message);
  }

  @Test
  void textColumnsReadAsNumbers() throws IOException {
    LivesTable table = LivesTable.read(file("lower,pressure_bar,crew\n5,4.5,A\n6,,B\n"));
    assertTrue(table.isNumeric("pressure_bar"));
    assertFalse(table.isNumeric("crew"));
    assertArrayEquals(new double[] {4.5, Double.NaN}, table.numbers("pressure_bar"));
    String message = refusal(() -> table.numbers("crew"));
    assertTrue(message.contains("holds 'A', not a number"), message);
  }

  @Test
  void theTablesawViewIsACopyWithMissingForNotFailed() throws IOException {
    LivesTable lives = LivesTable.read(file("lower,upper,pump,Pump,Entry\n5,,A,x,y\n6,6,B,z,w\n"));
    Table table = lives.toTable();
    assertEquals(
        List.of("pump", "Pump_2", "Entry_2", "entry", "lower", "upper", "count"),
        table.columnNames());
    assertTrue(table.doubleColumn("upper").isMissing(0));
    assertEquals(6, table.doubleColumn("upper").getDouble(1));
    table.doubleColumn("lower").set(0, 99);
    assertEquals(5, lives.lower(0));
  }
}

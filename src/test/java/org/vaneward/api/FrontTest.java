package org.vaneward.api;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.CsvRecord;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.vaneward.io.BadInputException;
import org.vaneward.io.Listing;
import org.vaneward.spares.DemandRequest;
import tech.tablesaw.api.ColumnType;
import tech.tablesaw.api.DoubleColumn;
import tech.tablesaw.api.Table;
import tech.tablesaw.columns.Column;

class FrontTest {
  private static final Path FLEET = Path.of("docs/example-fleet");
  private static final FleetRecords RECORDS = Vaneward.read(FLEET);

  private static PartLives lives(Path folder, String rows) throws IOException {
    Path file = folder.resolve("lives.csv");
    Files.writeString(file, rows);
    return Vaneward.lives(file);
  }

  // ---- records and lives

  @Test
  void filesAddUp() {
    Table files = RECORDS.files();
    for (int i = 0; i < files.rowCount(); i++) {
      assertEquals(
          files.doubleColumn("rows").get(i),
          files.doubleColumn("used").get(i)
              + files.doubleColumn("repaired").get(i)
              + files.doubleColumn("set_aside").get(i));
    }
    assertTrue(files.doubleColumn("rows").sum() > 0);
  }

  @Test
  void componentsShareTheLivesAmongThem() {
    PartLives all = RECORDS.lives();
    long lives = 0;
    long failures = 0;
    for (String component : all.values("component")) {
      PartLives some = all.where("component", component);
      lives += some.count();
      failures += some.failures();
      assertEquals(List.of(component), some.values("component"));
    }
    assertEquals(all.count(), lives);
    assertEquals(all.failures(), failures);
  }

  @Test
  void aTextNoLifeHasIsRefusedWithThoseThatAre() {
    BadInputException refused =
        assertThrows(BadInputException.class, () -> RECORDS.lives().where("component", "impeller"));
    String said = String.valueOf(refused.getMessage());
    assertTrue(said.contains("'impeller'"), said);
    assertTrue(said.contains("seal"), said);
    assertThrows(BadInputException.class, () -> RECORDS.lives().where("colour", "red"));
  }

  @Test
  void confidenceIsAShare() {
    assertThrows(IllegalArgumentException.class, () -> RECORDS.withConfidence(1));
    assertThrows(IllegalArgumentException.class, () -> RECORDS.lives().withConfidence(Double.NaN));
  }

  // ---- one part

  /**
   * Five exact ages of a Weibull, by hand: the exponential's estimate is total time over failures.
   */
  @Test
  void fitsWhatItIsGiven(@TempDir Path folder) throws IOException {
    PartLives lives = lives(folder, "lower,upper\n100,100\n200,200\n300,300\n400,400\n600,\n");
    assertEquals(5, lives.count());
    assertEquals(4, lives.failures());
    Table families = lives.families();
    int exponential = families.stringColumn("distribution").asList().indexOf("exponential");
    assertEquals(400, families.doubleColumn("scale").get(exponential), 1e-9);
    PartFit fit = lives.fit();
    assertEquals(Optional.empty(), fit.notEstimable());
    Figure half = fit.age(0.5);
    assertEquals(0.5, fit.survival(half.estimate()).estimate(), 1e-12);
    assertEquals(Math.exp(-1), fit.survival(fit.scale().estimate()).estimate(), 1e-12);
    assertTrue(half.lower() < half.estimate() && half.estimate() < half.upper());
    Figure wide = lives.withConfidence(0.99).fit().age(0.5);
    assertTrue(wide.lower() < half.lower() && wide.upper() > half.upper());
  }

  @Test
  void saysWhyThereIsNone(@TempDir Path folder) throws IOException {
    PartFit none = lives(folder, "lower,upper\n100,\n200,\n").fit();
    assertTrue(none.notEstimable().isPresent());
    assertTrue(none.toString().contains("not estimable"), none.toString());
    String why =
        String.valueOf(assertThrows(IllegalStateException.class, none::shape).getMessage());
    assertTrue(why.contains(none.notEstimable().orElseThrow()), why);
    assertThrows(IllegalStateException.class, none::survivalCurve);
    assertThrows(IllegalStateException.class, () -> none.bestInterval(1, 2));
  }

  @Test
  void drawsItsLives(@TempDir Path folder) throws IOException {
    PartFit fit = lives(folder, "lower,upper\n100,100\n200,200\n300,300\n400,400\n600,\n").fit();
    Chart paper = fit.probabilityPlot();
    Path file = folder.resolve("paper.svg");
    paper.save(file);
    assertEquals(paper.svg(), Files.readString(file));
    assertTrue(paper.svg().startsWith("<svg"));
    assertTrue(paper.data().rowCount() > 2);
    assertEquals(paper.title() + ". " + paper.words(), paper.toString());
  }

  /** With a shape of 1 age does not matter: no interval can pay. */
  @Test
  void noIntervalPaysWherePartsDoNotAge(@TempDir Path folder) throws IOException {
    PartFit early =
        lives(folder, "lower,upper\n1,1\n5,5\n20,20\n90,90\n400,400\n1700,1700\n").fit();
    assertTrue(early.shape().upper() < 1.5);
    BestInterval best = early.bestInterval(10, 30);
    assertEquals(OptionalDouble.empty(), best.interval());
    assertEquals(0, best.saving());
    assertTrue(best.toString().contains("run to failure"));
    assertThrows(IllegalArgumentException.class, () -> early.bestInterval(0, 30));
    assertThrows(IllegalArgumentException.class, () -> early.bestInterval(10, -1));
    assertThrows(IllegalArgumentException.class, () -> early.age(0));
    assertThrows(IllegalArgumentException.class, () -> early.survival(0));
  }

  /** The interval of least cost costs no more than its neighbours, by the renewal argument. */
  @Test
  void theBestIntervalIsTheCheapest(@TempDir Path folder) throws IOException {
    PartFit fit = lives(folder, "lower,upper\n300,300\n400,400\n500,500\n600,\n").fit();
    double planned = 1000;
    double unplanned = 20_000;
    BestInterval best = fit.bestInterval(planned, unplanned);
    double t = best.interval().orElseThrow();
    assertEquals(
        best.costPerHour(), costPerHour(fit, planned, unplanned, t), 1e-4 * best.costPerHour());
    assertTrue(costPerHour(fit, planned, unplanned, 0.8 * t) > best.costPerHour());
    assertTrue(costPerHour(fit, planned, unplanned, 1.25 * t) > best.costPerHour());
    assertTrue(best.from().orElseThrow() < t && t < best.to().orElseThrow());
    assertTrue(best.runToFailureCostPerHour() > best.costPerHour());
  }

  /**
   * Barlow and Proschan, Mathematical Theory of Reliability (1965), ch. 4: cost over length of a
   * cycle.
   */
  private static double costPerHour(PartFit fit, double planned, double unplanned, double t) {
    int steps = 2000;
    double length = 0;
    for (int i = 0; i < steps; i++) {
      length += t / steps * fit.survival(t * (i + 0.5) / steps).estimate();
    }
    double survives = fit.survival(t).estimate();
    return (planned * survives + unplanned * (1 - survives)) / length;
  }

  // ---- decisions

  @Test
  void decidesLikeTheCommands(@TempDir Path folder) throws IOException {
    Decisions decisions = RECORDS.decide();
    Path page = decisions.report(folder.resolve("report"));
    assertTrue(Files.readString(page).contains(RECORDS.name()));
    assertSame(page, "plan.csv", decisions.plan());
    assertSame(page, "intervals.csv", decisions.intervals());
    assertSame(page, "calendar.csv", decisions.calendar());
    assertSame(page, "failures.csv", decisions.failures().table());
    assertSame(page, "check.csv", RECORDS.remarks());
    assertFalse(decisions.planCharts().isEmpty());
    BadInputException unknown =
        assertThrows(BadInputException.class, () -> decisions.costCurves("milk", "loading"));
    String said = String.valueOf(unknown.getMessage());
    assertTrue(said.contains("'milk'"), said);
    assertThrows(BadInputException.class, () -> decisions.failures().charts("impeller"));
    assertThrows(IllegalArgumentException.class, () -> decisions.spares(0));
    assertThrows(IllegalArgumentException.class, () -> decisions.spares(121));
    Spares ahead = decisions.spares(DemandRequest.MONTHS);
    assertSame(page, "spares.csv", ahead.demand());
    assertSame(page, "budget.csv", ahead.budget());
    assertSame(page, "stock.csv", ahead.stock());
    assertSame(page, "orders.csv", ahead.orders());
    Spares spares = decisions.spares(6);
    assertEquals(6, spares.demand().where(monthOfPlanned(spares.demand())).rowCount());
    assertTrue(spares.stock().rowCount() > 0 && spares.budget().rowCount() > 0);
    assertFalse(spares.charts().isEmpty());
  }

  private static tech.tablesaw.selection.Selection monthOfPlanned(Table demand) {
    return demand
        .stringColumn("scope")
        .isEqualTo("month")
        .and(demand.stringColumn("name").isEqualTo("planned"));
  }

  private static void assertSame(Path page, String file, Table table) throws IOException {
    List<List<String>> rows = new ArrayList<>();
    try (CsvReader<CsvRecord> reader = CsvReader.builder().ofCsvRecord(page.resolveSibling(file))) {
      reader.forEach(row -> rows.add(row.getFields()));
    }
    assertEquals(rows.remove(0), table.columnNames(), file);
    assertEquals(rows.size(), table.rowCount(), file);
    for (int r = 0; r < rows.size(); r++) {
      for (int c = 0; c < table.columnCount(); c++) {
        assertSameCell(rows.get(r).get(c), table.column(c), r, file + ", row " + (r + 1));
      }
    }
  }

  private static void assertSameCell(String written, Column<?> column, int row, String where) {
    String at = where + ", " + column.name();
    if (column.isMissing(row)) {
      assertEquals("", written, at);
    } else if (column instanceof DoubleColumn numbers) {
      assertEquals(Double.parseDouble(written), numbers.getDouble(row), at);
    } else {
      assertEquals(written, String.valueOf(column.get(row)), at);
    }
  }

  // ---- tables

  @Test
  void columnsAreOfTheKindOfTheirCells() {
    Table table =
        Tables.of(
            new Listing(
                "A table",
                List.of("text", "number", "day", "both", "nothing"),
                out -> {
                  out.cell("one").cell(1234.5).cell(LocalDate.of(2026, 1, 2)).cell("x").empty();
                  out.endRow();
                  out.cell("").empty().empty().cell(2L).empty().endRow();
                }));
    assertEquals(
        List.of(
            ColumnType.STRING,
            ColumnType.DOUBLE,
            ColumnType.LOCAL_DATE,
            ColumnType.STRING,
            ColumnType.STRING),
        table.types());
    assertTrue(table.doubleColumn("number").isMissing(1));
    assertTrue(table.dateColumn("day").isMissing(1));
    assertTrue(table.stringColumn("text").isMissing(1));
  }

  @Test
  void numbersPrintToFourDigitsOfTheLargest() {
    Table table =
        Tables.of(
            new Listing(
                "A table",
                List.of("large", "whole", "mixed"),
                out -> {
                  out.cell(1234.6).cell(1_234_567L).cell(12.346).endRow();
                  out.cell(0.25).empty().cell(0.00001).endRow();
                  out.cell(0).cell(0L).cell(0).endRow();
                }));
    assertEquals(List.of("1,235", "0.25", "0"), printed(table, "large"));
    assertEquals(List.of("1,234,567", "", "0"), printed(table, "whole"));
    assertEquals(List.of("12.35", "1e-05", "0"), printed(table, "mixed"));
  }

  private static List<String> printed(Table table, String column) {
    return IntStream.range(0, table.rowCount()).mapToObj(table.column(column)::getString).toList();
  }

  @Test
  void aRowThatIsShortIsRefused() {
    Listing listing = new Listing("A table", List.of("a", "b"), out -> out.cell(1L).endRow());
    assertThrows(IllegalStateException.class, () -> Tables.of(listing));
  }

  @Test
  void htmlEscapesTexts() {
    Table table =
        Tables.of(new Listing("A table", List.of("a<b"), out -> out.cell("<i>&").endRow()));
    String html = Vaneward.html(table);
    assertTrue(html.contains(">a&lt;b</th>"), html);
    assertTrue(html.contains(">&lt;i&gt;&amp;</td>"), html);
  }
}

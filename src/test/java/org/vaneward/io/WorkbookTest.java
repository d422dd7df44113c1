package org.vaneward.io;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Consumer;
import org.dhatim.fastexcel.reader.Cell;
import org.dhatim.fastexcel.reader.CellType;
import org.dhatim.fastexcel.reader.ReadableWorkbook;
import org.dhatim.fastexcel.reader.ReadingOptions;
import org.dhatim.fastexcel.reader.Row;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class WorkbookTest {
  private static final LocalDate DAY = LocalDate.of(2026, 6, 30);

  @Test
  void daysAreDaysAndNumbersAreNumbers() throws IOException {
    List<Row> rows =
        rows(
            book(
                List.of("pump", "next_rebuild", "cost", "share", "count", "nothing"),
                t ->
                    t.cell("P-1")
                        .cell(DAY)
                        .rounded(1234.565, 2)
                        .cell(0.1 + 0.2)
                        .cell(7)
                        .cell(OptionalDouble.empty())
                        .endRow()));
    assertEquals("Next rebuild", rows.get(0).getCellText(1));
    Row row = rows.get(1);
    assertEquals("P-1", row.getCellText(0));
    assertEquals(DAY, row.getCell(1).asDate().toLocalDate());
    assertEquals("yyyy-mm-dd", row.getCell(1).getDataFormatString());
    assertEquals(new BigDecimal("1234.57"), row.getCell(2).asNumber());
    assertEquals("#,##0.00", row.getCell(2).getDataFormatString());
    assertEquals(0.1 + 0.2, row.getCell(3).asNumber().doubleValue());
    assertEquals(7, row.getCell(4).asNumber().intValueExact());
    assertEquals(
        Optional.empty(), row.getOptionalCell(5).filter(c -> c.getType() != CellType.EMPTY));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "=cmd()",
        "+1+2",
        "@SUM(A1)",
        "-3",
        "<script>alert(1)</script>",
        "2026-06-30",
        "12"
      })
  void textStaysText(String text) throws IOException {
    Cell cell = rows(book(List.of("a"), t -> t.cell(text).endRow())).get(1).getCell(0);
    assertEquals(CellType.STRING, cell.getType());
    assertEquals(text, cell.asString());
  }

  @Test
  void theSameSheetsGiveTheSameBytes() throws InterruptedException {
    byte[] one = book(List.of("a"), t -> t.cell("x").endRow());
    // Archives tell times to two seconds.
    Thread.sleep(2100);
    assertArrayEquals(one, book(List.of("a"), t -> t.cell("x").endRow()));
  }

  @Test
  void aRowHasTheHeadersCells() {
    assertThrows(
        IllegalStateException.class, () -> book(List.of("a", "b"), t -> t.cell("x").endRow()));
    assertThrows(
        IllegalStateException.class, () -> book(List.of("a"), t -> t.cell("x").cell("y").endRow()));
    assertThrows(IllegalArgumentException.class, () -> book(List.of("a"), t -> t.cell(Double.NaN)));
  }

  @Test
  void aSheetsNameIsItsOwn() {
    Workbook book = Workbook.of("x", DAY).notes("Plan", List.of("a"));
    assertThrows(IllegalArgumentException.class, () -> book.notes("plan", List.of("b")));
  }

  private static byte[] book(List<String> header, Consumer<TableWriter> rows) {
    return Workbook.of("A title", DAY).table(new Listing("Sheet", header, rows)).bytes();
  }

  private static List<Row> rows(byte[] bytes) throws IOException {
    try (ReadableWorkbook book =
        new ReadableWorkbook(new ByteArrayInputStream(bytes), new ReadingOptions(true, false))) {
      return book.getFirstSheet().read();
    }
  }
}

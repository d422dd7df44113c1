package org.vaneward.io;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTimeoutPreemptively;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;
import java.util.zip.ZipOutputStream;
import org.dhatim.fastexcel.Workbook;
import org.dhatim.fastexcel.Worksheet;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class SheetTableTest {
  @TempDir Path folder;
  private Path file = Path.of("");

  @BeforeEach
  void name() {
    file = folder.resolve("fleet.xlsx");
  }

  private static byte[] workbook(Consumer<Worksheet> fill) throws IOException {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (Workbook book = new Workbook(bytes, "Test", "1.0")) {
      fill.accept(book.newWorksheet("pumps"));
    }
    return bytes.toByteArray();
  }

  private List<TableRow> rows(byte[] workbook, TextForm form) throws IOException {
    Files.write(file, workbook);
    List<TableRow> rows = new ArrayList<>();
    try (SheetTable table =
        SheetTable.open(file, "pumps", "fleet.xlsx [pumps]", form, List.of("pump"))) {
      for (Optional<TableRow> row = table.next(); row.isPresent(); row = table.next()) {
        rows.add(row.get());
      }
    }
    return rows;
  }

  private String refusal(byte[] workbook) throws IOException {
    Files.write(file, workbook);
    return String.valueOf(
        assertThrows(
                BadInputException.class,
                () ->
                    SheetTable.open(
                        file, "pumps", "fleet.xlsx [pumps]", TextForm.plain(), List.of("pump")))
            .getMessage());
  }

  @Test
  void daysNumbersAndTruthAreWhatTheyAre() throws IOException {
    List<TableRow> rows =
        rows(
            workbook(
                sheet -> {
                  List<String> header = List.of("pump", "day", "time", "hours", "primary", "year");
                  for (int c = 0; c < header.size(); c++) {
                    sheet.value(0, c, header.get(c));
                  }
                  sheet.value(3, 0, "P1");
                  sheet.value(3, 1, LocalDate.of(2024, 2, 29));
                  sheet.style(3, 1).format("d mmm yyyy").set();
                  sheet.value(3, 2, LocalDateTime.of(2024, 3, 31, 23, 59));
                  sheet.style(3, 2).format("yyyy-mm-dd hh:mm").set();
                  sheet.value(3, 3, new BigDecimal("0.1"));
                  sheet.value(3, 4, true);
                  sheet.value(3, 5, 2024);
                  sheet.style(3, 5).format("&quot;year &quot;0").set();
                  sheet.value(4, 0, 101);
                  sheet.formula(4, 3, "1/0");
                }),
            TextForm.plain());
    TableRow first = rows.get(0);
    assertEquals(4, first.line());
    assertEquals(
        List.of("P1", "2024-02-29", "2024-03-31", "0.1", "yes", "2024"),
        first.header().columns().stream().map(first::cell).toList());
    assertTrue(first.isTyped(1) && first.isTyped(3) && !first.isTyped(0));
    assertEquals("101", rows.get(1).cell("pump"));
    assertEquals("", rows.get(1).cell("hours"), "a formula is never computed");
    assertEquals(2, rows.size());
  }

  @Test
  void theHeaderMayStandFurtherDownAndIsCalledByNumbersWhereItHasNoName() throws IOException {
    List<TableRow> rows =
        rows(
            workbook(
                sheet -> {
                  sheet.value(0, 0, "Pump list");
                  sheet.value(2, 0, "pump");
                  sheet.value(2, 2, "pump");
                  sheet.value(3, 0, "P1");
                  sheet.value(3, 1, "b");
                  sheet.value(3, 2, "c");
                }),
            new TextForm(Optional.empty(), Optional.empty(), 3, true));
    assertEquals(List.of("pump", "#2", "#3"), rows.get(0).header().columns());
    assertEquals("c", rows.get(0).cell("#3"));
  }

  @Test
  void aCellBesideTheHeaderIsAProblemOfItsRow() throws IOException {
    List<TableRow> rows =
        rows(
            workbook(
                sheet -> {
                  sheet.value(0, 0, "pump");
                  sheet.value(1, 0, "P1");
                  sheet.value(1, 3, "stray");
                }),
            TextForm.plain());
    assertEquals(
        "the row has something in column 4, which the header does not name",
        rows.get(0).problem().orElseThrow());
  }

  @Test
  void whatIsNoSheetOrNoWorkbookIsRefused() throws IOException {
    byte[] good = workbook(sheet -> sheet.value(0, 0, "pump"));
    Files.write(file, good);
    assertEquals(List.of("pumps"), SheetTable.sheets(file, "fleet.xlsx"));
    assertEquals(
        "fleet.xlsx [x]: no sheet 'x'; the workbook has: pumps",
        assertThrows(
                BadInputException.class,
                () -> SheetTable.open(file, "x", "fleet.xlsx [x]", TextForm.plain(), List.of()))
            .getMessage());
    String damaged =
        "fleet.xlsx [pumps]: no workbook (.xlsx), or a damaged one; save it again as .xlsx";
    assertEquals(damaged, refusal("no archive".getBytes(StandardCharsets.UTF_8)));
    assertEquals(damaged, refusal(new byte[0]));
    assertEquals(damaged, refusal(Arrays.copyOf(good, good.length / 2)));
    assertEquals(
        "fleet.xlsx [pumps]: empty; row 1 must name the columns pump", refusal(workbook(s -> {})));
  }

  @Test
  void aPartThatUnpacksToFarMoreThanItSaysIsRefused() throws IOException {
    byte[] bomb =
        with(
            workbook(sheet -> sheet.value(0, 0, "pump")),
            "xl/media/x.xml",
            out -> {
              byte[] blanks = new byte[1 << 20];
              Arrays.fill(blanks, (byte) ' ');
              for (int i = 0; i < 100; i++) {
                out.write(blanks);
              }
            });
    String message = assertTimeoutPreemptively(Duration.ofSeconds(20), () -> refusal(bomb));
    assertTrue(message.contains("unpacks to more than a table should (64 MiB"), message);
  }

  @Test
  void entitiesAreNotExpanded() throws IOException {
    StringBuilder text =
        new StringBuilder("<?xml version=\"1.0\"?><!DOCTYPE sst [<!ENTITY a \"aaaaaaaaaa\">");
    for (char c = 'b'; c < 'l'; c++) {
      char before = (char) (c - 1);
      text.append("<!ENTITY ").append(c).append(" \"");
      text.append(("&" + before + ";").repeat(10)).append("\">");
    }
    text.append("]><sst><si><t>&k;</t></si></sst>");
    byte[] laughing =
        with(
            workbook(sheet -> sheet.value(0, 0, "pump")),
            "xl/sharedStrings.xml",
            out -> out.write(text.toString().getBytes(StandardCharsets.UTF_8)));
    assertTrue(refusal(laughing).contains("declares a document type"), refusal(laughing));
    // Behind a comment longer than the guard looks, the parser itself has to hold.
    String hidden =
        text.toString().replace("<!DOCTYPE", "<!--" + " ".repeat(200_000) + "--><!DOCTYPE");
    byte[] further =
        with(
            workbook(sheet -> sheet.value(0, 0, "pump")),
            "xl/sharedStrings.xml",
            out -> out.write(hidden.getBytes(StandardCharsets.UTF_8)));
    String message = assertTimeoutPreemptively(Duration.ofSeconds(20), () -> refusal(further));
    assertTrue(message.length() < 300 && !message.contains("aaaaaaaaaa"), message);
  }

  private interface Part {
    void writeTo(OutputStream out) throws IOException;
  }

  /** The archive with one part put in, or in the place of one. */
  private byte[] with(byte[] archive, String name, Part part) throws IOException {
    Path before = folder.resolve("before.xlsx");
    Files.write(before, archive);
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (ZipFile in = new ZipFile(before.toFile());
        ZipOutputStream out = new ZipOutputStream(bytes)) {
      for (ZipEntry entry : Collections.list(in.entries())) {
        if (!entry.getName().equals(name)) {
          out.putNextEntry(new ZipEntry(entry.getName()));
          in.getInputStream(entry).transferTo(out);
        }
      }
      out.putNextEntry(new ZipEntry(name));
      part.writeTo(out);
    }
    return bytes.toByteArray();
  }
}

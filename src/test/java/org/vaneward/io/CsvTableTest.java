package org.vaneward.io;

import static java.nio.charset.StandardCharsets.ISO_8859_1;
import static java.nio.charset.StandardCharsets.UTF_16LE;
import static java.nio.charset.StandardCharsets.UTF_8;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.zip.GZIPOutputStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class CsvTableTest {
  private static final List<String> NEED = List.of("pump", "site");

  @TempDir Path folder;

  private List<TableRow> rows(byte[] content) throws IOException {
    Path file = Files.write(folder.resolve("pumps.csv"), content);
    List<TableRow> rows = new ArrayList<>();
    try (CsvTable table = CsvTable.open(file, "pumps.csv", NEED)) {
      for (Optional<TableRow> row = table.next(); row.isPresent(); row = table.next()) {
        rows.add(row.get());
      }
      assertTrue(table.next().isEmpty(), "the end stays the end");
    }
    return rows;
  }

  private List<TableRow> rows(String content) throws IOException {
    return rows(content.getBytes(UTF_8));
  }

  private String refusal(byte[] content) {
    BadInputException refused = assertThrows(BadInputException.class, () -> rows(content));
    String message = String.valueOf(refused.getMessage());
    assertEquals(1, message.lines().count(), message);
    return message;
  }

  private String refusal(String content) {
    return refusal(content.getBytes(UTF_8));
  }

  private static List<String> shown(List<TableRow> rows) {
    return rows.stream()
        .map(
            row ->
                row.line()
                    + ":"
                    + row.problem().orElseGet(() -> row.cell("pump") + "|" + row.cell("site")))
        .toList();
  }

  @Test
  void linesAreTheFilesOwnAcrossBlankLinesAndMultiLineCells() throws IOException {
    String text = "\npump,site\nP1,North\n\n\n\"P\n2\",\"So\r\nuth\"\nP3,\"He said \"\"no\"\"\"";
    assertEquals(
        List.of("3:P1|North", "6:P\n2|So\r\nuth", "9:P3|He said \"no\""), shown(rows(text)));
  }

  @ParameterizedTest
  @ValueSource(strings = {"\n", "\r\n", "\r"})
  void everyLineEndCounts(String end) throws IOException {
    String text = String.join(end, "pump,site", "P1,North", "", "P2,South", "");
    assertEquals(List.of("2:P1|North", "4:P2|South"), shown(rows(text)));
  }

  @ParameterizedTest
  @ValueSource(strings = {",", ";", "\t"})
  void theHeaderSaysTheSeparator(String separator) throws IOException {
    String text = String.join(separator, "site", "pump") + "\n" + String.join(separator, "N", "P1");
    assertEquals(List.of("2:P1|N"), shown(rows(text)));
  }

  @Test
  void aSeparatorInsideAQuotedNameDoesNotMislead() throws IOException {
    assertEquals(List.of("2:P1|N"), shown(rows("pump;site;\"a,b,c,d,e\"\nP1;N;x\n")));
  }

  @Test
  void byteOrderMarkIsNoPartOfTheFirstName() throws IOException {
    assertEquals(List.of("2:P1|N"), shown(rows("\uFEFFpump,site\nP1,N\n")));
  }

  @Test
  void aLineThatBeginsWithAHashIsARow() throws IOException {
    assertEquals(List.of("2:#3|N"), shown(rows("pump,site\n#3,N\n")));
  }

  @Test
  void tooFewAndTooManyCellsAreAProblemOfTheRow() throws IOException {
    assertEquals(
        List.of(
            "2:the row has 1 cells where the header has 2 columns",
            "3:the row has 3 cells where the header has 2 columns",
            "4:P1|N"),
        shown(rows("pump,site\nP1\nP1,N,x\nP1,N\n")));
  }

  @Test
  void trailingColumnsWithoutNameMayStayBlank() throws IOException {
    assertEquals(
        List.of("2:P1|N", "3:P2|N", "4:the row has 4 cells where the header has 2 columns"),
        shown(rows("pump,site,,\nP1,N,,\nP2,N\nP3,N,,x\n")));
  }

  @Test
  void aLoneQuotedCellWithALineBreakIsARow() throws IOException {
    String text = "pump,site\n\"P\r1\"\n\"P\n2\"\n\nP3\n";
    String tooFew = "the row has 1 cells where the header has 2 columns";
    assertEquals(List.of("2:" + tooFew, "4:" + tooFew, "7:" + tooFew), shown(rows(text)));
  }

  @Test
  void aColumnThatIsNotThereIsBlank() throws IOException {
    TableRow row = rows("pump,site\nP1,N\n").get(0);
    assertEquals("", row.cell("model"));
    assertFalse(row.header().has("model"));
    assertEquals(List.of("pump", "site"), row.header().columns());
  }

  @Test
  void headersThatWillNotDo() {
    assertEquals("pumps.csv: empty; line 1 must name the columns pump, site", refusal(new byte[0]));
    assertEquals("pumps.csv: empty; line 1 must name the columns pump, site", refusal("\n\n\n"));
    assertEquals(
        "pumps.csv, line 1: no column 'site'; the header has: pump, place",
        refusal("pump,place\nP1,N\n"));
    assertEquals(
        "pumps.csv, line 1: no column 'pump'; the header has: P1, North",
        refusal("P1,North\nP2,South\n"));
    assertEquals(
        "pumps.csv, line 1: column 'pump' stands twice, as column 1 and 3; every name must stand"
            + " once",
        refusal("pump,site,pump\n"));
    assertEquals(
        "pumps.csv, line 1: column 2 has no name; every column needs one", refusal("pump,,site\n"));
    assertEquals(
        "pumps.csv, line 1: the header has 1200 columns; at most 1000",
        refusal("pump,site" + ",x".repeat(1198) + "\n"));
  }

  @Test
  void bytesThatAreNoUtf8AreRefusedWithTheirLine() {
    assertEquals(
        "pumps.csv, line 3: not text in UTF-8 (byte 0xF8); save the file as UTF-8",
        refusal("pump,site\nP1,N\nP2,Søndre\n".getBytes(ISO_8859_1)));
    assertEquals(
        "pumps.csv, line 1: holds the control character 0, so it is no text in UTF-8; save the file"
            + " as UTF-8",
        refusal("pump,site\n".getBytes(UTF_16LE)));
    byte[] cut = "pump,site\nP1,é".getBytes(UTF_8);
    assertEquals(
        "pumps.csv, line 2: not text in UTF-8 (byte 0xC3); save the file as UTF-8",
        refusal(Arrays.copyOf(cut, cut.length - 1)));
  }

  @Test
  void malformedBytesFarDownTheFileKeepTheirLine() {
    byte[] text = ("pump,site\n" + "P1,Nørre\r\n".repeat(20_000) + "P2,X\n").getBytes(UTF_8);
    text[text.length - 2] = (byte) 0xFF;
    assertEquals(
        "pumps.csv, line 20002: not text in UTF-8 (byte 0xFF); save the file as UTF-8",
        refusal(text));
  }

  @Test
  void controlCharactersAreNoText() {
    assertEquals(
        "pumps.csv, line 2: holds the control character 0, so it is no text in UTF-8; save the file"
            + " as UTF-8",
        refusal("pump,site\nP1,\0\n"));
  }

  @Test
  void aQuoteLeftOpenNamesTheRowItBeganIn() {
    assertEquals(
        "pumps.csv, line 3: a quote opened in the row that begins here is never closed",
        refusal("pump,site\nP1,N\nP2,\"South\nP3,N\n"));
    assertEquals(
        "pumps.csv, line 2: a quote opened in the row that begins here is never closed",
        refusal("pump,site\n\"P2\"\",N\n"));
    assertEquals(
        "pumps.csv, line 1: a quote opened in the row that begins here is never closed",
        refusal("pump,\"site\n"));
  }

  @Test
  void textAfterAClosingQuoteIsRefused() {
    assertEquals(
        "pumps.csv, line 2: the row that begins here is not CSV: a quote in it is neither closed"
            + " nor doubled, or a cell is longer than 1048576 characters",
        refusal("pump,site\nP1,\"N\"orth\n"));
  }

  @Test
  void aCellOfTenMegabytesIsOneLine() {
    String big = "x".repeat(10_000_000);
    assertTrue(refusal("pump,site\nP1,N\nP2," + big + "\n").startsWith("pumps.csv, line 3: "));
    assertTrue(refusal("pump,site\nP1,\"" + big + "\n").startsWith("pumps.csv, line 2: "));
    assertTrue(refusal(big).startsWith("pumps.csv, line 1: "));
  }

  @Test
  void aRowOfTenMegabytesOfCellsIsAProblemOfTheRow() throws IOException {
    String commas = ",".repeat(5_000_000);
    String wide = "x".repeat(1_000_000) + ",";
    assertEquals(
        List.of(
            "2:the row has 5000001 cells where the header has 2 columns",
            "3:the row is longer than 4194304 characters",
            "4:P1|N"),
        shown(rows("pump,site\n" + commas + "\n" + wide.repeat(10) + "\nP1,N\n")));
  }

  @Test
  void aFolderOrMissingFileIsOneLine() throws IOException {
    Files.createDirectory(folder.resolve("x.csv"));
    assertEquals("x.csv: cannot be read; is it a file you may read?", notOpened("x.csv"));
    assertEquals("y.csv: no such file", notOpened("y.csv"));
  }

  private String notOpened(String name) {
    String message =
        assertThrows(BadInputException.class, () -> CsvTable.open(folder.resolve(name), name, NEED))
            .getMessage();
    return message == null ? "" : message;
  }

  @Test
  void aPackedFileThatEndsTooEarlyLosesNothingInSilence() throws IOException {
    ByteArrayOutputStream packed = new ByteArrayOutputStream();
    try (OutputStream out = new GZIPOutputStream(packed)) {
      for (int i = 0; i < 20_000; i++) {
        out.write(("P" + i * 7919L % 20_011 + ",North\n").getBytes(UTF_8));
      }
    }
    byte[] whole = packed.toByteArray();
    Path file = folder.resolve("pumps.csv.gz");
    for (int length : new int[] {0, 5, whole.length / 2, whole.length - 1}) {
      Files.write(file, Arrays.copyOf(whole, length));
      BadInputException refused =
          assertThrows(
              BadInputException.class,
              () -> {
                try (CsvTable table = CsvTable.open(file, "pumps.csv.gz", List.of())) {
                  Optional<TableRow> row = table.next();
                  while (row.isPresent()) {
                    row = table.next();
                  }
                }
              });
      assertEquals(
          "pumps.csv.gz: cannot be unpacked; it ends too early or is damaged, so pack or copy it"
              + " again",
          refused.getMessage(),
          "cut to " + length);
    }
  }

  @Test
  void aLineThatNamesTheSeparatorIsNoHeader() throws IOException {
    assertEquals(List.of("3:P1|No,rth"), shown(rows("sep=;\npump;site\nP1;No,rth\n")));
    assertEquals(List.of("3:P1|North"), shown(rows("sep=|\r\npump|site\r\nP1|North\r\n")));
    assertEquals(List.of("6:P1|North"), shown(rows("\n \t\r\n\nsep=;\npump;site\nP1;North\n")));
  }

  @Test
  void aStatedSeparatorBeatsWhatTheHeaderShows() throws IOException {
    Path file = Files.writeString(folder.resolve("a.csv"), "pump,a;b|site\nP,1;2|North\n");
    TextForm form = new TextForm(Optional.empty(), Optional.of('|'), 1, true);
    try (CsvTable table = CsvTable.open(file, "a.csv", form, List.of("site"))) {
      TableRow row = table.next().orElseThrow();
      assertEquals("P,1;2", row.cell("pump,a;b"));
      assertEquals("North", row.cell("site"));
    }
  }
}

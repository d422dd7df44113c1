package org.vaneward.io;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class TextHeadTest {
  private static final String TEXT = "Anlage;Maßnahme\nPU 1;geprüft, für gut befunden\n";

  @TempDir Path folder;

  private TextHead head(byte[] bytes) throws IOException {
    Path file = folder.resolve("a.csv");
    Files.write(file, bytes);
    return TextHead.of(file, "a.csv");
  }

  @ParameterizedTest
  @CsvSource({
    "UTF-8, BYTES, UTF-8",
    "UTF-16, MARK, UTF-16BE",
    "UTF-16LE, BYTES, UTF-16LE",
    "UTF-16BE, BYTES, UTF-16BE",
    "windows-1252, LETTERS, windows-1252",
    "ISO-8859-1, LETTERS, windows-1252",
    "IBM850, LETTERS, IBM850"
  })
  void theBytesTellTheEncoding(String written, TextHead.Sign sign, String found)
      throws IOException {
    TextHead head = head(TEXT.getBytes(Charset.forName(written)));
    assertEquals(sign, head.sign());
    assertEquals(Charset.forName(found), head.charset());
    assertEquals(TEXT.lines().toList(), head.lines());
    assertEquals(List.of("ß", "ü"), head.foreign());
  }

  @Test
  void aLetterFarDownCounts() throws IOException {
    String text = "a,b\n" + "1,2\n".repeat(50_000) + "3,größer\n";
    assertEquals(
        Charset.forName("windows-1252"),
        head(text.getBytes(Charset.forName("windows-1252"))).charset());
    assertEquals(TextHead.Sign.ASCII, head("a,b\n".getBytes(StandardCharsets.US_ASCII)).sign());
  }

  @Test
  void rowsKeepTheirLines() throws IOException {
    TextHead head = head("Title; \"of old\n\na;\"b;c\"\n1;2\n".getBytes(StandardCharsets.UTF_8));
    List<HeadRow> rows = head.rows(';');
    assertEquals(new HeadRow(3, List.of("a", "b;c")), rows.get(1));
    assertEquals(new HeadRow(4, List.of("1", "2")), rows.get(2));
  }

  @Test
  void bytesThatAreNoTextAreRefused() {
    BadInputException refused =
        assertThrows(BadInputException.class, () -> head(new byte[] {'a', 1, 2, 3, (byte) 0x81}));
    assertTrue(String.valueOf(refused.getMessage()).startsWith("a.csv, line 1: "));
  }
}

package org.vaneward.io;

import static org.vaneward.fuzz.Reading.must;

import java.io.IOException;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import org.vaneward.fuzz.FuzzTarget;
import org.vaneward.fuzz.Reading;
import org.vaneward.fuzz.RowCount;
import org.vaneward.fuzz.ScratchFolder;

/**
 * CSV in any form. Four characters say which ({@code 8,1f} is UTF-8 with commas, the header on line
 * 1, foreign; {@code 8.1o} leaves the separator open and is this program's own), then follows the
 * text.
 */
public final class CsvTableFuzz implements FuzzTarget {
  private static final String ENCODINGS = "8wulsjev";
  private static final List<Charset> CHARSETS =
      List.of(
          StandardCharsets.UTF_8,
          Charset.forName("windows-1252"),
          StandardCharsets.UTF_16,
          StandardCharsets.UTF_16LE,
          Charset.forName("Shift_JIS"),
          Charset.forName("ISO-2022-JP"),
          Charset.forName("IBM500"),
          Charset.forName("GB18030"));
  private static final int FORM_LENGTH = 4;

  private final ScratchFolder folder = new ScratchFolder();

  @Override
  public boolean reads(byte[] input) throws IOException {
    byte[] head = Arrays.copyOf(input, FORM_LENGTH);
    byte[] text = Arrays.copyOfRange(input, Math.min(input.length, FORM_LENGTH), input.length);
    TextForm form = form(head);
    Path file = folder.write("table.csv", text);
    return Reading.ends(
        () -> {
          long rows = rows(CsvTable.open(file, "table.csv", form, List.of("a")));
          OptionalLong expected =
              RowCount.csv(text, charset(form), form.separator(), form.headerLine());
          must(
              expected.orElse(rows) == rows,
              rows + " rows where there are " + expected.orElse(rows));
        });
  }

  private static Charset charset(TextForm form) {
    return form.charset().orElse(StandardCharsets.UTF_8);
  }

  private static TextForm form(byte[] head) {
    int encoding = Math.max(0, ENCODINGS.indexOf(head[0]));
    boolean open = ",;\t| ".indexOf(head[1]) < 0;
    return head[3] == 'o'
        ? TextForm.plain()
        : new TextForm(
            Optional.of(CHARSETS.get(encoding)),
            open ? Optional.empty() : Optional.of((char) head[1]),
            1 + Math.floorMod(head[2] - '1', 9),
            true);
  }

  /** Rows of a table read to its end, which stand on lines that rise. */
  static long rows(TableRows table) {
    try (table) {
      long rows = 0;
      long before = 0;
      for (Optional<TableRow> row = table.next(); row.isPresent(); row = table.next()) {
        long line = row.get().line();
        must(line > before, "line " + line + " after line " + before);
        before = line;
        rows++;
      }
      return rows;
    }
  }
}

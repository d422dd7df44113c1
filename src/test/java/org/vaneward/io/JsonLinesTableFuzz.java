package org.vaneward.io;

import static org.vaneward.fuzz.Reading.must;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.vaneward.fuzz.FuzzTarget;
import org.vaneward.fuzz.Reading;
import org.vaneward.fuzz.RowCount;
import org.vaneward.fuzz.ScratchFolder;

/** JSON Lines, with rows within rows under the key {@code n}. */
public final class JsonLinesTableFuzz implements FuzzTarget {
  private final ScratchFolder folder = new ScratchFolder();

  @Override
  public boolean reads(byte[] input) throws IOException {
    Path file = folder.write("table.jsonl", input);
    return Reading.ends(
        () -> {
          long rows = 0;
          try (TableRows table =
              JsonLinesTable.open(file, "table.jsonl", TextForm.plain(), List.of("a"))) {
            for (Optional<TableRow> row = table.next(); row.isPresent(); row = table.next()) {
              rows++;
              nestedStandOnTheSameLine(row.get());
            }
          }
          long expected = RowCount.jsonLines(input, StandardCharsets.UTF_8);
          must(rows == expected, rows + " rows where there are " + expected);
        });
  }

  private static void nestedStandOnTheSameLine(TableRow row) {
    must(
        row.problem().isEmpty() || row.nested("n").isEmpty(),
        "a row that is none has rows within it");
    for (TableRow nested : row.nested("n")) {
      must(nested.line() == row.line(), "a row within another on line " + nested.line());
    }
  }
}

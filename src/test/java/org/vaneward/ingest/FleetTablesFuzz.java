package org.vaneward.ingest;

import static org.vaneward.fuzz.Reading.must;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import org.vaneward.fuzz.FuzzTarget;
import org.vaneward.fuzz.Reading;
import org.vaneward.fuzz.RowCount;
import org.vaneward.fuzz.ScratchFolder;
import org.vaneward.fuzz.Sections;

/**
 * A fleet whose {@code fleet.json} is good. The input holds tables, each after a line {@code ===
 * name}, that stand in the place of those of {@link FleetFolder}.
 */
public final class FleetTablesFuzz implements FuzzTarget {
  private final ScratchFolder folder = new ScratchFolder();

  @Override
  public boolean reads(byte[] input) throws IOException {
    Map<String, byte[]> tables = Sections.of(input);
    FleetFolder fleet = withTables(new FleetFolder(folder.path()), tables);
    return Reading.ends(() -> countsMatch(AccountedFleet.read(fleet), tables));
  }

  /** The fleet with tables put in the place of its own, as CSV or as JSON Lines. */
  static FleetFolder withTables(FleetFolder fleet, Map<String, byte[]> tables) {
    for (Table table : Table.values()) {
      String csv = table.title() + ".csv";
      String lines = table.title() + ".jsonl";
      if (tables.containsKey(lines)) {
        fleet.without(csv).with(lines, tables.getOrDefault(lines, new byte[0]));
      }
      if (tables.containsKey(csv)) {
        fleet.with(csv, tables.getOrDefault(csv, new byte[0]));
      }
    }
    return fleet;
  }

  private static void countsMatch(Ingested ingested, Map<String, byte[]> tables) {
    ingested
        .rowsRead()
        .forEach(
            (file, rows) -> {
              byte[] bytes = tables.get(file);
              if (bytes != null) {
                long expected = rows(file, bytes).orElse(rows);
                must(rows == expected, file + ": " + rows + " rows where there are " + expected);
              }
            });
  }

  private static OptionalLong rows(String file, byte[] bytes) {
    return file.endsWith(".jsonl")
        ? OptionalLong.of(RowCount.jsonLines(bytes, StandardCharsets.UTF_8))
        : RowCount.csv(bytes, StandardCharsets.UTF_8, Optional.empty(), 1);
  }
}

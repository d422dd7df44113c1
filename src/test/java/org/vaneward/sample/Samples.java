package org.vaneward.sample;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalLong;
import java.util.concurrent.ConcurrentHashMap;

/** The committed scenarios, and rows by column name, for tests. */
final class Samples {
  static final Path SEEDS = Path.of("seeds");
  static final Path SIX = SEEDS.resolve("depots-six.json");
  static final Path PLAIN = SEEDS.resolve("depots-plain.json");
  static final Path SMALL = SEEDS.resolve("small-terminal.json");

  private static final Map<Path, SampledFleet> DRAWN = new ConcurrentHashMap<>();

  private Samples() {}

  static SampledFleet draw(Path scenario) {
    return DRAWN.computeIfAbsent(scenario, s -> Sample.draw(s, OptionalLong.empty()));
  }

  static List<Map<String, String>> rows(SampledFleet fleet, String file) {
    SampleTable table = fleet.table(file);
    List<Map<String, String>> rows = new ArrayList<>();
    for (List<String> cells : table.rows()) {
      Map<String, String> row = new LinkedHashMap<>();
      for (int i = 0; i < cells.size(); i++) {
        row.put(table.header().get(i), cells.get(i));
      }
      rows.add(row);
    }
    return rows;
  }

  static String cell(Map<String, String> row, String column) {
    String value = row.get(column);
    if (value == null) {
      throw new IllegalArgumentException("no column " + column);
    }
    return value;
  }
}

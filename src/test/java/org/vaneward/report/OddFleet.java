package org.vaneward.report;

import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalLong;
import java.util.TreeMap;
import java.util.function.Consumer;
import java.util.function.Predicate;
import java.util.function.UnaryOperator;
import org.vaneward.io.CsvTable;
import org.vaneward.io.CsvWriter;
import org.vaneward.io.SafeFiles;
import org.vaneward.io.TableRow;
import org.vaneward.sample.Sample;

/** The small terminal's records, to be made odd in one place at a time. */
final class OddFleet {
  static final String PUMPS = "pumps";
  static final String SERVICES = "services";
  static final String READINGS = "readings";
  static final String REBUILDS = "rebuilds";
  static final String FINDINGS = "findings";

  private static final List<String> TABLES = List.of(PUMPS, SERVICES, READINGS, REBUILDS, FINDINGS);
  private static final ObjectMapper MAPPER = new ObjectMapper();

  private final ObjectNode settings;
  private final Map<String, List<String>> headers = new TreeMap<>();
  private final Map<String, List<Map<String, String>>> rows = new TreeMap<>();

  private OddFleet(Path folder) {
    try {
      settings = (ObjectNode) MAPPER.readTree(Files.readString(folder.resolve("fleet.json")));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    TABLES.forEach(table -> read(folder, table));
  }

  /** Draws the small terminal into {@code folder} and takes it up. */
  static OddFleet drawn(Path folder) {
    Sample.write(Path.of("seeds", "small-terminal.json"), folder, OptionalLong.empty());
    return new OddFleet(folder);
  }

  private void read(Path folder, String table) {
    List<Map<String, String>> read = new ArrayList<>();
    String name = table + ".csv";
    try (CsvTable csv = CsvTable.open(folder.resolve(name), name, List.of())) {
      for (var row = csv.next(); row.isPresent(); row = csv.next()) {
        TableRow one = row.get();
        headers.putIfAbsent(table, one.header().columns());
        Map<String, String> cells = new LinkedHashMap<>();
        one.header().columns().forEach(column -> cells.put(column, one.cell(column)));
        read.add(cells);
      }
    }
    rows.put(table, read);
  }

  /** Changes {@code fleet.json}. */
  OddFleet settings(Consumer<ObjectNode> change) {
    change.accept(settings);
    return this;
  }

  /** Leaves entries of {@code fleet.json} out. */
  OddFleet without(String... keys) {
    return settings(json -> json.remove(List.of(keys)));
  }

  /** An array of {@code fleet.json}. */
  ArrayNode array(String key) {
    return (ArrayNode) settings.get(key);
  }

  /** The rows of a table, to change at will. */
  List<Map<String, String>> rows(String table) {
    return rows.getOrDefault(table, List.of());
  }

  /** Writes {@code value} into a column of every row. */
  OddFleet fill(String table, String column, String value) {
    return change(table, column, old -> value);
  }

  OddFleet change(String table, String column, UnaryOperator<String> change) {
    rows(table)
        .forEach(row -> row.compute(column, (c, old) -> change.apply(old == null ? "" : old)));
    return this;
  }

  OddFleet keep(String table, Predicate<Map<String, String>> which) {
    rows(table).removeIf(which.negate());
    return this;
  }

  OddFleet empty(String... tables) {
    List.of(tables).forEach(table -> rows(table).clear());
    return this;
  }

  /** Gives a pump another tag wherever it stands. */
  OddFleet rename(String from, String to) {
    for (String table : List.of(PUMPS, SERVICES, READINGS, REBUILDS)) {
      change(table, "pump", tag -> tag.equals(from) ? to : tag);
    }
    return this;
  }

  /** Adds copies of every pump and its rows until there are {@code times} as many. */
  OddFleet times(int times) {
    for (String table : TABLES) {
      List<Map<String, String>> once = List.copyOf(rows(table));
      for (int copy = 1; copy < times; copy++) {
        for (Map<String, String> row : once) {
          Map<String, String> other = new LinkedHashMap<>(row);
          String suffix = "-" + copy;
          other.computeIfPresent("pump", (c, tag) -> tag + suffix);
          other.computeIfPresent("rebuild", (c, number) -> number + suffix);
          rows(table).add(other);
        }
      }
    }
    return this;
  }

  /** Writes the six files. */
  Path write(Path folder) {
    SafeFiles.write(folder.resolve("fleet.json"), settings.toPrettyString());
    for (String table : TABLES) {
      List<String> columns = headers.getOrDefault(table, List.of());
      CsvWriter csv = CsvWriter.forMachines(columns.toArray(new String[0]));
      for (Map<String, String> row : rows(table)) {
        columns.forEach(column -> csv.cell(row.getOrDefault(column, "")));
        csv.endRow();
      }
      SafeFiles.write(folder.resolve(table + ".csv"), csv.text());
    }
    return folder;
  }
}

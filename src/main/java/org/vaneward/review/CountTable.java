package org.vaneward.review;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.vaneward.io.BadInputException;
import org.vaneward.io.Cell;
import org.vaneward.io.CsvTable;
import org.vaneward.io.Numbers;
import org.vaneward.io.TableRow;

/**
 * Reads a table of counts: {@code unit}, {@code count} and {@code exposure}, one row for each unit.
 */
final class CountTable {
  /**
   * How often something happened to one unit.
   *
   * @param unit its name
   * @param count how often
   * @param exposure over how long, positive
   */
  record UnitCount(String unit, long count, double exposure) {}

  private static final double MOST = 1e9;

  private final String name;
  private final List<UnitCount> counts = new ArrayList<>();
  private final Map<String, Long> lines = new HashMap<>();

  private CountTable(String name) {
    this.name = name;
  }

  /**
   * The counts in a file, in its order.
   *
   * @throws BadInputException when the file cannot be read, lacks a column, or a row makes no count
   */
  static List<UnitCount> read(Path file) {
    String name = file.toString();
    try (CsvTable csv = CsvTable.open(file, name, List.of("unit", "count", "exposure"))) {
      CountTable table = new CountTable(name);
      for (Optional<TableRow> row = csv.next(); row.isPresent(); row = csv.next()) {
        table.add(row.get());
      }
      if (table.counts.isEmpty()) {
        throw new BadInputException(name + " has no rows; a review needs a row for each unit");
      }
      return List.copyOf(table.counts);
    }
  }

  private void add(TableRow row) {
    if (row.problem().isPresent()) {
      throw bad(row, row.problem().get());
    }
    String unit = row.cell("unit").strip();
    if (unit.isEmpty()) {
      throw bad(row, "column 'unit' is blank; it names the unit");
    }
    Long before = lines.putIfAbsent(unit, row.line());
    if (before != null) {
      throw bad(
          row,
          "unit " + Cell.quoted(unit) + " stands on line " + before + " already; one row is right");
    }
    double count = Numbers.of(name, row, "count", Double.NaN);
    if (!(count >= 0 && count <= MOST && count == Math.rint(count))) {
      throw bad(row, "column 'count' holds no whole number of at least 0");
    }
    double exposure = Numbers.of(name, row, "exposure", Double.NaN);
    if (!(exposure > 0)) {
      throw bad(row, "column 'exposure' holds no positive number; hours watched would be right");
    }
    counts.add(new UnitCount(unit, Math.round(count), exposure));
  }

  private BadInputException bad(TableRow row, String what) {
    return new BadInputException(name + ", line " + row.line() + ": " + what);
  }
}

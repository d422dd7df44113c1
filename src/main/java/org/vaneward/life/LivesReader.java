package org.vaneward.life;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.vaneward.io.BadInputException;
import org.vaneward.io.CsvTable;
import org.vaneward.io.Numbers;
import org.vaneward.io.TableRow;

/** Reads a lives table and holds every row to what an observation of a life can be. */
final class LivesReader {
  private final String name;
  private final List<String> columns;
  private final List<String[]> texts = new ArrayList<>();
  private final Map<String, String> known = new HashMap<>();
  private final double[][] numbers = new double[4][16];
  private int rows;

  private LivesReader(String name, List<String> columns) {
    this.name = name;
    this.columns = columns;
  }

  static LivesTable read(Path file) {
    String name = file.toString();
    try (CsvTable csv = CsvTable.open(file, name, List.of())) {
      if (!csv.header().has("lower") && !csv.header().has("upper")) {
        throw new BadInputException(
            name + ": no column 'lower' or 'upper'; a lives table has ages in one or both");
      }
      List<String> columns =
          csv.header().columns().stream().filter(c -> !LivesTable.NUMBERS.contains(c)).toList();
      LivesReader reader = new LivesReader(name, columns);
      for (Optional<TableRow> row = csv.next(); row.isPresent(); row = csv.next()) {
        reader.add(row.get());
      }
      return reader.table();
    }
  }

  private void add(TableRow row) {
    if (row.problem().isPresent()) {
      throw bad(row, row.problem().get());
    }
    double entry = number(row, "entry", 0);
    double lower = number(row, "lower", entry);
    double upper = number(row, "upper", Double.POSITIVE_INFINITY);
    double count = number(row, "count", 1);
    check(row, entry, lower, upper, count);
    append(entry, lower, upper, count);
    texts.add(columns.stream().map(column -> text(row, column)).toArray(String[]::new));
  }

  /** One object for each distinct text: groups repeat a few of them over and over. */
  private String text(TableRow row, String column) {
    return known.computeIfAbsent(row.cell(column).strip(), text -> text);
  }

  private double number(TableRow row, String column, double blank) {
    return Numbers.of(name, row, column, blank);
  }

  private void check(TableRow row, double entry, double lower, double upper, double count) {
    if (!(entry >= 0)) {
      throw bad(row, "entry " + entry + " is negative; an age is at least 0");
    }
    if (!(lower >= entry)) {
      throw bad(row, "lower " + lower + " is below entry " + entry + "; it is at least that");
    }
    if (!(upper >= lower)) {
      throw bad(row, "upper " + upper + " is below lower " + lower + "; it is at least that");
    }
    if (!(count > 0)) {
      throw bad(row, "count " + count + " is not positive");
    }
    if (!(end(lower, upper) > entry)) {
      throw bad(
          row,
          "observation ends at age "
              + end(lower, upper)
              + ", where it starts; it ends later"
              + (entry == 0 ? ", and failures at start-up are no lives" : ""));
    }
  }

  private static double end(double lower, double upper) {
    return upper < Double.POSITIVE_INFINITY ? upper : lower;
  }

  private BadInputException bad(TableRow row, String what) {
    return new BadInputException(name + ", line " + row.line() + ": " + what);
  }

  private void append(double... values) {
    for (int c = 0; c < values.length; c++) {
      if (rows == numbers[c].length) {
        numbers[c] = Arrays.copyOf(numbers[c], 2 * rows);
      }
      numbers[c][rows] = values[c];
    }
    rows++;
  }

  private LivesTable table() {
    Map<String, TextColumn> byColumn = new LinkedHashMap<>();
    for (int c = 0; c < columns.size(); c++) {
      int column = c;
      byColumn.put(
          columns.get(c),
          TextColumn.of(texts.stream().map(row -> row[column]).toArray(String[]::new)));
    }
    return new LivesTable(
        Arrays.copyOf(numbers[0], rows),
        Arrays.copyOf(numbers[1], rows),
        Arrays.copyOf(numbers[2], rows),
        Arrays.copyOf(numbers[3], rows),
        byColumn);
  }
}

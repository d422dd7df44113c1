package org.vaneward.io;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** The named columns of a table, each name once. */
public final class TableHeader {
  private static final int MAX_COLUMNS = 1000;

  private final List<String> columns;
  private final int unnamed;
  private final Map<String, Integer> index;

  private TableHeader(List<String> columns, int unnamed, Map<String, Integer> index) {
    this.columns = List.copyOf(columns);
    this.unnamed = unnamed;
    this.index = index;
  }

  /**
   * The header {@code names} of {@code file}, which must hold every column in {@code required}.
   * White space around a name does not count; columns without a name may trail.
   *
   * @throws BadInputException when a required name is missing, or a name is repeated or blank
   */
  static TableHeader of(String file, long line, List<String> names, List<String> required) {
    List<String> columns = new ArrayList<>(names.stream().map(String::strip).toList());
    while (!columns.isEmpty() && columns.get(columns.size() - 1).isEmpty()) {
      columns.remove(columns.size() - 1);
    }
    String where = file + ", line " + line + ": ";
    if (columns.size() > MAX_COLUMNS) {
      throw new BadInputException(
          where + "the header has " + columns.size() + " columns; at most " + MAX_COLUMNS);
    }
    Map<String, Integer> index = new HashMap<>();
    for (int i = 0; i < columns.size(); i++) {
      put(where, index, columns.get(i), i);
    }
    for (String column : required) {
      if (!index.containsKey(column)) {
        throw new BadInputException(
            where + "no column '" + column + "'; the header has: " + listed(columns));
      }
    }
    return new TableHeader(columns, names.size() - columns.size(), index);
  }

  private static void put(String where, Map<String, Integer> index, String name, int at) {
    if (name.isEmpty()) {
      throw new BadInputException(
          where + "column " + (at + 1) + " has no name; every column needs one");
    }
    Integer before = index.putIfAbsent(name, at);
    if (before != null) {
      throw new BadInputException(
          where
              + "column '"
              + Cell.shortened(name)
              + "' stands twice, as column "
              + (before + 1)
              + " and "
              + (at + 1)
              + "; every name must stand once");
    }
  }

  private static String listed(List<String> columns) {
    String all = String.join(", ", columns.stream().map(Cell::shortened).limit(30).toList());
    return (all.isEmpty() ? "nothing" : all) + (columns.size() > 30 ? ", …" : "");
  }

  /** Names of the columns in their order. */
  public List<String> columns() {
    return columns;
  }

  /** Whether there is a column of that name. */
  public boolean has(String column) {
    return index.containsKey(column);
  }

  /** Whether a row of {@code count} cells, the first of them {@code cells}, fits the columns. */
  boolean fits(List<String> cells, int count) {
    int named = columns.size();
    return count == named
        || (count == named + unnamed && cells.stream().skip(named).allMatch(String::isBlank));
  }

  /** Number of that column, from 0; -1 when there is none. */
  public int indexOf(String column) {
    Integer at = index.get(column);
    return at == null ? -1 : at;
  }
}

package org.vaneward.io;

import java.util.BitSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/** One row of a table, its cells found by the name or the number of their column. */
public final class TableRow {
  private static final BitSet NONE = new BitSet();

  private final TableHeader header;
  private final long line;
  private final List<String> cells;
  private final BitSet typed;
  private final Map<String, List<TableRow>> nested;
  private final String problem;

  private TableRow(
      TableHeader header,
      long line,
      List<String> cells,
      BitSet typed,
      Map<String, List<TableRow>> nested,
      String problem) {
    this.header = header;
    this.line = line;
    this.cells = cells;
    this.typed = typed;
    this.nested = nested;
    this.problem = problem;
  }

  /** A row of text whose {@code cells} stand in the order of {@code header}. */
  static TableRow of(TableHeader header, long line, List<String> cells) {
    return new TableRow(header, line, cells, NONE, Map.of(), "");
  }

  /**
   * A row with values of their own type, and rows within it.
   *
   * @param typed cells that are a number, a date or a truth value in the file, and not a text that
   *     may be written this way or that
   * @param nested rows within it, by key
   */
  static TableRow of(
      TableHeader header,
      long line,
      List<String> cells,
      BitSet typed,
      Map<String, List<TableRow>> nested) {
    return new TableRow(header, line, cells, typed, nested, "");
  }

  /** No row at all: every cell blank. */
  public static TableRow none(TableHeader header) {
    return new TableRow(header, 0, List.of(), NONE, Map.of(), "");
  }

  /** A row that cannot be told apart into cells, for {@code problem}. */
  static TableRow broken(TableHeader header, long line, String problem) {
    return new TableRow(header, line, List.of(), NONE, Map.of(), problem);
  }

  /** Line of the file on which the row starts, or row of the sheet; the first is 1. */
  public long line() {
    return line;
  }

  /** The columns of the table. */
  public TableHeader header() {
    return header;
  }

  /** Why the row has no usable cells; empty when it has. */
  public Optional<String> problem() {
    return problem.isEmpty() ? Optional.empty() : Optional.of(problem);
  }

  /** The cell under {@code column} as written; empty text when blank or there is no such column. */
  public String cell(String column) {
    return cell(header.indexOf(column));
  }

  /** The cell of the column of that number, from 0; empty text when there is none. */
  public String cell(int column) {
    return column < 0 || column >= cells.size() ? "" : cells.get(column);
  }

  /**
   * Whether that cell is a number, a date or a truth value in the file itself: a number then has a
   * decimal point, a date stands as {@code 2024-03-31}, a truth value as {@code yes} or {@code no}.
   */
  public boolean isTyped(int column) {
    return column >= 0 && typed.get(column);
  }

  /** The keys under which there are rows within this one. */
  public Set<String> nestedKeys() {
    return nested.keySet();
  }

  /** The rows within this one under {@code key}, in order. */
  public List<TableRow> nested(String key) {
    return nested.getOrDefault(key, List.of());
  }
}

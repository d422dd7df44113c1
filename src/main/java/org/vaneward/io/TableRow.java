package org.vaneward.io;

import java.util.List;
import java.util.Optional;

/** One row of a table, its cells found by the name of their column. */
public final class TableRow {
  private final TableHeader header;
  private final long line;
  private final List<String> cells;
  private final String problem;

  private TableRow(TableHeader header, long line, List<String> cells, String problem) {
    this.header = header;
    this.line = line;
    this.cells = cells;
    this.problem = problem;
  }

  /** A row whose {@code cells} stand in the order of {@code header}. */
  static TableRow of(TableHeader header, long line, List<String> cells) {
    return new TableRow(header, line, cells, "");
  }

  /** A row that cannot be told apart into cells, for {@code problem}. */
  static TableRow broken(TableHeader header, long line, String problem) {
    return new TableRow(header, line, List.of(), problem);
  }

  /** Line of the file on which the row starts; the header is line 1. */
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
    int at = header.indexOf(column);
    return at < 0 || at >= cells.size() ? "" : cells.get(at);
  }
}

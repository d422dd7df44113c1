package org.vaneward.report;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Collectors;

/** A table for a terminal: columns aligned, numbers to the right. */
final class TextTable {
  private final List<String> headers;
  private final List<List<String>> rows = new ArrayList<>();

  TextTable(String... headers) {
    this.headers = List.of(headers);
  }

  /** The same table as on the page. */
  static TextTable of(Page.Grid grid) {
    TextTable table = new TextTable(grid.headers().toArray(String[]::new));
    grid.rows().forEach(row -> table.row(row.toArray(String[]::new)));
    return table;
  }

  TextTable row(String... cells) {
    if (cells.length != headers.size()) {
      throw new IllegalArgumentException(
          "a row of " + cells.length + " cells in a table of " + headers.size() + " columns");
    }
    rows.add(List.copyOf(Arrays.asList(cells)));
    return this;
  }

  @Override
  public String toString() {
    int[] widths = widths();
    StringBuilder text = new StringBuilder();
    text.append(line(headers, widths)).append('\n');
    text.append(Arrays.stream(widths).mapToObj("-"::repeat).collect(Collectors.joining("  ")))
        .append('\n');
    for (List<String> row : rows) {
      text.append(line(row, widths)).append('\n');
    }
    return text.toString();
  }

  private int[] widths() {
    int[] widths = new int[headers.size()];
    for (int c = 0; c < widths.length; c++) {
      widths[c] = headers.get(c).length();
      for (List<String> row : rows) {
        widths[c] = Math.max(widths[c], row.get(c).length());
      }
    }
    return widths;
  }

  private String line(List<String> cells, int[] widths) {
    StringBuilder line = new StringBuilder();
    for (int c = 0; c < widths.length; c++) {
      String cell = cells.get(c);
      String pad = " ".repeat(widths[c] - cell.length());
      line.append(c == 0 ? "" : "  ");
      line.append(isNumeric(c) ? pad + cell : cell + pad);
    }
    return line.toString().stripTrailing();
  }

  private boolean isNumeric(int column) {
    return !rows.isEmpty()
        && rows.stream()
            .map(row -> row.get(column))
            .allMatch(cell -> cell.isEmpty() || cell.equals(Words.NONE) || startsLikeNumber(cell));
  }

  private static boolean startsLikeNumber(String cell) {
    return cell.matches("[-<>+]?[0-9][0-9,.]*( ?(h|%|days?))?( \\([0-9,]+\\))?");
  }
}

package org.vaneward.chart;

import java.util.List;

/**
 * A picture for a page, with the same content in words and in numbers.
 *
 * @param svg an SVG element to be put into a page as it is: no prolog, ids unique to this picture,
 *     scales to the width it is given, all text escaped
 * @param title what the picture shows; plain text, not escaped
 * @param alternative one or two sentences that say what there is to see; plain text, not escaped
 * @param columns headings of the data table, with units; plain text
 * @param rows the data drawn, one list of cells for each row, as long as {@code columns}
 */
public record Picture(
    String svg, String title, String alternative, List<String> columns, List<List<String>> rows) {
  /**
   * A picture.
   *
   * @throws IllegalArgumentException when a row has not one cell for each column
   */
  public Picture {
    columns = List.copyOf(columns);
    rows = rows.stream().map(List::copyOf).toList();
    for (List<String> row : rows) {
      if (row.size() != columns.size()) {
        throw new IllegalArgumentException(
            "a row has " + columns.size() + " cells, not " + row.size());
      }
    }
  }
}

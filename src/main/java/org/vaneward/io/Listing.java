package org.vaneward.io;

import java.util.List;
import java.util.function.Consumer;

/**
 * A table, said once and written in any form: CSV, a sheet of a workbook, columns of a program.
 *
 * @param name what it holds, in a word or two
 * @param columns its header
 * @param rows writes the rows, cell by cell in the order of the header
 */
public record Listing(String name, List<String> columns, Consumer<TableWriter> rows) {
  /** A table. */
  public Listing {
    columns = List.copyOf(columns);
  }

  /** As CSV for people: text that a spreadsheet would run is disarmed. */
  public String csv() {
    CsvWriter table = CsvWriter.forSpreadsheets(columns.toArray(String[]::new));
    rows.accept(table);
    return table.text();
  }
}

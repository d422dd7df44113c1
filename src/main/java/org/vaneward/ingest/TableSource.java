package org.vaneward.ingest;

import java.util.function.Consumer;
import org.vaneward.io.TableRow;

/** Where the five tables are read from: CSV files today; another form is another source. */
interface TableSource {
  /** Name of the file that holds {@code table}, as messages and notes show it. */
  String fileOf(Table table);

  /**
   * Hands every row of {@code table} to {@code each}, in the order of the file.
   *
   * @throws org.vaneward.io.BadInputException when the table cannot be read
   */
  void forEachRow(Table table, Consumer<TableRow> each);
}

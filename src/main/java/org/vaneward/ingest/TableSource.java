package org.vaneward.ingest;

import java.util.List;
import org.vaneward.io.TableRows;

/** Where the five tables are read from. */
interface TableSource {
  /** Whether there is such a table: findings may stand in the rows of rebuilds instead. */
  boolean has(Table table);

  /**
   * Name of the file, and of its sheet, that holds {@code table}, as messages and notes show it.
   */
  String fileOf(Table table);

  /** How the table is written. */
  TableForm formOf(Table table);

  /** The files all this stands in, by name, each once. */
  List<String> files();

  /**
   * The rows of {@code table}; whoever asks closes them.
   *
   * @throws org.vaneward.io.BadInputException when the table cannot be read
   */
  TableRows open(Table table);
}

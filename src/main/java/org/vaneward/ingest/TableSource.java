package org.vaneward.ingest;

import java.util.List;
import java.util.stream.Collectors;
import org.vaneward.io.TableRows;

/** Where the five tables are read from. */
interface TableSource {
  /** Whether there is such a table: findings may stand in the rows of rebuilds instead. */
  boolean has(Table table);

  /** The files or sheets that hold {@code table}, in the order they are read. */
  List<Part> partsOf(Table table);

  /** How the table is written. */
  TableForm formOf(Table table);

  /** The files all this stands in, by name, each once. */
  List<String> files();

  /** A file or a sheet that holds rows of a table. */
  interface Part {
    /** Name of the file, and of its sheet, as messages and notes show it. */
    String name();

    /**
     * Its rows; whoever asks closes them.
     *
     * @throws org.vaneward.io.BadInputException when it cannot be read
     */
    TableRows open();
  }

  /** Names of the files that hold {@code table}, for messages. */
  default String fileOf(Table table) {
    return partsOf(table).stream().map(Part::name).collect(Collectors.joining(" or "));
  }
}

package org.vaneward.io;

import java.io.Closeable;
import java.util.Optional;

/** A table read row by row, whatever kind of file it stands in. */
public interface TableRows extends Closeable {
  /** The columns. */
  TableHeader header();

  /**
   * The next row; empty at the end.
   *
   * @throws BadInputException when the file cannot be read on
   */
  Optional<TableRow> next();

  @Override
  void close();
}

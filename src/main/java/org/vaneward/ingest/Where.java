package org.vaneward.ingest;

import org.vaneward.fleet.RowRef;
import org.vaneward.io.CsvWriter;

/** Where a row stands, for messages. */
final class Where {
  private Where() {}

  /** {@code "pumps.csv, line 4"}. */
  static String of(RowRef row) {
    return row.file() + ", line " + row.line();
  }

  /** {@code "line 4"}, with the file before it where {@code other} does not stand in it. */
  static String beside(RowRef row, RowRef other) {
    return row.file().equals(other.file()) ? "line " + row.line() : of(row);
  }

  /** Hours as a person writes them, without a trailing {@code .0}. */
  static String hours(double hours) {
    return CsvWriter.plain(hours);
  }
}

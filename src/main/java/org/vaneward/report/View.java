package org.vaneward.report;

import java.io.IOException;
import java.io.Writer;

/** A result in each form a command can print it. */
public interface View {
  /** For people: tables and sentences. */
  String text();

  /** The JSON document that the command promises, numbers unrounded. */
  String json();

  /** A table, a header row first. */
  String csv();

  /**
   * Writes {@link #csv} to {@code out}, which a long table need not fit in memory for.
   *
   * @throws IOException when {@code out} takes no more
   */
  default void writeCsv(Writer out) throws IOException {
    out.write(csv());
  }
}

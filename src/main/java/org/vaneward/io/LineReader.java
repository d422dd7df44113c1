package org.vaneward.io;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.Reader;
import java.util.Optional;

/** Lines of a text, never more of one than a row may hold. */
final class LineReader {
  private final BufferedReader text;
  private long line;

  LineReader(Reader text) {
    this.text = new BufferedReader(text, 1 << 16);
  }

  /**
   * A line.
   *
   * @param number its number, from 1
   * @param text what stands on it, as much as is kept
   * @param oversized whether some was left out
   */
  record Line(long number, String text, boolean oversized) {}

  /** Passes over the rest of the line on which {@code text} stands. */
  static void skip(BufferedReader text) throws IOException {
    int c = text.read();
    while (c >= 0 && c != '\n' && c != '\r') {
      c = text.read();
    }
    finish(text, c);
  }

  /** A carriage return and the line feed after it end one line. */
  private static void finish(BufferedReader text, int last) throws IOException {
    if (last == '\r') {
      text.mark(1);
      if (text.read() != '\n') {
        text.reset();
      }
    }
  }

  /** The next line; empty at the end. */
  Optional<Line> next() throws IOException {
    int c = text.read();
    if (c < 0) {
      return Optional.empty();
    }
    line++;
    StringBuilder kept = new StringBuilder();
    boolean oversized = false;
    for (; c >= 0 && c != '\n' && c != '\r'; c = text.read()) {
      if (kept.length() < CsvTable.MAX_ROW) {
        kept.append((char) c);
      } else {
        oversized = true;
      }
    }
    finish(text, c);
    return Optional.of(new Line(line, kept.toString(), oversized));
  }
}

package org.vaneward.io;

import java.io.IOException;
import java.io.Reader;
import java.util.List;

/**
 * A text followed by one more line that holds a NUL, which no text has. Read as CSV, that line is
 * the last record; inside a quote that was left open it ends up in a cell, which gives it away.
 */
final class EndMarkedReader extends Reader {
  private static final char MARK = '\0';

  private final Reader text;
  private int left = 2;

  EndMarkedReader(Reader text) {
    this.text = text;
  }

  /** Whether these cells are the mark. */
  static boolean isEnd(List<String> cells) {
    return cells.size() == 1 && cells.get(0).equals(String.valueOf(MARK));
  }

  /** Whether the mark ended up in the last of these cells. */
  static boolean reachesEnd(List<String> cells) {
    return !cells.isEmpty() && cells.get(cells.size() - 1).indexOf(MARK) >= 0;
  }

  @Override
  public int read(char[] target, int offset, int length) throws IOException {
    if (left < 2) {
      return mark(target, offset);
    }
    int count = text.read(target, offset, length);
    return count < 0 ? mark(target, offset) : count;
  }

  private int mark(char[] target, int offset) {
    if (left == 0) {
      return -1;
    }
    target[offset] = left == 2 ? '\n' : MARK;
    left--;
    return 1;
  }

  @Override
  public void close() throws IOException {
    text.close();
  }
}

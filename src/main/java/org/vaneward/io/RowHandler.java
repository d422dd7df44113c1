package org.vaneward.io;

import de.siegmar.fastcsv.reader.AbstractBaseCsvCallbackHandler;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/** Collects the cells of one record, never more than a row may hold. */
final class RowHandler extends AbstractBaseCsvCallbackHandler<RowHandler.Cells> {
  private static final int MAX_CELLS = 2000;

  /** Slots for texts met; a power of two. */
  private static final int KNOWN = 1 << 13;

  private static final int LONGEST_KNOWN = 32;

  private final String[] known = new String[KNOWN];
  private final List<String> values = new ArrayList<>();
  private long line;
  private int count;
  private long characters;

  RowHandler() {
    Arrays.fill(known, "");
  }

  /**
   * A record.
   *
   * @param line line it starts on
   * @param values its cells, the last one always among them
   * @param count how many cells it has, kept or not
   * @param oversized whether cells were dropped because the row is too long
   */
  record Cells(long line, List<String> values, int count, boolean oversized) {}

  /** Line on which the record being read starts. */
  long line() {
    return line;
  }

  @Override
  protected void handleBegin(long startingLine) {
    line = startingLine;
    values.clear();
    count = 0;
    characters = 0;
  }

  @Override
  protected void handleField(int index, char[] buffer, int offset, int length, boolean quoted) {
    count++;
    characters += length;
    if (values.size() == MAX_CELLS || characters > CsvTable.MAX_ROW) {
      values.remove(values.size() - 1);
    }
    values.add(text(buffer, offset, length));
  }

  /** One object for a short text that comes again and again, as most cells do. */
  private String text(char[] buffer, int offset, int length) {
    if (length == 0) {
      return "";
    }
    if (length > LONGEST_KNOWN) {
      return new String(buffer, offset, length);
    }
    int hash = 0;
    for (int i = offset; i < offset + length; i++) {
      hash = 31 * hash + buffer[i];
    }
    int slot = (hash ^ (hash >>> 15)) & (known.length - 1);
    String before = known[slot];
    if (before.length() == length && isAt(before, buffer, offset)) {
      return before;
    }
    String text = new String(buffer, offset, length);
    known[slot] = text;
    return text;
  }

  private static boolean isAt(String text, char[] buffer, int offset) {
    for (int i = 0; i < text.length(); i++) {
      if (text.charAt(i) != buffer[offset + i]) {
        return false;
      }
    }
    return true;
  }

  @Override
  protected Cells buildRecord() {
    return new Cells(line, List.copyOf(values), count, characters > CsvTable.MAX_ROW);
  }
}

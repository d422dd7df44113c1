package org.vaneward.io;

import de.siegmar.fastcsv.reader.AbstractBaseCsvCallbackHandler;
import java.util.ArrayList;
import java.util.List;

/** Collects the cells of one record, never more than a row may hold. */
final class RowHandler extends AbstractBaseCsvCallbackHandler<RowHandler.Cells> {
  private static final int MAX_CELLS = 2000;

  private final List<String> values = new ArrayList<>();
  private long line;
  private int count;
  private long characters;

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
    values.add(new String(buffer, offset, length));
  }

  @Override
  protected Cells buildRecord() {
    return new Cells(line, List.copyOf(values), count, characters > CsvTable.MAX_ROW);
  }
}

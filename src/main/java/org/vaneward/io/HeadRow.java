package org.vaneward.io;

import java.util.List;

/**
 * One of the first rows of a file, before anybody has said which of them names the columns.
 *
 * @param line line of the file, or row of the sheet; the first is 1
 * @param cells what stands in it
 */
public record HeadRow(int line, List<String> cells) {
  /** Copies the list. */
  public HeadRow {
    cells = List.copyOf(cells);
  }
}

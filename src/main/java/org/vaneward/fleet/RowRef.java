package org.vaneward.fleet;

/**
 * Where a row stands.
 *
 * @param file file name inside the fleet folder, such as {@code rebuilds.csv}
 * @param line line of the file on which the row starts; the header is line 1
 */
public record RowRef(String file, long line) implements Comparable<RowRef> {
  @Override
  public int compareTo(RowRef other) {
    int byFile = file.compareTo(other.file);
    return byFile != 0 ? byFile : Long.compare(line, other.line);
  }
}

package org.vaneward.report;

import java.util.Arrays;
import java.util.List;
import java.util.regex.Pattern;
import org.vaneward.io.Typeface;

/**
 * How wide the columns of a printed table are and how large its letters, from what stands in it:
 * the rules of a browser (W3C, CSS 2.1, 17.5.2.2). A column is never narrower than its longest
 * word; what room is left goes to columns with long text. Where even the words do not fit, smaller
 * letters are tried, and at the smallest the widest columns give way and their words are broken.
 */
final class ColumnWidths {
  private static final double[] SIZES = {7.5, 7.2, 6.9, 6.6, 6.3, 6};

  /** Columns want no more than this share of the room, or one long text would take it all. */
  private static final double MOST = 0.25;

  private static final double MOST_OF_SENTENCES = 0.6;

  /** Smaller letters are tried until this much of what columns want beyond their words is there. */
  private static final double ENOUGH = 0.5;

  /** What cells keep free on both sides together, in points. */
  static final double PADDING = 7;

  /** Words break only at blanks here, so nothing is measured that would be broken elsewhere. */
  private static final Pattern BLANK = Pattern.compile(" ");

  private static final Pattern AFTER_BLANK = Pattern.compile("(?<= )");

  /** Zero-width space. */
  private static final char BREAK = '\u200B';

  private final double size;
  private final double[] widths;

  private ColumnWidths(double size, double[] widths) {
    this.size = size;
    this.widths = widths;
  }

  /**
   * A column's text.
   *
   * @param heading its heading
   * @param cells below it
   * @param onOneLine whether cells stay on one line if they can
   * @param sentences whether cells are sentences
   */
  record Column(String heading, List<String> cells, boolean onOneLine, boolean sentences) {
    Column {
      cells = List.copyOf(cells);
    }
  }

  /**
   * Widths that fill a room.
   *
   * @param columns at least one
   * @param room in points
   */
  static ColumnWidths of(List<Column> columns, double room) {
    double[] least = columns.stream().mapToDouble(ColumnWidths::longestWord).toArray();
    double[] most = columns.stream().mapToDouble(ColumnWidths::longestLine).toArray();
    double[] cap =
        columns.stream()
            .mapToDouble(column -> room * (column.sentences() ? MOST_OF_SENTENCES : MOST))
            .toArray();
    for (double size : SIZES) {
      double[] words = inPoints(least, size);
      double[] wanted = between(words, inPoints(most, size), cap);
      if (sum(words) + ENOUGH * (sum(wanted) - sum(words)) <= room) {
        return new ColumnWidths(size, stretched(words, wanted, room));
      }
    }
    double smallest = SIZES[SIZES.length - 1];
    double[] words = inPoints(least, smallest);
    return new ColumnWidths(
        smallest,
        sum(words) <= room
            ? stretched(words, between(words, inPoints(most, smallest), cap), room)
            : givingWay(words, room));
  }

  /** What columns want: all of their text on a line, but not more than their cap. */
  private static double[] between(double[] least, double[] most, double[] cap) {
    double[] wanted = new double[least.length];
    for (int c = 0; c < wanted.length; c++) {
      wanted[c] = Math.max(least[c], Math.min(most[c], cap[c]));
    }
    return wanted;
  }

  /** Size of the letters, in points. */
  double size() {
    return size;
  }

  /** Width of a column, padding included, in points. */
  double width(int column) {
    return widths[column];
  }

  /** Whether text stays on one line in its column. */
  boolean fits(String text, int column, boolean bold) {
    return face(bold).width(text) * size + PADDING <= widths[column] + 0.01;
  }

  /**
   * The text with a place to break after each letter of words too long for their column.
   *
   * @param bold whether it is set in bold
   */
  String breakable(String text, int column, boolean bold) {
    if (fits(text, column, bold)) {
      return text;
    }
    StringBuilder result = new StringBuilder(text.length());
    AFTER_BLANK
        .splitAsStream(text)
        .forEach(
            word -> {
              if (fits(word.strip(), column, bold)) {
                result.append(word);
              } else {
                word.codePoints().forEach(c -> result.appendCodePoint(c).append(BREAK));
              }
            });
    return result.toString();
  }

  // ---- what columns would like, in sizes of their letters

  private static double longestWord(Column column) {
    double heading = longestPiece(column.heading(), Typeface.BOLD);
    return column.cells().stream()
        .mapToDouble(
            cell ->
                column.onOneLine()
                    ? Typeface.BOLD.width(cell)
                    : longestPiece(cell, Typeface.REGULAR))
        .reduce(heading, Math::max);
  }

  private static double longestPiece(String text, Typeface face) {
    return BLANK.splitAsStream(text).mapToDouble(face::width).max().orElse(0);
  }

  private static double longestLine(Column column) {
    return column.cells().stream()
        .mapToDouble(Typeface.BOLD::width)
        .reduce(Typeface.BOLD.width(column.heading()), Math::max);
  }

  private static Typeface face(boolean bold) {
    return bold ? Typeface.BOLD : Typeface.REGULAR;
  }

  private static double[] inPoints(double[] ems, double size) {
    return Arrays.stream(ems).map(width -> width * size + PADDING).toArray();
  }

  private static double sum(double[] widths) {
    return Arrays.stream(widths).sum();
  }

  // ---- sharing the room

  /** Room left over, to each column in proportion to what it could still use. */
  private static double[] stretched(double[] least, double[] wanted, double room) {
    double left = room - sum(least);
    double more = sum(wanted) - sum(least);
    double[] widths = new double[least.length];
    for (int c = 0; c < widths.length; c++) {
      widths[c] =
          more <= left
              ? wanted[c] * room / sum(wanted)
              : least[c] + left * (wanted[c] - least[c]) / more;
    }
    return widths;
  }

  /** The widest columns cut to one width, such that all fill the room. */
  private static double[] givingWay(double[] least, double room) {
    double[] sorted = least.clone();
    Arrays.sort(sorted);
    double left = room;
    double widest = room / sorted.length;
    for (int c = 0; c < sorted.length && sorted[c] <= widest; c++) {
      left -= sorted[c];
      widest = c + 1 < sorted.length ? left / (sorted.length - c - 1) : sorted[c];
    }
    double cut = widest;
    return Arrays.stream(least).map(width -> Math.min(width, cut)).toArray();
  }
}

package org.vaneward.io;

import java.util.regex.Pattern;

/** What counts as a number in a table: decimal point, no separators, no unit, no words. */
public final class Numbers {
  private static final Pattern NUMBER =
      Pattern.compile("[+-]?(\\d+(\\.\\d*)?|\\.\\d+)([eE][+-]?\\d{1,3})?");

  private Numbers() {}

  /** Whether {@code text} is a number that {@link Double#parseDouble} reads as it is meant. */
  public static boolean isNumber(String text) {
    return NUMBER.matcher(text).matches();
  }

  /**
   * The number in a cell of {@code row}, blanks around it allowed.
   *
   * @param name of the table in messages
   * @param blank what a blank cell stands for
   * @throws BadInputException when the cell holds something else, or a number too large to hold
   */
  public static double of(String name, TableRow row, String column, double blank) {
    String text = row.cell(column).strip();
    if (text.isEmpty()) {
      return blank;
    }
    double value = isNumber(text) ? Double.parseDouble(text) : Double.NaN;
    if (!Double.isFinite(value)) {
      throw new BadInputException(
          name
              + ", line "
              + row.line()
              + ": column '"
              + column
              + "' holds "
              + Cell.quoted(text)
              + "; a number with a decimal point"
              + (Double.isNaN(blank) ? "" : ", or a blank,")
              + " would be right");
    }
    return value;
  }
}

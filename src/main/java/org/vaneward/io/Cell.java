package org.vaneward.io;

/** The text of a cell, for messages. */
public final class Cell {
  private static final int SHOWN = 40;

  private Cell() {}

  /** {@code text} in quotes, on one line and shortened when long: {@code '12,5'}. */
  public static String quoted(String text) {
    return "'" + shortened(text) + "'";
  }

  /** {@code text} on one line and shortened when long. */
  public static String shortened(String text) {
    return onOneLine(text.length() > SHOWN ? text.substring(0, SHOWN) + "…" : text);
  }

  /** {@code text} on one line. */
  public static String onOneLine(String text) {
    StringBuilder line = new StringBuilder(text.length());
    for (int i = 0; i < text.length(); i++) {
      char c = text.charAt(i);
      boolean breaks = Character.isISOControl(c) || c == '\u2028' || c == '\u2029';
      line.append(breaks ? ' ' : c);
    }
    return line.toString();
  }
}

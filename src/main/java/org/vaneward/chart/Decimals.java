package org.vaneward.chart;

/** Coordinates as a picture has them: to a tenth of a pixel, without what says nothing. */
final class Decimals {
  private Decimals() {}

  /** Appends a number rounded to one decimal, the same in every locale. */
  static void append(StringBuilder out, double value) {
    long tenths = Math.round(value * 10);
    if (tenths < 0) {
      out.append('-');
    }
    long size = Math.abs(tenths);
    out.append(size / 10);
    if (size % 10 != 0) {
      out.append('.').append(size % 10);
    }
  }

  /** The number as text. */
  static String text(double value) {
    StringBuilder out = new StringBuilder(8);
    append(out, value);
    return out.toString();
  }
}

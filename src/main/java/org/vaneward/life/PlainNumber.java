package org.vaneward.life;

import java.math.BigDecimal;

/** Numbers as the shortest text that reads back the same, without an exponent. */
final class PlainNumber {
  private PlainNumber() {}

  static String text(double x) {
    if (x == Math.rint(x) && Math.abs(x) < 1e15) {
      return Long.toString((long) x);
    }
    return Double.isFinite(x) ? BigDecimal.valueOf(x).toPlainString() : Double.toString(x);
  }
}

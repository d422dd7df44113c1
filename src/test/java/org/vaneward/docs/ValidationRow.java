package org.vaneward.docs;

import java.util.Locale;

/**
 * A computed quantity beside the one it is held against.
 *
 * @param caseName name of the case in its reference file
 * @param quantity what is compared
 * @param source what the expected value comes from, in a few words
 * @param expected the reference value as shown
 * @param got what the program computes, as shown
 * @param difference relative difference; the largest, where the row stands for several ages
 * @param tolerance greatest difference that agrees, in words
 * @param agrees whether the row, and every value it stands for, is within tolerance
 */
record ValidationRow(
    String caseName,
    String quantity,
    String source,
    String expected,
    String got,
    double difference,
    String tolerance,
    boolean agrees) {

  /** A row of one number. */
  static ValidationRow of(
      String caseName,
      String quantity,
      String source,
      double expected,
      double got,
      double slack,
      String tolerance) {
    return new ValidationRow(
        caseName,
        quantity,
        source,
        number(expected),
        number(got),
        relative(expected, got),
        tolerance,
        agree(expected, got, slack));
  }

  /** A row of words that either are what they should be or not. */
  static ValidationRow ofWords(
      String caseName, String quantity, String source, String expected, String got, boolean same) {
    return new ValidationRow(
        caseName, quantity, source, expected, got, same ? 0 : 1, "the same", same);
  }

  /** Whether two numbers agree; a number that does not exist is infinite on both sides. */
  static boolean agree(double expected, double got, double slack) {
    return Double.isInfinite(expected) ? Double.isInfinite(got) : Math.abs(got - expected) <= slack;
  }

  static double relative(double expected, double got) {
    if (Double.isInfinite(expected) || expected == got) {
      return Double.isInfinite(got) || expected == got ? 0 : 1;
    }
    return expected == 0 ? Math.abs(got) : Math.abs(got / expected - 1);
  }

  /** Seven significant digits; so many that the last does not depend on the machine. */
  static String number(double x) {
    if (Double.isInfinite(x)) {
      return "none";
    }
    return x == Math.rint(x) && Math.abs(x) < 1e6
        ? String.format(Locale.ROOT, "%.0f", x)
        : String.format(Locale.ROOT, "%.7g", x);
  }

  /** The difference as the power of ten it stays below, none finer than a billionth. */
  String bucket() {
    double bound = 1e-9;
    int power = -9;
    while (difference >= bound && power < 0) {
      power++;
      bound = Math.pow(10, power);
    }
    return difference < bound ? "<1e" + power : "1 or more";
  }

  String markdown() {
    return String.join(
        " | ", "| " + caseName, quantity, source, expected, got, bucket(), tolerance + " |");
  }
}

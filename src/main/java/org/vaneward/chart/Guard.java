package org.vaneward.chart;

import java.util.Collection;
import java.util.HashSet;
import java.util.List;

/** Guards of what is drawn: XChart complains late, at paint time, and not of the value at fault. */
final class Guard {
  private Guard() {}

  static void finite(String what, double value) {
    if (!Double.isFinite(value)) {
      throw new IllegalArgumentException(what + " is finite, not " + value);
    }
  }

  static void positive(String what, double value) {
    if (!(value > 0 && value < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException(what + " is positive and finite, not " + value);
    }
  }

  static void notNegative(String what, double value) {
    if (!(value >= 0 && value < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException(what + " is at least 0 and finite, not " + value);
    }
  }

  static void share(String what, double value) {
    if (!(value >= 0 && value <= 1)) {
      throw new IllegalArgumentException(what + " is between 0 and 1, not " + value);
    }
  }

  static void limits(double lower, double upper) {
    share("a lower limit", lower);
    share("an upper limit", upper);
    if (!(lower <= upper)) {
      throw new IllegalArgumentException(
          "a lower limit is at most the upper, not " + lower + " above " + upper);
    }
  }

  static void notEmpty(String what, Collection<?> values) {
    if (values.isEmpty()) {
      throw new IllegalArgumentException("no " + what + " to draw: 0 given");
    }
  }

  static void distinct(String what, List<String> labels) {
    HashSet<String> seen = new HashSet<>();
    for (String label : labels) {
      if (!seen.add(label)) {
        throw new IllegalArgumentException(what + " are distinct, but \"" + label + "\" repeats");
      }
    }
  }

  static void ascending(String what, double[] values) {
    for (int i = 1; i < values.length; i++) {
      if (!(values[i] >= values[i - 1])) {
        throw new IllegalArgumentException(
            what + " ascend, but " + values[i] + " follows " + values[i - 1]);
      }
    }
  }

  static void sameLength(double[] x, double[] y) {
    if (x.length == 0 || x.length != y.length) {
      throw new IllegalArgumentException(
          "a series has as many x as y and at least one, not " + x.length + " and " + y.length);
    }
  }
}

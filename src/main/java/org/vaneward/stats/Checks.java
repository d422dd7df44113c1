package org.vaneward.stats;

/** Guards of observations. Written so that NaN fails them. */
final class Checks {
  private Checks() {}

  static void life(double entry, double end, double count) {
    if (!(end > 0 && end < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException("an age is positive and finite, not " + end);
    }
    if (!(entry >= 0 && entry < end)) {
      throw new IllegalArgumentException(
          "an entry age is at least 0 and below the age " + end + " at the end, not " + entry);
    }
    if (!(count > 0 && count < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException("a count is positive and finite, not " + count);
    }
  }
}

package org.vaneward.stats.numeric;

/** Guards of arguments. Written so that NaN fails them. */
final class Guards {
  private Guards() {}

  static void bracket(double low, double high) {
    if (!(low < high && Math.abs(low) < Double.POSITIVE_INFINITY && high - low > 0)
        || Double.isInfinite(high - low)) {
      throw new IllegalArgumentException(
          "a bracket runs from a finite number to a greater one, not from " + low + " to " + high);
    }
  }
}

package org.vaneward.stats.pooling;

/** The polynomial of third degree through four values at the places -1, 0, 1 and 2. */
final class Cubic {
  static final int POINTS = 4;

  private Cubic() {}

  /** The weight of each value at {@code t}, between 0 and 1 (Lagrange). */
  static double[] weights(double t) {
    return new double[] {
      -t * (t - 1) * (t - 2) / 6,
      (t + 1) * (t - 1) * (t - 2) / 2,
      -(t + 1) * t * (t - 2) / 2,
      (t + 1) * t * (t - 1) / 6
    };
  }

  static double between(double before, double low, double high, double after, double t) {
    return -t * (t - 1) * (t - 2) / 6 * before
        + (t + 1) * (t - 1) * (t - 2) / 2 * low
        - (t + 1) * t * (t - 2) / 2 * high
        + (t + 1) * t * (t - 1) / 6 * after;
  }
}

package org.vaneward.stats.pooling;

/** Polynomials through the values at Chebyshev's points, in one and two directions. */
final class Chebyshev {
  static final int POINTS = 14;

  private static final double[][] COSINES = new double[POINTS][POINTS];

  static {
    for (int k = 0; k < POINTS; k++) {
      for (int j = 0; j < POINTS; j++) {
        double factor = (k == 0 ? 1.0 : 2.0) / POINTS;
        COSINES[k][j] = factor * Math.cos(k * Math.PI * (j + 0.5) / POINTS);
      }
    }
  }

  private Chebyshev() {}

  /** Point {@code j}, between -1 and 1. */
  static double node(int j) {
    return Math.cos(Math.PI * (j + 0.5) / POINTS);
  }

  /**
   * Coefficients of the product series.
   *
   * @param values at (node of the first index, node of the second). Not modified.
   */
  static double[][] coefficients(double[][] values) {
    double[][] half = new double[POINTS][POINTS];
    for (int j = 0; j < POINTS; j++) {
      half[j] = coefficients(values[j]);
    }
    double[][] all = new double[POINTS][POINTS];
    for (int k = 0; k < POINTS; k++) {
      for (int j = 0; j < POINTS; j++) {
        for (int i = 0; i < POINTS; i++) {
          all[k][i] += COSINES[k][j] * half[j][i];
        }
      }
    }
    return all;
  }

  private static double[] coefficients(double[] values) {
    double[] c = new double[POINTS];
    for (int k = 0; k < POINTS; k++) {
      for (int j = 0; j < POINTS; j++) {
        c[k] += COSINES[k][j] * values[j];
      }
    }
    return c;
  }

  /** The polynomials themselves at {@code t}. */
  static double[] polynomials(double t) {
    double[] p = new double[POINTS];
    p[0] = 1;
    p[1] = t;
    for (int k = 2; k < POINTS; k++) {
      p[k] = 2 * t * p[k - 1] - p[k - 2];
    }
    return p;
  }
}

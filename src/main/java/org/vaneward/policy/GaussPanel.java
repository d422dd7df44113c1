package org.vaneward.policy;

/**
 * The 16-point Gauss–Legendre rule on [-1, 1], for several integrands in one pass.
 *
 * <p>Nodes are the roots of the Legendre polynomial, by Newton's method from the usual first guess
 * (Abramowitz and Stegun, 25.4.29 and 22.16.6; formulas from memory, checked by integrating
 * polynomials up to degree 31).
 */
final class GaussPanel {
  static final int POINTS = 16;
  private static final double[] NODES = new double[POINTS];
  private static final double[] WEIGHTS = new double[POINTS];

  static {
    for (int i = 0; i < POINTS; i++) {
      double x = Math.cos(Math.PI * (i + 0.75) / (POINTS + 0.5));
      // Newton doubles the digits: five steps are more than the first guess needs.
      for (int step = 0; step < 5; step++) {
        double[] p = legendre(x);
        x -= p[0] / p[1];
      }
      double slope = legendre(x)[1];
      NODES[i] = x;
      WEIGHTS[i] = 2 / ((1 - x * x) * slope * slope);
    }
  }

  private GaussPanel() {}

  static double node(int i) {
    return NODES[i];
  }

  static double weight(int i) {
    return WEIGHTS[i];
  }

  /** Value and slope of the Legendre polynomial of degree {@link #POINTS}. */
  private static double[] legendre(double x) {
    double before = 1;
    double value = x;
    for (int n = 2; n <= POINTS; n++) {
      double next = ((2 * n - 1) * x * value - (n - 1) * before) / n;
      before = value;
      value = next;
    }
    return new double[] {value, POINTS * (x * value - before) / (x * x - 1)};
  }
}

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
  private static final double[] NODES;
  private static final double[] WEIGHTS;

  static {
    double[][] rule = rule(POINTS);
    NODES = rule[0];
    WEIGHTS = rule[1];
  }

  private GaussPanel() {}

  /** Nodes and weights of the rule with {@code points} points. */
  static double[][] rule(int points) {
    double[][] rule = new double[2][points];
    for (int i = 0; i < points; i++) {
      double x = Math.cos(Math.PI * (i + 0.75) / (points + 0.5));
      // Newton doubles the digits: five steps are more than the first guess needs.
      for (int step = 0; step < 5; step++) {
        double[] p = legendre(points, x);
        x -= p[0] / p[1];
      }
      double slope = legendre(points, x)[1];
      rule[0][i] = x;
      rule[1][i] = 2 / ((1 - x * x) * slope * slope);
    }
    return rule;
  }

  static double node(int i) {
    return NODES[i];
  }

  static double weight(int i) {
    return WEIGHTS[i];
  }

  /** Value and slope of the Legendre polynomial of a degree. */
  private static double[] legendre(int degree, double x) {
    double before = 1;
    double value = x;
    for (int n = 2; n <= degree; n++) {
      double next = ((2 * n - 1) * x * value - (n - 1) * before) / n;
      before = value;
      value = next;
    }
    return new double[] {value, degree * (x * value - before) / (x * x - 1)};
  }
}

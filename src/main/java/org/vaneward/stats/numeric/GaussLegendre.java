package org.vaneward.stats.numeric;

import java.util.Arrays;

/**
 * A Gauss–Legendre rule on [-1, 1], and the polynomial through values at its nodes.
 *
 * <p>Nodes are the roots of the Legendre polynomial, by Newton's method from the usual first guess
 * (Abramowitz and Stegun, 25.4.29 and 22.16.6; formulas from memory, checked by integrating
 * polynomials up to degree 2n - 1). The polynomial is evaluated in barycentric form (Berrut and
 * Trefethen, SIAM Review 46, 2004, from memory).
 */
public final class GaussLegendre {
  private final double[] nodes;
  private final double[] weights;
  private final double[] barycentric;

  private GaussLegendre(int points) {
    nodes = new double[points];
    weights = new double[points];
    barycentric = new double[points];
    for (int i = 0; i < points; i++) {
      double x = -Math.cos(Math.PI * (i + 0.75) / (points + 0.5));
      // Newton doubles the digits: five steps are more than the first guess needs.
      for (int step = 0; step < 5; step++) {
        double[] p = legendre(points, x);
        x -= p[0] / p[1];
      }
      double slope = legendre(points, x)[1];
      nodes[i] = x;
      weights[i] = 2 / ((1 - x * x) * slope * slope);
      barycentric[i] = (i % 2 == 0 ? 1 : -1) * Math.sqrt((1 - x * x) * weights[i]);
    }
  }

  /**
   * The rule with {@code points} points.
   *
   * @throws IllegalArgumentException when there is not at least one point
   */
  public static GaussLegendre of(int points) {
    if (points < 1) {
      throw new IllegalArgumentException("a rule has at least 1 point, not " + points);
    }
    return new GaussLegendre(points);
  }

  /** Number of points. */
  public int points() {
    return nodes.length;
  }

  /** Node {@code i}, ascending in (-1, 1). */
  public double node(int i) {
    return nodes[i];
  }

  /** Weight of node {@code i}; all weights together are 2. */
  public double weight(int i) {
    return weights[i];
  }

  /**
   * Writes what each node's value counts for in the polynomial at {@code x}.
   *
   * @param into one entry for each node; their sum is 1
   */
  public void lagrange(double x, double[] into) {
    double total = 0;
    for (int i = 0; i < nodes.length; i++) {
      double away = x - nodes[i];
      if (away == 0) {
        Arrays.fill(into, 0);
        into[i] = 1;
        return;
      }
      into[i] = barycentric[i] / away;
      total += into[i];
    }
    for (int i = 0; i < nodes.length; i++) {
      into[i] /= total;
    }
  }

  /** The polynomial through {@code values[from + i]} at node {@code i}, at {@code x}. */
  public double interpolate(double[] values, int from, double x) {
    double above = 0;
    double below = 0;
    for (int i = 0; i < nodes.length; i++) {
      double away = x - nodes[i];
      if (away == 0) {
        return values[from + i];
      }
      double share = barycentric[i] / away;
      above += share * values[from + i];
      below += share;
    }
    return above / below;
  }

  /** The slope, at node {@code i}, of the polynomial through {@code values} at the nodes. */
  public double slope(double[] values, int i) {
    double total = 0;
    for (int j = 0; j < nodes.length; j++) {
      if (j != i) {
        double share = barycentric[j] / barycentric[i] / (nodes[i] - nodes[j]);
        total += share * (values[j] - values[i]);
      }
    }
    return total;
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

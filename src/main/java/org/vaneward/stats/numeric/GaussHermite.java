package org.vaneward.stats.numeric;

import java.util.Arrays;
import org.apache.commons.math3.linear.EigenDecomposition;

/**
 * The Gauss–Hermite rule of n points: the integral over the whole line of {@code exp(-x^2) p(x)} is
 * exact for polynomials p of degree up to 2n - 1.
 *
 * <p>Weights are kept as logarithms of {@code weight * exp(x^2)}: what multiplies the integrand
 * itself. Those neither overflow nor vanish, so a rule serves any integrand that looks like a bell.
 *
 * <p>Points start as eigenvalues of the Jacobi matrix (G. H. Golub and J. H. Welsch, Mathematics of
 * Computation 23, 1969) and are polished by Newton's method on the Hermite function, whose
 * recurrence stays within range where that of the polynomial does not.
 */
public final class GaussHermite {
  private static final int MOST_POINTS = 400;
  private static final int POLISH = 3;
  private static final double FIRST = Math.pow(Math.PI, -0.25);

  private final double[] points;
  private final double[] logWeights;

  private GaussHermite(double[] points, double[] logWeights) {
    this.points = points;
    this.logWeights = logWeights;
  }

  /**
   * The rule of {@code n} points.
   *
   * @throws IllegalArgumentException unless n is from 2 to 400
   */
  public static GaussHermite of(int n) {
    if (n < 2 || n > MOST_POINTS) {
      throw new IllegalArgumentException("a rule has 2 to " + MOST_POINTS + " points, not " + n);
    }
    double[] secondary = new double[n - 1];
    for (int i = 1; i < n; i++) {
      secondary[i - 1] = Math.sqrt(i / 2.0);
    }
    double[] start = new EigenDecomposition(new double[n], secondary).getRealEigenvalues();
    Arrays.sort(start);
    double[] points = new double[n];
    double[] logWeights = new double[n];
    for (int i = 0; i < (n + 1) / 2; i++) {
      double x = 2 * i + 1 == n ? 0 : polished(n, Math.abs(start[i]));
      points[i] = -x;
      points[n - 1 - i] = x;
      logWeights[i] = -Math.log(n) - 2 * Math.log(Math.abs(functions(n, x)[0]));
      logWeights[n - 1 - i] = logWeights[i];
    }
    return new GaussHermite(points, logWeights);
  }

  private static double polished(int n, double start) {
    double x = start;
    for (int i = 0; i < POLISH; i++) {
      double[] f = functions(n, x);
      x -= f[1] / (Math.sqrt(2.0 * n) * f[0] - x * f[1]);
    }
    return x;
  }

  /** The orthonormal Hermite functions of degree n - 1 and n. */
  private static double[] functions(int n, double x) {
    double before = 0;
    double at = FIRST * Math.exp(-x * x / 2);
    for (int k = 0; k < n; k++) {
      double next = x * Math.sqrt(2.0 / (k + 1)) * at - Math.sqrt(k / (k + 1.0)) * before;
      before = at;
      at = next;
    }
    return new double[] {before, at};
  }

  /** Number of points. */
  public int size() {
    return points.length;
  }

  /** Point {@code i}, in rising order. */
  public double point(int i) {
    return points[i];
  }

  /** Log of the factor of the integrand at point {@code i}. */
  public double logWeight(int i) {
    return logWeights[i];
  }
}

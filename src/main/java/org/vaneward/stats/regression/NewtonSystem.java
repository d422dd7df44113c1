package org.vaneward.stats.regression;

/**
 * One step of Newton's method: the information, damped where it is not definite, against a slope.
 */
final class NewtonSystem {
  /** A pivot of the matrix scaled to unit diagonal below this is singular. */
  private static final double SINGULAR = 1e-14;

  private static final double FIRST_DAMPING = 1e-6;
  private static final double MOST_DAMPING = 1e8;

  private NewtonSystem() {}

  /**
   * A step that rises.
   *
   * @param information symmetric; only its first n rows and columns are used
   * @param gradient its first n entries are used
   * @return length n
   */
  static double[] step(double[][] information, double[] gradient, int n) {
    double[] root = new double[n];
    for (int i = 0; i < n; i++) {
      double size = Math.abs(information[i][i]);
      root[i] = size > 0 && size < Double.POSITIVE_INFINITY ? Math.sqrt(size) : 1;
    }
    double[][] factor = new double[n][n];
    if (!factored(information, root, 0, factor)) {
      double damping = FIRST_DAMPING;
      while (!factored(information, root, damping, factor) && damping < MOST_DAMPING) {
        damping *= 10;
      }
    }
    return solved(factor, root, gradient);
  }

  private static boolean factored(double[][] a, double[] root, double damping, double[][] l) {
    for (int i = 0; i < root.length; i++) {
      for (int j = 0; j <= i; j++) {
        double sum = a[i][j] / root[i] / root[j] + (i == j ? damping : 0);
        for (int k = 0; k < j; k++) {
          sum -= l[i][k] * l[j][k];
        }
        if (i > j) {
          l[i][j] = sum / l[j][j];
        } else if (sum > SINGULAR) {
          l[i][i] = Math.sqrt(sum);
        } else {
          return false;
        }
      }
    }
    return true;
  }

  private static double[] solved(double[][] l, double[] root, double[] b) {
    int n = root.length;
    double[] x = new double[n];
    for (int i = 0; i < n; i++) {
      double sum = b[i] / root[i];
      for (int k = 0; k < i; k++) {
        sum -= l[i][k] * x[k];
      }
      x[i] = sum / l[i][i];
    }
    for (int i = n - 1; i >= 0; i--) {
      double sum = x[i];
      for (int k = i + 1; k < n; k++) {
        sum -= l[k][i] * x[k];
      }
      x[i] = sum / l[i][i];
    }
    for (int i = 0; i < n; i++) {
      x[i] /= root[i];
    }
    return x;
  }
}

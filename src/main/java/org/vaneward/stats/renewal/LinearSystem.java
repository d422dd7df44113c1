package org.vaneward.stats.renewal;

/** Gaussian elimination with partial pivoting, for the few unknowns of one panel. */
final class LinearSystem {
  private LinearSystem() {}

  /**
   * Solves a system in place.
   *
   * @param rows coefficients and, last, the right-hand side; holds the solution there afterwards
   */
  static void solve(double[][] rows) {
    int n = rows.length;
    for (int column = 0; column < n; column++) {
      pivot(rows, column);
      double[] top = rows[column];
      for (int row = column + 1; row < n; row++) {
        double factor = rows[row][column] / top[column];
        for (int k = column; k <= n; k++) {
          rows[row][k] -= factor * top[k];
        }
      }
    }
    for (int row = n - 1; row >= 0; row--) {
      double value = rows[row][n];
      for (int k = row + 1; k < n; k++) {
        value -= rows[row][k] * rows[k][n];
      }
      rows[row][n] = value / rows[row][row];
    }
  }

  private static void pivot(double[][] rows, int column) {
    int best = column;
    for (int row = column + 1; row < rows.length; row++) {
      if (Math.abs(rows[row][column]) > Math.abs(rows[best][column])) {
        best = row;
      }
    }
    double[] swapped = rows[column];
    rows[column] = rows[best];
    rows[best] = swapped;
  }
}

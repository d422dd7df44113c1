package org.vaneward.stats.comparison;

import java.util.Arrays;
import java.util.Optional;
import org.vaneward.stats.numeric.SpdMatrix;

/**
 * The groups of a log-rank test as a network: two are linked when their covariance is not zero. The
 * covariance is singular once for each set of linked groups and for nothing else, so leaving one
 * group of each set out inverts it.
 */
final class LinkedGroups {
  private final double[][] variance;

  /** The groups kept: linked ones, without the first of each set. */
  private final int[] kept;

  LinkedGroups(double[][] variance) {
    this.variance = variance;
    int n = variance.length;
    int[] set = new int[n];
    for (int g = 0; g < n; g++) {
      set[g] = g;
    }
    for (int g = 0; g < n; g++) {
      for (int h = 0; h < g; h++) {
        if (variance[g][h] < 0 && set[g] != set[h]) {
          join(set, set[g], set[h]);
        }
      }
    }
    int[] free = new int[n];
    int size = 0;
    for (int g = 0; g < n; g++) {
      if (set[g] != g) {
        free[size++] = g;
      }
    }
    kept = Arrays.copyOf(free, size);
  }

  /** Sets are named after their first group. */
  private static void join(int[] set, int a, int b) {
    int first = Math.min(a, b);
    int other = Math.max(a, b);
    for (int g = 0; g < set.length; g++) {
      if (set[g] == other) {
        set[g] = first;
      }
    }
  }

  int degreesOfFreedom() {
    return kept.length;
  }

  /** x' V^- x; not a number when the variance of the groups kept is singular after all. */
  double quadraticForm(double[] x) {
    int n = kept.length;
    double[][] matrix = new double[n][n];
    double[] y = new double[n];
    for (int i = 0; i < n; i++) {
      y[i] = x[kept[i]];
      for (int j = 0; j < n; j++) {
        matrix[i][j] = variance[kept[i]][kept[j]];
      }
    }
    Optional<SpdMatrix> factored = SpdMatrix.of(matrix);
    if (factored.isEmpty()) {
      return Double.NaN;
    }
    double[] solved = factored.get().solve(y);
    double sum = 0;
    for (int i = 0; i < n; i++) {
      sum += y[i] * solved[i];
    }
    return sum;
  }
}

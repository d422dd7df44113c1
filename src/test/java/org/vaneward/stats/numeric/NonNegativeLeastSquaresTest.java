package org.vaneward.stats.numeric;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

class NonNegativeLeastSquaresTest {
  @Test
  void aPointInTheConeLeavesNothing() {
    double[][] columns = {{1, 0}, {1, 1}};
    assertArrayEquals(
        new double[] {0, 0},
        NonNegativeLeastSquares.remainder(columns, new double[] {3, 2}),
        1e-15);
  }

  @Test
  void aPointBesideTheConeLeavesItsDistance() {
    // nearest to (1, 2) in the cone of (1, 0) and (1, 1) is (1.5, 1.5)
    double[][] columns = {{1, 0}, {1, 1}};
    assertArrayEquals(
        new double[] {-0.5, 0.5},
        NonNegativeLeastSquares.remainder(columns, new double[] {1, 2}),
        1e-15);
  }

  @Test
  void aPointBehindTheConeIsLeftWhole() {
    double[][] columns = {{1, 0}, {0, 1}};
    assertArrayEquals(
        new double[] {-1, -2},
        NonNegativeLeastSquares.remainder(columns, new double[] {-1, -2}),
        0);
    assertArrayEquals(
        new double[] {-1}, NonNegativeLeastSquares.remainder(new double[0][], new double[] {-1}));
  }

  /** Optimality: no column has a positive product with the remainder; it is at right angles. */
  @Test
  void theRemainderMeetsTheConditionsOfAnOptimum() {
    SplittableRandom random = new SplittableRandom(1974);
    for (int run = 0; run < 300; run++) {
      int m = 1 + random.nextInt(6);
      int n = 1 + random.nextInt(40);
      double[][] columns = new double[n][m];
      double[] point = new double[m];
      for (int i = 0; i < m; i++) {
        point[i] = random.nextDouble() - 0.5;
        for (int j = 0; j < n; j++) {
          // small whole numbers: many dependent and opposite columns
          columns[j][i] = random.nextInt(4) - (run % 2 == 0 ? 0 : 1.5);
        }
      }
      double[] rest = NonNegativeLeastSquares.remainder(columns, point);
      for (double[] column : columns) {
        assertTrue(dot(column, rest) <= 1e-9, "run " + run);
      }
      double[] nearest = new double[m];
      for (int i = 0; i < m; i++) {
        nearest[i] = point[i] - rest[i];
      }
      assertEquals(0, dot(nearest, rest), 1e-9, "run " + run);
    }
  }

  private static double dot(double[] v, double[] w) {
    double sum = 0;
    for (int i = 0; i < v.length; i++) {
      sum += v[i] * w[i];
    }
    return sum;
  }
}

package org.vaneward.stats.numeric;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

class SpdMatrixTest {
  /** The inverse of the Hilbert matrix of order 3 and its determinant 1 / 2160, in closed form. */
  private static final double[][] HILBERT = {
    {1, 1.0 / 2, 1.0 / 3}, {1.0 / 2, 1.0 / 3, 1.0 / 4}, {1.0 / 3, 1.0 / 4, 1.0 / 5}
  };

  @Test
  void hilbert() {
    SpdMatrix matrix = SpdMatrix.of(HILBERT).orElseThrow();
    double[][] inverse = matrix.inverse();
    assertArrayEquals(new double[] {9, -36, 30}, inverse[0], 1e-10);
    assertArrayEquals(new double[] {-36, 192, -180}, inverse[1], 1e-10);
    assertArrayEquals(new double[] {30, -180, 180}, inverse[2], 1e-10);
    assertEquals(-Math.log(2160), matrix.logDeterminant(), 1e-11);
  }

  @Test
  void solvesWhatTheInverseSolves() {
    SpdMatrix matrix = SpdMatrix.of(HILBERT).orElseThrow();
    assertArrayEquals(new double[] {9, -36, 30}, matrix.solve(new double[] {1, 0, 0}), 1e-10);
  }

  @Test
  void unitsDoNotDecideWhatIsSingular() {
    double[][] tiny = {{1e-30, 0.5e-18}, {0.5e-18, 1e-6}};
    assertEquals(0.5, SpdMatrix.of(tiny).orElseThrow().smallestEigenvalue(), 1e-12);
  }

  @Test
  void whatIsNotPositiveDefiniteIsRefused() {
    assertTrue(SpdMatrix.of(new double[][] {{1, 1}, {1, 1}}).isEmpty());
    assertTrue(SpdMatrix.of(new double[][] {{1, 2}, {2, 1}}).isEmpty());
    assertTrue(SpdMatrix.of(new double[][] {{0, 0}, {0, 1}}).isEmpty());
    assertTrue(SpdMatrix.of(new double[][] {{Double.NaN}}).isEmpty());
  }
}

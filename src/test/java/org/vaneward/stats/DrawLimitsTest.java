package org.vaneward.stats;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

class DrawLimitsTest {
  private static final double EVER = Double.POSITIVE_INFINITY;
  private static final double[] TO_TEN = {7, 0, 3, 10, 1, 9, 2, 8, 4, 6, 5};

  @Test
  void leavesAsMuchOutOnEitherSide() {
    Estimate wide = DrawLimits.of(4.2, TO_TEN, 0.8);
    assertEquals(4.2, wide.estimate());
    assertEquals(1, wide.lower(), 1e-12);
    assertEquals(9, wide.upper(), 1e-12);
    Estimate mean = DrawLimits.ofMean(TO_TEN, 0.5);
    assertEquals(5, mean.estimate(), 1e-12);
    assertEquals(2.5, mean.lower(), 1e-12);
    assertEquals(7.5, mean.upper(), 1e-12);
    assertEquals(7, TO_TEN[0], "draws are left in their order");
  }

  @Test
  void quantilesLieOnLinesBetweenDraws() {
    assertEquals(0, DrawLimits.quantile(TO_TEN, 0));
    assertEquals(10, DrawLimits.quantile(TO_TEN, 1));
    assertEquals(3.7, DrawLimits.quantile(TO_TEN, 0.37), 1e-12);
    assertEquals(8, DrawLimits.quantile(new double[] {8}, 0.3));
    assertEquals(12.5, DrawLimits.quantile(new double[] {10, 30, 20}, 0.125), 1e-12);
  }

  /** Infinite draws stand for never: between two of them there is no line. */
  @Test
  void infiniteDrawsAreNoTrouble() {
    double[] draws = {EVER, 1, EVER};
    assertEquals(EVER, DrawLimits.quantile(draws, 0.75));
    assertEquals(1, DrawLimits.quantile(draws, 0));
    assertEquals(EVER, DrawLimits.quantile(draws, 0.5));
  }
}

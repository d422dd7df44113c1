package org.vaneward.stats.numeric;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

class LogSpaceTest {
  @Test
  void differencesKeepTheirDigits() {
    assertEquals(Math.log(1e-12), LogSpace.log1mExp(1e-12), 1e-11);
    assertEquals(-Math.exp(-50), LogSpace.log1mExp(50), 1e-37);
    assertEquals(Math.log(3 - 2), LogSpace.logDiffExp(Math.log(3), Math.log(2)), 1e-15);
    assertEquals(-2000 + Math.log1p(-Math.exp(-1)), LogSpace.logDiffExp(-2000, -2001), 1e-12);
    assertEquals(Double.NEGATIVE_INFINITY, LogSpace.logDiffExp(-3, -3));
    assertEquals(-7, LogSpace.logDiffExp(-7, Double.NEGATIVE_INFINITY));
  }

  @Test
  void sumsDoNotOverflow() {
    assertEquals(2000 + Math.log(2), LogSpace.logSumExp(2000, 2000), 1e-12);
    assertEquals(-5, LogSpace.logSumExp(-5, Double.NEGATIVE_INFINITY));
    assertEquals(
        Double.NEGATIVE_INFINITY,
        LogSpace.logSumExp(Double.NEGATIVE_INFINITY, Double.NEGATIVE_INFINITY));
  }
}

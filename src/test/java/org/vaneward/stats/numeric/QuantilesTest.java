package org.vaneward.stats.numeric;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class QuantilesTest {
  /** Tabulated values of the normal distribution, from memory (Abramowitz and Stegun, ch. 26). */
  @ParameterizedTest
  @CsvSource({
    "0.5, 0",
    "0.975, 1.959963984540054",
    "0.95, 1.6448536269514722",
    "0.9, 1.2815515655446004"
  })
  void normal(double p, double z) {
    assertEquals(z, Quantiles.normal(p), 4e-16 * 8);
    assertEquals(p, Quantiles.normalShare(z), 1e-15);
  }

  /** With two degrees of freedom the tail is exp(-x / 2); with one, the squared normal. */
  @Test
  void chiSquareClosedForms() {
    assertEquals(2e-10, Quantiles.chiSquare(1e-10, 2), 1e-19);
    assertEquals(-2 * Math.log(0.05), Quantiles.chiSquare(0.95, 2), 1e-14);
    assertEquals(3.841458820694124, Quantiles.chiSquare(0.95, 1), 5e-15);
    assertEquals(2.7055434540954146, Quantiles.chiSquare(0.90, 1), 5e-15);
    assertEquals(Math.exp(-3.7), Quantiles.chiSquareTail(7.4, 2), 1e-16);
    assertEquals(1, Quantiles.chiSquareTail(-1e-12, 3));
  }

  /** Even degrees of freedom 2m: the tail is a Poisson sum. */
  @ParameterizedTest
  @CsvSource({"0.025, 12", "0.975, 14", "1e-8, 6", "0.999999, 40", "0.5, 4"})
  void chiSquareAgainstPoissonSums(double p, int freedom) {
    double x = Quantiles.chiSquare(p, freedom);
    double term = Math.exp(-x / 2);
    double tail = term;
    for (int i = 1; i < freedom / 2; i++) {
      term *= x / 2 / i;
      tail += term;
    }
    double below = p < 0.01 ? lowerSeries(x, freedom) : 1 - tail;
    assertEquals(p, below, 1e-11 * Math.max(p, 1 - p > 0.5 ? p : 1));
  }

  /** The lower tail from its own series, since 1 minus the upper one has no digits left. */
  private static double lowerSeries(double x, int freedom) {
    int m = freedom / 2;
    double term = Math.exp(-x / 2);
    for (int i = 1; i <= m; i++) {
      term *= x / 2 / i;
    }
    double sum = 0;
    for (int i = m + 1; i < m + 60; i++) {
      sum += term;
      term *= x / 2 / i;
    }
    return sum;
  }

  @Test
  void misuseIsRefused() {
    assertThrows(IllegalArgumentException.class, () -> Quantiles.normal(1));
    assertThrows(IllegalArgumentException.class, () -> Quantiles.normal(Double.NaN));
    assertThrows(IllegalArgumentException.class, () -> Quantiles.chiSquare(0, 1));
    assertThrows(IllegalArgumentException.class, () -> Quantiles.chiSquare(0.5, 0));
    assertThrows(IllegalArgumentException.class, () -> Quantiles.chiSquareTail(1, -2));
  }
}

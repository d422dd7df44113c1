package org.vaneward.stats.numeric;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.function.Executable;
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

  /**
   * Where the share has digits its log is at hand; further out Mills' ratio lies between bounds.
   */
  @Test
  void logOfANormalShareHoldsFarOut() {
    for (double z = -9.9; z < 9; z += 0.3) {
      double share = Quantiles.normalShare(z);
      double expected = z < 0 ? Math.log(share) : Math.log1p(-Quantiles.normalShare(-z));
      assertEquals(expected, Quantiles.logNormalShare(z), 1e-13 * Math.abs(expected));
    }
    assertEquals(Math.log(0.5), Quantiles.logNormalShare(0), 1e-15);
    for (double x : new double[] {10.5, 20, 40, 100}) {
      double logDensity = -x * x / 2 - Math.log(2 * Math.PI) / 2;
      double logShare = Quantiles.logNormalShare(-x);
      assertTrue(logShare < logDensity - Math.log(x), "at " + x);
      assertTrue(logShare > logDensity + Math.log(x / (1 + x * x)), "at " + x);
    }
  }

  @Test
  void sharesAndTailsOfGammaAndBetaHaveTheirClosedForms() {
    for (double x : new double[] {0.01, 0.3, 0.9}) {
      assertEquals(-Math.expm1(-x), Quantiles.gammaShare(x, 1), 1e-15);
      assertEquals(Math.exp(-x), Quantiles.gammaTail(x, 1), 1e-15);
      assertEquals(1 - Math.pow(1 - x, 3), Quantiles.betaShare(x, 1, 3), 1e-15);
      assertEquals(Math.pow(1 - x, 3), Quantiles.betaTail(x, 1, 3), 1e-15);
      assertEquals(x, Quantiles.betaShare(Quantiles.beta(x, 2.5, 0.7), 2.5, 0.7), 1e-13);
      assertEquals(x, Quantiles.gammaShare(Quantiles.gamma(x, 2.5), 2.5), 1e-13);
    }
    for (double before : new double[] {0, -1}) {
      assertEquals(0, Quantiles.gammaShare(before, 2));
      assertEquals(1, Quantiles.gammaTail(before, 2));
      assertEquals(0, Quantiles.betaShare(before, 2, 3));
      assertEquals(1, Quantiles.betaTail(before, 2, 3));
      assertEquals(1, Quantiles.chiSquareTail(before, 2));
    }
    for (double beyond : new double[] {1, 2}) {
      assertEquals(1, Quantiles.betaShare(beyond, 2, 3));
      assertEquals(0, Quantiles.betaTail(beyond, 2, 3));
    }
  }

  @Test
  void halfOfWhatIsLeftOutLiesOnEitherSide() {
    for (double confidence : new double[] {0.5, 0.9, 0.999}) {
      double z = Quantiles.twoSidedNormal(confidence);
      assertEquals(confidence, Quantiles.normalShare(z) - Quantiles.normalShare(-z), 1e-14);
    }
    assertThrows(IllegalArgumentException.class, () -> Quantiles.twoSidedNormal(0));
    assertThrows(IllegalArgumentException.class, () -> Quantiles.twoSidedNormal(1));
  }

  @Test
  void parametersOutOfTheirRangeAreRefused() {
    for (double none : new double[] {0, -1, Double.POSITIVE_INFINITY, Double.NaN}) {
      refused(() -> Quantiles.chiSquare(0.5, none));
      refused(() -> Quantiles.chiSquareTail(1, none));
      refused(() -> Quantiles.chiSquareTail(-1, none));
      refused(() -> Quantiles.gamma(0.5, none));
      refused(() -> Quantiles.gammaShare(-1, none));
      refused(() -> Quantiles.gammaTail(-1, none));
      refused(() -> Quantiles.beta(0.5, none, 1));
      refused(() -> Quantiles.beta(0.5, 1, none));
      refused(() -> Quantiles.betaShare(-1, none, 1));
      refused(() -> Quantiles.betaShare(-1, 1, none));
      refused(() -> Quantiles.betaTail(-1, none, 1));
      refused(() -> Quantiles.betaTail(-1, 1, none));
    }
    for (double none : new double[] {0, 1, Double.NaN}) {
      refused(() -> Quantiles.gamma(none, 1));
      refused(() -> Quantiles.beta(none, 1, 1));
    }
  }

  private static void refused(Executable call) {
    assertThrows(IllegalArgumentException.class, call);
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

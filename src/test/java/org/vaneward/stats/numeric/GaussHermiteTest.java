package org.vaneward.stats.numeric;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class GaussHermiteTest {
  /** H2 = 4x^2 - 2 and H3 = 8x^3 - 12x have their roots in closed form. */
  @Test
  void smallRulesAreThoseOfTheClosedForm() {
    GaussHermite two = GaussHermite.of(2);
    assertEquals(-Math.sqrt(0.5), two.point(0), 1e-15);
    assertEquals(Math.sqrt(Math.PI) / 2, weight(two, 1), 1e-15);
    GaussHermite three = GaussHermite.of(3);
    assertEquals(Math.sqrt(1.5), three.point(2), 1e-15);
    assertEquals(0, three.point(1));
    assertEquals(2 * Math.sqrt(Math.PI) / 3, weight(three, 1), 1e-14);
    assertEquals(Math.sqrt(Math.PI) / 6, weight(three, 0), 1e-14);
  }

  /** The integral of exp(-x^2) x^(2m) is gamma(m + 1/2). */
  @ParameterizedTest
  @ValueSource(ints = {2, 5, 10, 20, 40, 80, 160, 400})
  void polynomialsAreIntegratedExactly(int n) {
    GaussHermite rule = GaussHermite.of(n);
    double expected = Math.sqrt(Math.PI);
    for (int m = 0; 2 * m <= Math.min(2 * n - 1, 60); m++) {
      double sum = 0;
      for (int i = 0; i < n; i++) {
        sum += weight(rule, i) * Math.pow(rule.point(i), 2 * m);
      }
      assertEquals(1, sum / expected, 1e-12, n + " points, power " + 2 * m);
      expected *= m + 0.5;
    }
  }

  @Test
  void pointsRiseAndAreMirrored() {
    GaussHermite rule = GaussHermite.of(41);
    assertEquals(41, rule.size());
    for (int i = 0; i < 41; i++) {
      assertEquals(0, rule.point(i) + rule.point(40 - i), 0);
      assertTrue(i == 0 || rule.point(i) > rule.point(i - 1));
    }
  }

  @ParameterizedTest
  @ValueSource(ints = {-1, 0, 1, 401})
  void otherSizesAreRefused(int n) {
    assertTrue(
        String.valueOf(
                assertThrows(IllegalArgumentException.class, () -> GaussHermite.of(n)).getMessage())
            .contains(String.valueOf(n)));
  }

  private static double weight(GaussHermite rule, int i) {
    return Math.exp(rule.logWeight(i) - rule.point(i) * rule.point(i));
  }
}

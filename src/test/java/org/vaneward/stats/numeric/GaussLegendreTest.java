package org.vaneward.stats.numeric;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class GaussLegendreTest {
  @ParameterizedTest
  @ValueSource(ints = {1, 2, 5, 8, 16, 31})
  void theRuleIsExactForPolynomialsOfTwiceItsPoints(int points) {
    GaussLegendre rule = GaussLegendre.of(points);
    for (int degree = 0; degree < 2 * points; degree++) {
      double sum = 0;
      for (int i = 0; i < points; i++) {
        sum += rule.weight(i) * Math.pow(rule.node(i), degree);
      }
      assertEquals(degree % 2 == 0 ? 2.0 / (degree + 1) : 0, sum, 5e-15, "degree " + degree);
    }
  }

  @Test
  void thePolynomialThroughTheNodesIsFound() {
    GaussLegendre rule = GaussLegendre.of(8);
    double[] values = new double[10];
    for (int i = 0; i < 8; i++) {
      values[2 + i] = Math.pow(rule.node(i), 7) - 3 * rule.node(i);
    }
    double[] shares = new double[8];
    for (double x : new double[] {-1, -0.3, rule.node(3), 0.71, 1, 1.2}) {
      double expected = Math.pow(x, 7) - 3 * x;
      assertEquals(expected, rule.interpolate(values, 2, x), 1e-13);
      rule.lagrange(x, shares);
      double sum = IntStream.range(0, 8).mapToDouble(i -> shares[i] * values[2 + i]).sum();
      assertEquals(expected, sum, 1e-13);
    }
  }

  @ParameterizedTest
  @ValueSource(ints = {2, 3, 8, 16})
  void theSlopeOfAPolynomialIsExactAtTheNodes(int points) {
    GaussLegendre rule = GaussLegendre.of(points);
    assertEquals(points, rule.points());
    for (int degree = 0; degree < points; degree++) {
      double[] values = new double[points];
      for (int i = 0; i < points; i++) {
        values[i] = Math.pow(rule.node(i), degree);
      }
      for (int i = 0; i < points; i++) {
        double slope = degree == 0 ? 0 : degree * Math.pow(rule.node(i), degree - 1);
        assertEquals(slope, rule.slope(values, i), 1e-12, "degree " + degree);
      }
    }
  }

  @Test
  void aRuleHasAPoint() {
    assertThrows(IllegalArgumentException.class, () -> GaussLegendre.of(0));
  }
}

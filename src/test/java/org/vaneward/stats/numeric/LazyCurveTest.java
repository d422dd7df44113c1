package org.vaneward.stats.numeric;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

class LazyCurveTest {
  @Test
  void isTheFunctionOnBothSidesOfZeroAndAtTheSeams() {
    LazyCurve curve = new LazyCurve(Math::sin, 0.5);
    for (int i = -300; i <= 300; i++) {
      assertEquals(Math.sin(i / 100.0), curve.value(i / 100.0), 1e-13);
    }
  }

  @Test
  void cellsAreHalvedWhereTheFunctionIsSharp() {
    LazyCurve curve = new LazyCurve(x -> 1 / (1 + 2500 * x * x), 2);
    for (int i = 0; i <= 400; i++) {
      double x = i / 200.0;
      assertEquals(1 / (1 + 2500 * x * x), curve.value(x), 1e-10);
    }
    assertTrue(curve.evaluations() > 100, "evaluations: " + curve.evaluations());
  }

  @Test
  void onlyTheCellsAskedForAreWorkedOut() {
    LazyCurve curve = new LazyCurve(Math::exp, 1);
    curve.value(0.1);
    long once = curve.evaluations();
    curve.value(0.9);
    assertEquals(once, curve.evaluations());
    curve.value(1.1);
    assertEquals(2 * once, curve.evaluations());
  }

  @Test
  void aWidthIsPositive() {
    assertThrows(IllegalArgumentException.class, () -> new LazyCurve(Math::exp, 0));
    assertThrows(IllegalArgumentException.class, () -> new LazyCurve(Math::exp, Double.NaN));
  }
}

package org.vaneward.stats.numeric;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

class RootsTest {
  @Test
  void closedForms() {
    assertEquals(Math.sqrt(2), Roots.between(x -> x * x - 2, 0, 2).orElseThrow(), 4e-16);
    assertEquals(Math.PI, Roots.between(Math::sin, 3, 4).orElseThrow(), 9e-16);
    assertEquals(1e-9, Roots.between(x -> Math.log(x / 1e-9), 1e-30, 1).orElseThrow(), 1e-23);
    assertEquals(1e12, Roots.between(x -> x / 1e12 - 1, 1, 1e15).orElseThrow(), 1e-2);
  }

  @Test
  void tinyValuesAreNotTakenForZero() {
    double root = Roots.between(x -> 1e-30 * (x - 0.3), 0, 1).orElseThrow();
    assertEquals(0.3, root, 1e-15);
  }

  @Test
  void aRootAtAnEndIsFound() {
    assertEquals(2, Roots.between(x -> x - 2, 2, 3).orElseThrow());
    assertEquals(3, Roots.between(x -> x - 3, 2, 3).orElseThrow());
  }

  @Test
  void infiniteValuesAwayFromTheRootDoNoHarm() {
    double root =
        Roots.between(x -> x > 0.9 ? Double.POSITIVE_INFINITY : x - 0.25, 0, 1).orElseThrow();
    assertEquals(0.25, root, 1e-15);
    assertEquals(1, Roots.between(x -> Math.log(x), 0, 8).orElseThrow(), 1e-15);
  }

  @Test
  void noSignChangeAndNotANumberGiveNothing() {
    assertTrue(Roots.between(x -> x * x + 1, -1, 1).isEmpty());
    assertTrue(Roots.between(x -> Double.NaN, -1, 1).isEmpty());
    assertTrue(Roots.between(x -> Math.abs(x) < 0.9 ? Double.NaN : x, -1, 1).isEmpty());
  }

  @Test
  void aCoarseRootIsAsNearAsAskedFor() {
    for (double accuracy : new double[] {0.1, 1e-3, 1e-6, 0}) {
      double root = Roots.between(x -> x * x * x - 2, 0, 50, accuracy).orElseThrow();
      assertEquals(Math.cbrt(2), root, Math.max(accuracy, 1e-15));
    }
    assertThrows(IllegalArgumentException.class, () -> Roots.between(x -> x, -1, 1, -1e-9));
    assertThrows(IllegalArgumentException.class, () -> Roots.between(x -> x, -1, 1, Double.NaN));
  }

  @Test
  void aBracketTurnedRoundIsRefused() {
    IllegalArgumentException e =
        assertThrows(IllegalArgumentException.class, () -> Roots.between(x -> x, 2, 1));
    assertTrue(e.toString().contains("2.0"), e::toString);
    assertThrows(IllegalArgumentException.class, () -> Roots.between(x -> x, Double.NaN, 1));
    assertThrows(
        IllegalArgumentException.class, () -> Roots.between(x -> x, 0, Double.POSITIVE_INFINITY));
  }
}

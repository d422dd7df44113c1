package org.vaneward.stats.numeric;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.vaneward.stats.numeric.Minimum.Place.INTERIOR;
import static org.vaneward.stats.numeric.Minimum.Place.LOWER_EDGE;
import static org.vaneward.stats.numeric.Minimum.Place.NOWHERE;
import static org.vaneward.stats.numeric.Minimum.Place.UPPER_EDGE;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

class MinimumTest {
  @Test
  void insideTheBracket() {
    Minimum m = Minimum.between(x -> (x - 0.3) * (x - 0.3) + 7, -5, 11);
    assertEquals(INTERIOR, m.place());
    assertEquals(0.3, m.at(), 1e-7);
    assertEquals(7, m.value(), 1e-14);
  }

  @Test
  void xPlusOneOverXHasItsMinimumAtOne() {
    Minimum m = Minimum.between(x -> x + 1 / x, 1e-3, 1e3);
    assertEquals(1, m.at(), 1e-7);
    assertEquals(2, m.value(), 1e-14);
  }

  @Test
  void theDeeperOfTwoValleys() {
    Minimum m = Minimum.between(x -> Math.cos(x) + 0.01 * x, 0, 20);
    assertEquals(Math.PI - Math.asin(0.01), m.at(), 1e-7);
    assertEquals(INTERIOR, m.place());
  }

  @Test
  void anEdgeIsCalledAnEdge() {
    assertEquals(LOWER_EDGE, Minimum.between(x -> x, 2, 3).place());
    assertEquals(2, Minimum.between(x -> x, 2, 3).at());
    assertEquals(UPPER_EDGE, Minimum.between(x -> -x, 2, 3).place());
    assertEquals(3, Minimum.between(x -> -x, 2, 3).at());
    assertEquals(UPPER_EDGE, Minimum.between(x -> 1 / x, 1, 1e6).place());
  }

  @Test
  void closeToTheEdgeIsInside() {
    Minimum m = Minimum.between(x -> (x - 1e-4) * (x - 1e-4), 0, 1);
    assertEquals(INTERIOR, m.place());
    assertEquals(1e-4, m.at(), 1e-9);
  }

  @Test
  void notANumberCountsAsInfinite() {
    Minimum nothing = Minimum.between(x -> Double.NaN, 0, 10);
    assertEquals(NOWHERE, nothing.place());
    assertEquals(5, nothing.at());
    assertEquals(Double.POSITIVE_INFINITY, nothing.value());
    Minimum some = Minimum.between(x -> Math.log(x) + 1 / x, -10, 10);
    assertEquals(1, some.at(), 1e-7);
    assertEquals(INTERIOR, some.place());
  }

  /** Looked over from its lower to its upper end, both included, at points of equal distance. */
  @Test
  void theFirstLookIsSpreadEvenly() {
    List<Double> looked = new ArrayList<>();
    Minimum.between(
        x -> {
          looked.add(x);
          return (x - 3) * (x - 3);
        },
        2,
        6,
        5);
    assertEquals(List.of(2.0, 3.0, 4.0, 5.0, 6.0), looked.subList(0, 5));
    assertEquals(3, Minimum.between(x -> Math.abs(x - 3), 2, 6, 3).at(), 1e-8);
  }

  @Test
  void misuseIsRefused() {
    assertThrows(IllegalArgumentException.class, () -> Minimum.between(x -> x, 1, 1));
    assertThrows(IllegalArgumentException.class, () -> Minimum.between(x -> x, 2, 1));
    assertThrows(
        IllegalArgumentException.class, () -> Minimum.between(x -> x, 0, Double.POSITIVE_INFINITY));
    assertThrows(IllegalArgumentException.class, () -> Minimum.between(x -> x, 0, 1, 2));
  }
}

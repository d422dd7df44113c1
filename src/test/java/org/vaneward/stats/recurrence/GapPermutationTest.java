package org.vaneward.stats.recurrence;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.vaneward.stats.numeric.Quantiles;

class GapPermutationTest {
  /** Three scores have six orders: those as far off as the given one, counted by hand. */
  @Test
  void sharesOfOrdersForAFewScores() {
    GapPermutation test = new GapPermutation(List.of(new double[] {1, 2, 4}, new double[] {7}));
    assertEquals(3, test.total());
    assertEquals(1, test.units());
    assertEquals(3, test.sum, 1e-15);
    assertEquals(2, test.squares, 1e-15);
    // sums over all orders: 3, 3 - ... = ±3, ±2, ±1
    assertEquals((9 + 4 + 1) * 2 / 6.0, test.variance, 1e-14);
    assertEquals(2 / 6.0, test.p(40_000, 1), 0.01);
  }

  /** With many scores the normal law stands in for the orders. */
  @Test
  void manyScoresGoByTheNormalLaw() {
    SplittableRandom random = new SplittableRandom(5);
    List<double[]> units = new ArrayList<>();
    for (int u = 0; u < 500; u++) {
      units.add(random.doubles(5).toArray());
    }
    GapPermutation many = new GapPermutation(units);
    assertEquals(2500, many.total());
    double z = many.sum / Math.sqrt(many.variance);
    assertEquals(2 * Quantiles.normalShare(-Math.abs(z)), many.p(100, 1), 1e-15);
    GapPermutation fewer = new GapPermutation(units.subList(0, 399));
    double law = 2 * Quantiles.normalShare(-Math.abs(fewer.z()));
    assertEquals(law, fewer.p(9_999, 1), 0.02);
  }
}

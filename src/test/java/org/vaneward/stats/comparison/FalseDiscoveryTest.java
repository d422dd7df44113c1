package org.vaneward.stats.comparison;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.simple.RandomSource;
import org.junit.jupiter.api.Test;

class FalseDiscoveryTest {
  /**
   * The fifteen p-values of Benjamini and Hochberg's example (1995, section 3.2, from memory): at q
   * = 0.05 four are found.
   */
  @Test
  void theAuthorsExample() {
    double[] p = {
      0.0001, 0.0004, 0.0019, 0.0095, 0.0201, 0.0278, 0.0298, 0.0344, 0.0459, 0.3240, 0.4262,
      0.5719, 0.6528, 0.7590, 1.0000
    };
    double[] adjusted = FalseDiscovery.adjusted(p);
    int found = 0;
    for (double q : adjusted) {
      found += q <= 0.05 ? 1 : 0;
    }
    assertEquals(4, found);
    assertEquals(0.0095 * 15 / 4, adjusted[3], 1e-15);
    assertEquals(0.0298 * 15 / 7, adjusted[5], 1e-15);
  }

  @Test
  void byHandInTheOrderGiven() {
    assertArrayEquals(
        new double[] {0.04, 0.03, 0.04, 0.5},
        FalseDiscovery.adjusted(0.03, 0.0075, 0.02, 0.5),
        1e-15);
    assertArrayEquals(new double[0], FalseDiscovery.adjusted());
    assertThrows(IllegalArgumentException.class, () -> FalseDiscovery.adjusted(0.5, Double.NaN));
    assertThrows(IllegalArgumentException.class, () -> FalseDiscovery.adjusted(1.5));
  }

  @Test
  void weights() {
    double[] p = {0.03, 0.0075, 0.02, 0.5};
    assertArrayEquals(
        FalseDiscovery.adjusted(p), FalseDiscovery.weighted(p, new double[] {3, 3, 3, 3}), 1e-15);
    // Over weights scaled to 2, 1, 0.5 and 0.5: 0.015, 0.0075, 0.04 and 1.
    assertArrayEquals(
        new double[] {0.03, 0.03, 0.16 / 3, 1},
        FalseDiscovery.weighted(p, new double[] {4, 2, 1, 1}),
        1e-15);
    assertThrows(
        IllegalArgumentException.class, () -> FalseDiscovery.weighted(p, new double[] {1, 1}));
    assertThrows(
        IllegalArgumentException.class,
        () -> FalseDiscovery.weighted(p, new double[] {1, 1, 1, 0}));
  }

  /** With nothing to find, a list at q = 0.2 is begun in no more than a fifth of cases. */
  @Test
  void nothingToFindIsRarelyFound() {
    UniformRandomProvider random = RandomSource.L64_X128_MIX.create(7);
    int begun = 0;
    int draws = 5000;
    for (int draw = 0; draw < draws; draw++) {
      double[] adjusted = FalseDiscovery.adjusted(random.doubles(20).toArray());
      boolean any = false;
      for (double q : adjusted) {
        any |= q <= 0.2;
      }
      begun += any ? 1 : 0;
    }
    assertTrue(Math.abs((double) begun / draws - 0.2) < 4 * Math.sqrt(0.16 / draws));
  }
}

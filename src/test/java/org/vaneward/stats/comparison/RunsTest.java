package org.vaneward.stats.comparison;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.Arrays;
import org.junit.jupiter.api.Test;

class RunsTest {
  @Test
  void fairCoins() {
    double[] half = new double[10];
    Arrays.fill(half, 0.5);
    // Of 1,024 rows of ten, 504 have no three heads in succession (tribonacci numbers).
    assertEquals(520 / 1024.0, Runs.chance(half, 3), 1e-15);
  }

  @Test
  void unequalChancesAgainstAllOutcomes() {
    double[] chance = {0.1, 0.7, 0.4, 0.9, 0.25, 0.5, 0.05, 0.6};
    for (int length = 1; length <= 8; length++) {
      assertEquals(byCounting(chance, length), Runs.chance(chance, length), 1e-14);
    }
  }

  private static double byCounting(double[] chance, int length) {
    double sum = 0;
    for (int outcome = 0; outcome < 1 << chance.length; outcome++) {
      double p = 1;
      int run = 0;
      int longest = 0;
      for (int i = 0; i < chance.length; i++) {
        boolean hit = (outcome >> i & 1) == 1;
        p *= hit ? chance[i] : 1 - chance[i];
        run = hit ? run + 1 : 0;
        longest = Math.max(longest, run);
      }
      sum += longest >= length ? p : 0;
    }
    return sum;
  }

  @Test
  void edges() {
    assertEquals(0, Runs.chance(new double[0], 1));
    assertEquals(0, Runs.chance(new double[] {0.9}, 2));
    assertThrows(IllegalArgumentException.class, () -> Runs.chance(new double[] {0.9}, 0));
    assertThrows(IllegalArgumentException.class, () -> Runs.chance(new double[] {1.1}, 1));
  }
}

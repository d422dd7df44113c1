package org.vaneward.stats;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

class HolmTest {
  @Test
  void workedByHand() {
    // 4 x 0.005, 3 x 0.01, 2 x 0.03, then 0.04 raised to the one before it
    assertArrayEquals(
        new double[] {0.03, 0.06, 0.06, 0.02}, Holm.adjust(0.01, 0.04, 0.03, 0.005), 1e-15);
  }

  @Test
  void oneTestIsLeftAloneAndNoneIsNone() {
    assertArrayEquals(new double[] {0.2}, Holm.adjust(0.2));
    assertEquals(0, Holm.adjust().length);
    assertArrayEquals(new double[] {1, 1}, Holm.adjust(1, 0.7));
  }

  @Test
  void isBetweenThePValueAndBonferroniAndKeepsTheOrder() {
    SplittableRandom random = new SplittableRandom(1979);
    for (int run = 0; run < 50; run++) {
      double[] p = random.doubles(7).map(x -> x * x * x).toArray();
      double[] adjusted = Holm.adjust(p);
      for (int i = 0; i < p.length; i++) {
        assertTrue(adjusted[i] >= p[i] && adjusted[i] <= Math.min(1, p.length * p[i]));
        for (int j = 0; j < p.length; j++) {
          assertTrue(p[i] > p[j] || adjusted[i] <= adjusted[j]);
        }
      }
    }
  }

  @Test
  void refusesWhatIsNoPValue() {
    assertThrows(IllegalArgumentException.class, () -> Holm.adjust(0.1, 1.1));
    assertThrows(IllegalArgumentException.class, () -> Holm.adjust(Double.NaN));
  }
}

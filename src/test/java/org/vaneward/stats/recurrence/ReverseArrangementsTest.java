package org.vaneward.stats.recurrence;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.vaneward.stats.numeric.Quantiles;

class ReverseArrangementsTest {
  @ParameterizedTest
  @ValueSource(ints = {1, 2, 7, 60, 61, 500})
  void countsAsPairByPair(int r) {
    Simulated simulated = new Simulated(r);
    double[] gaps = IntStream.range(0, r).mapToDouble(i -> simulated.below(20)).toArray();
    long pairs = 0;
    for (int i = 0; i < r; i++) {
      for (int j = i + 1; j < r; j++) {
        pairs += gaps[i] < gaps[j] ? 1 : 0;
      }
    }
    assertEquals(pairs, ReverseArrangements.of(gaps).reversals());
  }

  @Test
  void allRisingIsOneOrderInAll() {
    ReverseArrangements rising = ReverseArrangements.of(1, 2, 3, 4);
    assertEquals(6, rising.reversals());
    assertEquals(1.0 / 24, rising.pUpper(), 1e-15);
    assertEquals(1, rising.pLower(), 1e-15);
    assertEquals(1.0 / 12, rising.p(), 1e-15);
    assertEquals(1, ReverseArrangements.of(5).p(), 0);
  }

  /** Just beyond the exact law, the normal one differs by less than one in a thousand. */
  @Test
  void theNormalLawCarriesOn() {
    double mean = 60 * 59 / 4.0;
    double deviation = Math.sqrt(125.0 * 59 * 60 / 72);
    double[] gaps = new double[60];
    for (int swaps = 0; swaps < 60; swaps++) {
      for (int i = 0; i < 60; i++) {
        gaps[i] = i < swaps ? -i : i;
      }
      ReverseArrangements test = ReverseArrangements.of(gaps);
      double z = (test.reversals() - 0.5 - mean) / deviation;
      double normal = Quantiles.normalShare(-z);
      assertEquals(normal, test.pUpper(), 1e-3);
    }
  }

  @Test
  void refusesWhatIsNoSequence() {
    assertThrows(IllegalArgumentException.class, () -> ReverseArrangements.of());
    assertThrows(IllegalArgumentException.class, () -> ReverseArrangements.of(1, Double.NaN));
    assertThrows(IllegalArgumentException.class, () -> ReverseArrangements.critical(61, 0.1));
    assertThrows(IllegalArgumentException.class, () -> ReverseArrangements.critical(6, 0));
  }
}

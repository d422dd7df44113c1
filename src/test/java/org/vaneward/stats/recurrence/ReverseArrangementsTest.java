package org.vaneward.stats.recurrence;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

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

  /** Beyond the exact law, whose chances are added up here, the normal one is within 1 in 1,000. */
  @ParameterizedTest
  @ValueSource(ints = {ReverseArrangements.EXACT + 1, 75})
  void theNormalLawCarriesOn(int r) {
    double[] law = {1};
    for (int i = 2; i <= r; i++) {
      double[] next = new double[law.length + i - 1];
      for (int k = 0; k < next.length; k++) {
        for (int add = 0; add < i; add++) {
          next[k] += k - add >= 0 && k - add < law.length ? law[k - add] / i : 0;
        }
      }
      law = next;
    }
    double[] gaps = new double[r];
    for (int swaps = 0; swaps < r; swaps++) {
      for (int i = 0; i < r; i++) {
        gaps[i] = i < swaps ? -i : i;
      }
      ReverseArrangements test = ReverseArrangements.of(gaps);
      double atLeast = 0;
      for (int k = (int) test.reversals(); k < law.length; k++) {
        atLeast += law[k];
      }
      assertEquals(r, test.gaps());
      assertEquals(atLeast, test.pUpper(), 1e-3);
      assertEquals(1 - atLeast + law[(int) test.reversals()], test.pLower(), 1e-3);
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

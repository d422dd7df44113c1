package org.vaneward.ingest;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Optional;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.vaneward.ingest.MixedUnits.Heaps;

class MixedUnitsTest {
  /** Numbers that spread over a factor of about two, as clearances and pressures of a fleet do. */
  private static double[] spread(SplittableRandom random, int count, double middle) {
    return random.doubles(count).map(u -> middle * Math.pow(2, u - 0.5)).toArray();
  }

  private static double[] both(double[] one, double[] other) {
    double[] all = new double[one.length + other.length];
    System.arraycopy(one, 0, all, 0, one.length);
    System.arraycopy(other, 0, all, one.length, other.length);
    return all;
  }

  @ParameterizedTest
  @CsvSource({
    "MM, THOUSANDTHS, 0.18",
    "MM, MICROMETRES, 0.18",
    "THOUSANDTHS, MM, 7",
    "BAR, PSI, 3.5",
    "BAR, KPA, 3.5",
    "PSI, BAR, 50",
    "MM, INCHES, 1.2"
  })
  void theOtherUnitIsTold(Unit taken, Unit other, double middle) {
    SplittableRandom random = new SplittableRandom(7);
    double inOther = middle * taken.size() / other.size();
    Heaps heaps =
        MixedUnits.find(both(spread(random, 40, middle), spread(random, 9, inOther)), taken)
            .orElseThrow();
    assertEquals(other, heaps.other());
    assertEquals(inOther > middle, heaps.otherIsUpper());
    assertTrue(heaps.isOther(inOther));
    assertFalse(heaps.isOther(middle));
  }

  @Test
  void oneUnitIsNeverTakenForTwo() {
    SplittableRandom random = new SplittableRandom(11);
    for (int trial = 0; trial < 2000; trial++) {
      // Wear from new to past the limit: far wider than one heap of a fleet's clearances.
      double[] wear = random.doubles(60).map(u -> 0.05 + 1.9 * u).toArray();
      assertEquals(Optional.empty(), MixedUnits.find(wear, Unit.MM));
    }
  }

  @Test
  void aFewOddNumbersAreNoHeap() {
    double[] values = {0.2, 0.21, 0.19, 0.18, 0.17, 0.2, 0.2, 0.2, 7.8, 7.9};
    assertEquals(Optional.empty(), MixedUnits.find(values, Unit.MM));
  }

  @Test
  void aGapThatNoUnitExplainsIsNone() {
    double[] values = {1, 1.1, 1.2, 1, 1, 9, 9.1, 9.2, 9.3};
    assertEquals(Optional.empty(), MixedUnits.find(values, Unit.BAR));
  }

  @Test
  void numbersThatAreNotAboveZeroDoNotCount() {
    double[] values = {0, -1, 0, 0.2, 0.2, 0.2, 0.2, 7.8, 7.9, 7.7};
    assertEquals(Optional.empty(), MixedUnits.find(values, Unit.MM));
  }
}

package org.vaneward.ingest;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTimeoutPreemptively;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.Duration;
import java.util.Arrays;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class MeterChainTest {
  @Test
  void hoursNeitherFallNorOutrunTheClock() {
    assertTrue(MeterChain.fits(10, 100, 10, 124));
    assertFalse(MeterChain.fits(10, 100, 10, 124.1));
    assertTrue(MeterChain.fits(10, 100, 12, 172));
    assertFalse(MeterChain.fits(10, 100, 12, 172.1));
    assertFalse(MeterChain.fits(10, 100, 12, 99.9));
  }

  @Test
  void nothingAndOneReading() {
    assertArrayEquals(new boolean[0], MeterChain.longest(new long[0], new double[0]));
    assertArrayEquals(new boolean[] {true}, MeterChain.longest(new long[] {3}, new double[] {7}));
  }

  @Test
  void ofTwoThatCannotBothBeRightTheLaterStays() {
    assertArrayEquals(
        new boolean[] {false, true},
        MeterChain.longest(new long[] {0, 100}, new double[] {500, 300}));
  }

  @Test
  void aHundredThousandFallingReadingsStayQuick() {
    int n = 100_000;
    long[] days = IntStream.range(0, n).asLongStream().toArray();
    double[] hours = IntStream.range(0, n).mapToDouble(i -> n - i).toArray();
    boolean[] kept =
        assertTimeoutPreemptively(Duration.ofSeconds(60), () -> MeterChain.longest(days, hours));
    assertEquals(1, IntStream.range(0, n).filter(i -> kept[i]).count());
    assertTrue(kept[n - 1]);
  }

  /** Against every subset of up to twelve readings. */
  @ParameterizedTest
  @ValueSource(longs = {11, 12, 13})
  void noLongerSequenceExists(long seed) {
    Random random = new Random(seed);
    for (int round = 0; round < 100; round++) {
      int n = 1 + random.nextInt(12);
      long[] days = random.longs(n, 0, 60).sorted().toArray();
      double[] hours = random.doubles(n, 0, 900).map(Math::rint).toArray();
      boolean[] kept = MeterChain.longest(days, hours);
      assertTrue(possible(days, hours, mask(kept)), Arrays.toString(hours));
      int most = 0;
      for (int mask = 1; mask < 1 << n; mask++) {
        if (possible(days, hours, mask)) {
          most = Math.max(most, Integer.bitCount(mask));
        }
      }
      assertEquals(most, Integer.bitCount(mask(kept)), Arrays.toString(hours));
    }
  }

  private static int mask(boolean[] kept) {
    int mask = 0;
    for (int i = 0; i < kept.length; i++) {
      mask |= kept[i] ? 1 << i : 0;
    }
    return mask;
  }

  private static boolean possible(long[] days, double[] hours, int mask) {
    int before = -1;
    for (int i = 0; i < days.length; i++) {
      if ((mask >> i & 1) == 1) {
        if (before >= 0 && !MeterChain.fits(days[before], hours[before], days[i], hours[i])) {
          return false;
        }
        before = i;
      }
    }
    return true;
  }
}

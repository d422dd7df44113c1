package org.vaneward.stats;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.HashSet;
import java.util.Set;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

class StreamsTest {
  @Test
  void eachUnitOfEachFutureHasItsOwnNumbersAndAlwaysTheSame() {
    Set<Long> first = new HashSet<>();
    double sum = 0;
    for (long seed = -2; seed < 3; seed++) {
      for (long future = 0; future < 20; future++) {
        for (long unit = 0; unit < 20; unit++) {
          long number = Streams.of(seed, future, unit).nextLong();
          assertEquals(number, Streams.of(seed, future, unit).nextLong());
          first.add(number);
          sum += Streams.of(seed, future, unit).nextDouble();
        }
      }
    }
    assertEquals(5 * 20 * 20, first.size());
    // The first numbers of streams side by side are as even as those of one stream.
    assertEquals(0.5, sum / first.size(), 4 / Math.sqrt(12.0 * first.size()));
  }

  /**
   * The seed of a unit is SplitMix64 upon SplitMix64 (Steele, Lea and Flood 2014, Fast splittable
   * pseudorandom number generators), which is how the JDK's {@link SplittableRandom} makes its
   * numbers. Futures once drawn are drawn again by every later version.
   */
  @Test
  void seedsAreThoseOfSplitMix() {
    long golden = 0x9E3779B97F4A7C15L;
    long other = 0xD1B54A32D192ED03L;
    for (long seed : new long[] {0, 1, -77, 1L << 40}) {
      SplittableRandom futures = new SplittableRandom(seed);
      for (int future = 0; future < 5; future++) {
        long ofFuture = futures.nextLong();
        for (int unit = 0; unit < 5; unit++) {
          long mixed = new SplittableRandom(ofFuture + other * (unit + 1) - golden).nextLong();
          assertEquals(
              new SplittableRandom(mixed).nextLong(), Streams.of(seed, future, unit).nextLong());
        }
      }
    }
  }
}

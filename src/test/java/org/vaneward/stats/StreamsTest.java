package org.vaneward.stats;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.HashSet;
import java.util.Set;
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
}

package org.vaneward.stats.numeric;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.stream.IntStream;
import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.simple.RandomSource;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class SortOrderTest {
  @ParameterizedTest
  @ValueSource(ints = {0, 1, 2, 15, 16, 17, 31, 33, 100, 1000, 4097})
  void isTheStableOrder(int n) {
    UniformRandomProvider random = RandomSource.L64_X128_MIX.create(n);
    double[] keys = random.doubles(n).map(x -> Math.rint(x * 40)).toArray();
    double[] before = keys.clone();
    int[] expected =
        IntStream.range(0, n)
            .boxed()
            .sorted((a, b) -> Double.compare(before[a], before[b]))
            .mapToInt(i -> i)
            .toArray();
    assertArrayEquals(expected, SortOrder.ascending(keys));
    assertArrayEquals(before, keys);
    assertEquals(n, SortOrder.ascending(keys).length);
  }
}

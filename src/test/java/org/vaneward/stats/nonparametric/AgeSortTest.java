package org.vaneward.stats.nonparametric;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;

import java.util.Arrays;
import java.util.SplittableRandom;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class AgeSortTest {
  @ParameterizedTest
  @CsvSource({
    "0, 0",
    "1, 0",
    "4095, 0",
    "4096, 0",
    "4097, 40",
    "50000, 0",
    "50000, 60",
    "9000, 63"
  })
  void sorts(int n, int zeros) {
    long[] keys = new SplittableRandom(n).longs(n).map(key -> key >> zeros).toArray();
    long[] expected = keys.clone();
    Arrays.sort(expected);
    assertArrayEquals(expected, AgeSort.sorted(keys));
  }
}

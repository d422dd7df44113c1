package org.vaneward.stats.numeric;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.atomic.AtomicIntegerArray;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class ChunksTest {
  @ParameterizedTest
  @ValueSource(ints = {0, 1, Chunks.ROWS - 1, Chunks.ROWS, Chunks.ROWS + 1, 10 * Chunks.ROWS + 7})
  void everyRowComesOnceAndChunksAreNumberedInOrder(int rows) {
    AtomicIntegerArray seen = new AtomicIntegerArray(rows);
    AtomicInteger chunks = new AtomicInteger();
    Chunks.run(
        rows,
        (chunk, from, to) -> {
          chunks.incrementAndGet();
          assertEquals(chunk * Chunks.ROWS, from);
          assertTrue(from < to && to <= from + Chunks.ROWS);
          for (int i = from; i < to; i++) {
            seen.incrementAndGet(i);
          }
        });
    assertEquals(Chunks.count(rows), chunks.get());
    for (int i = 0; i < rows; i++) {
      assertEquals(1, seen.get(i));
    }
  }

  @ParameterizedTest
  @ValueSource(ints = {1, 5 * Chunks.ROWS})
  void whatOneChunkThrowsIsThrown(int rows) {
    assertThrows(
        ArithmeticException.class,
        () ->
            Chunks.run(
                rows,
                (chunk, from, to) -> {
                  throw new ArithmeticException("chunk " + chunk);
                }));
  }
}

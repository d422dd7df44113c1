package org.vaneward.stats.regression;

import java.util.Arrays;
import java.util.function.IntConsumer;
import java.util.stream.IntStream;

/**
 * Runs of rows of one cell, cut to a fixed length, and the tasks they are shared out by. The cuts
 * depend on the data alone, and sums over segments are taken in their order, so that the result is
 * the same on any number of threads.
 */
final class Segments {
  private static final int LONGEST = 4096;
  private static final int ROWS_OF_A_TASK = 16384;

  /** From this number of rows on, tasks are shared out. */
  private static final int WORTH_SHARING = 32768;

  final int[] cell;
  final int[] from;
  final int[] to;
  private final int[] taskStart;

  /**
   * The segments of rows sorted by cell.
   *
   * @param start first row of each cell, and the number of rows
   */
  Segments(int[] start) {
    int cells = start.length - 1;
    int count = 0;
    for (int c = 0; c < cells; c++) {
      count += (start[c + 1] - start[c] + LONGEST - 1) / LONGEST;
    }
    cell = new int[count];
    from = new int[count];
    to = new int[count];
    int[] tasks = new int[start[cells] / ROWS_OF_A_TASK + 3];
    int task = 1;
    int s = 0;
    for (int c = 0; c < cells; c++) {
      for (int at = start[c]; at < start[c + 1]; at += LONGEST) {
        cell[s] = c;
        from[s] = at;
        to[s] = Math.min(at + LONGEST, start[c + 1]);
        s++;
        if (to[s - 1] >= (long) task * ROWS_OF_A_TASK && s < count) {
          tasks[task++] = s;
        }
      }
    }
    tasks[task] = count;
    taskStart = Arrays.copyOf(tasks, task + 1);
  }

  int count() {
    return cell.length;
  }

  /** Does something for every segment, on several threads when there are many rows. */
  void each(IntConsumer work) {
    int rows = to.length == 0 ? 0 : to[to.length - 1];
    IntStream tasks = IntStream.range(0, taskStart.length - 1);
    (rows >= WORTH_SHARING ? tasks.parallel() : tasks)
        .forEach(
            t -> {
              for (int s = taskStart[t]; s < taskStart[t + 1]; s++) {
                work.accept(s);
              }
            });
  }
}

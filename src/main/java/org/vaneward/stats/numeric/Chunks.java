package org.vaneward.stats.numeric;

import java.util.concurrent.RecursiveAction;

/**
 * Work over the rows of long columns, in chunks of a fixed number of rows, on the threads of the
 * common pool. Chunks do not depend on the number of threads: whoever keeps a result for each chunk
 * and adds them in order gets the same bytes on any number.
 */
public final class Chunks {
  /** Rows in a chunk: long enough to pay for a task, short enough to stay in a core's cache. */
  static final int ROWS = 8192;

  private Chunks() {}

  /** What is done for one chunk; must write nothing another chunk's work reads or writes. */
  public interface Work {
    /**
     * Does the work.
     *
     * @param chunk number of the chunk, from 0
     * @param from first row
     * @param to row after the last
     */
    void on(int chunk, int from, int to);
  }

  /** How many chunks there are. */
  public static int count(int rows) {
    return (rows + ROWS - 1) / ROWS;
  }

  /**
   * Does the work for all chunks and returns when all is done. Up to one chunk it stays on the
   * calling thread.
   *
   * @param rows number of rows, at least 0
   */
  public static void run(int rows, Work work) {
    int chunks = count(rows);
    if (chunks == 1) {
      work.on(0, 0, rows);
    } else if (chunks > 1) {
      new Stretch(rows, work, 0, chunks).invoke();
    }
  }

  /** A stretch of chunks, halved until one is left. */
  private static final class Stretch extends RecursiveAction {
    private static final long serialVersionUID = 1;

    private final int rows;
    private final transient Work work;
    private final int first;
    private final int end;

    Stretch(int rows, Work work, int first, int end) {
      this.rows = rows;
      this.work = work;
      this.first = first;
      this.end = end;
    }

    @Override
    protected void compute() {
      if (end - first == 1) {
        work.on(first, first * ROWS, Math.min(rows, end * ROWS));
        return;
      }
      int middle = (first + end) >>> 1;
      invokeAll(new Stretch(rows, work, first, middle), new Stretch(rows, work, middle, end));
    }
  }
}

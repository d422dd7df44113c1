package org.vaneward.stats.numeric;

/**
 * In which order numbers come when sorted: a stable merge sort of their places, without an object
 * for each.
 */
public final class SortOrder {
  /** Runs up to this length are sorted by insertion. */
  private static final int SHORT = 16;

  private SortOrder() {}

  /**
   * The places of the numbers in ascending order; equal ones keep theirs.
   *
   * @param keys as {@link Double#compare} orders them. Not modified.
   */
  public static int[] ascending(double[] keys) {
    int n = keys.length;
    int[] from = new int[n];
    for (int i = 0; i < n; i++) {
      from[i] = i;
    }
    for (int start = 0; start < n; start += SHORT) {
      insert(keys, from, start, Math.min(start + SHORT, n));
    }
    int[] to = new int[n];
    for (long width = SHORT; width < n; width *= 2) {
      for (long start = 0; start < n; start += 2 * width) {
        int middle = (int) Math.min(start + width, n);
        merge(keys, from, to, (int) start, middle, (int) Math.min(start + 2 * width, n));
      }
      int[] swap = from;
      from = to;
      to = swap;
    }
    return from;
  }

  private static void insert(double[] keys, int[] order, int start, int end) {
    for (int i = start + 1; i < end; i++) {
      int moving = order[i];
      int j = i - 1;
      while (j >= start && Double.compare(keys[order[j]], keys[moving]) > 0) {
        order[j + 1] = order[j];
        j--;
      }
      order[j + 1] = moving;
    }
  }

  private static void merge(double[] keys, int[] from, int[] to, int start, int middle, int end) {
    int left = start;
    int right = middle;
    for (int i = start; i < end; i++) {
      boolean takeLeft =
          right == end
              || (left < middle && Double.compare(keys[from[left]], keys[from[right]]) <= 0);
      to[i] = takeLeft ? from[left++] : from[right++];
    }
  }
}

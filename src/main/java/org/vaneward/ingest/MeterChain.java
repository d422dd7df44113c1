package org.vaneward.ingest;

/**
 * Readings of one hour meter that can all be right: in order of date the hours never fall and never
 * rise faster than the clock.
 */
final class MeterChain {
  /** A reading is known to the day only, so two of them may be a day further apart than stated. */
  private static final double SLACK_HOURS = 24;

  /** A run of more wrong readings than this is not bridged; it bounds the work. */
  private static final int LOOK_BACK = 1000;

  private MeterChain() {}

  /** Whether a meter can show {@code hours} on {@code day} and {@code laterHours} later on. */
  static boolean fits(long day, double hours, long laterDay, double laterHours) {
    return laterHours >= hours && !tooFast(day, hours, laterDay, laterHours);
  }

  /** Whether the meter would have to run faster than the clock. */
  static boolean tooFast(long day, double hours, long laterDay, double laterHours) {
    return laterHours - hours > 24.0 * (laterDay - day) + SLACK_HOURS;
  }

  /**
   * The longest sequence of readings each of which {@linkplain #fits fits} the one before. Where
   * several are as long, a high reading goes rather than the lower one after it.
   *
   * @param days days, in ascending order
   * @param hours the hours read
   * @return for each reading whether it is kept
   */
  static boolean[] longest(long[] days, double[] hours) {
    int n = days.length;
    int[] length = new int[n];
    int[] longestSoFar = new int[n];
    int[] before = new int[n];
    int end = -1;
    for (int j = 0; j < n; j++) {
      before[j] = -1;
      length[j] = 1;
      for (int i = j - 1; i >= Math.max(0, j - LOOK_BACK) && longestSoFar[i] >= length[j]; i--) {
        if (length[i] >= length[j] && fits(days[i], hours[i], days[j], hours[j])) {
          length[j] = length[i] + 1;
          before[j] = i;
        }
      }
      longestSoFar[j] = j == 0 ? 1 : Math.max(longestSoFar[j - 1], length[j]);
      if (end < 0 || length[j] >= length[end]) {
        end = j;
      }
    }
    boolean[] kept = new boolean[n];
    for (int j = end; j >= 0; j = before[j]) {
      kept[j] = true;
    }
    return kept;
  }
}

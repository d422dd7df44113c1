package org.vaneward.life;

import java.util.Arrays;
import java.util.OptionalDouble;

/**
 * Recent running cut into blocks, to see how much usage varies.
 *
 * <p>Cuts are made at readings only: going back from the last, a block ends at the first reading at
 * least {@value UsageRate#BLOCK_WEEKS} weeks earlier. Hours interpolated across a long gap would
 * make blocks that agree perfectly, and so a usage that seems to be known exactly; here the gap is
 * one block.
 */
final class UsageBlocks {
  private final double[] weeks;
  private final double[] hours;

  private UsageBlocks(double[] weeks, double[] hours) {
    this.weeks = weeks;
    this.hours = hours;
  }

  /**
   * The blocks of a history.
   *
   * @param days days of the readings, ascending
   * @param hours cumulative running hours on them
   * @param recentDays how far back from the last reading to look
   */
  static UsageBlocks of(long[] days, double[] hours, int recentDays) {
    double[] weeksLong = new double[days.length];
    double[] hoursRun = new double[days.length];
    int n = 0;
    int later = days.length - 1;
    for (int i = later - 1; i >= 0 && days[i] >= days[days.length - 1] - recentDays; i--) {
      if (days[later] - days[i] >= 7 * UsageRate.BLOCK_WEEKS) {
        weeksLong[n] = (days[later] - days[i]) / 7.0;
        hoursRun[n] = hours[later] - hours[i];
        n++;
        later = i;
      }
    }
    return new UsageBlocks(Arrays.copyOf(weeksLong, n), Arrays.copyOf(hoursRun, n));
  }

  int size() {
    return weeks.length;
  }

  /**
   * Standard deviation of the hours a week between blocks of {@value UsageRate#BLOCK_WEEKS} weeks;
   * empty with fewer than {@value UsageRate#FEWEST_BLOCKS}. The mean over a longer block is surer
   * in proportion to its length, which is therefore its weight.
   */
  OptionalDouble standardDeviation() {
    int n = weeks.length;
    if (n < UsageRate.FEWEST_BLOCKS) {
      return OptionalDouble.empty();
    }
    double mean = Arrays.stream(hours).sum() / Arrays.stream(weeks).sum();
    double squares = 0;
    for (int i = 0; i < n; i++) {
      double apart = hours[i] / weeks[i] - mean;
      squares += weeks[i] / UsageRate.BLOCK_WEEKS * apart * apart;
    }
    return OptionalDouble.of(Math.sqrt(squares / (n - 1)));
  }
}

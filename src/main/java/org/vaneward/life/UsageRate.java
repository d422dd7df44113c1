package org.vaneward.life;

import java.util.OptionalDouble;

/**
 * How much a pump runs, and how far that may be off in the time ahead.
 *
 * <p>Recent history is cut into blocks of {@value #BLOCK_WEEKS} weeks. With n blocks whose rates
 * have the standard deviation s, the mean rate over h blocks ahead differs from the mean of those
 * past with variance s² (1/n + 1/h): what the past does not say and what the time ahead will do.
 * Blocks are taken as independent; seasons, which a whole year evens out, make that err on the wide
 * side.
 *
 * @param perWeek running hours a week: stated, or estimated from the readings
 * @param blockSd standard deviation of the rate between blocks, hours a week; empty when there are
 *     fewer than {@value #FEWEST_BLOCKS} blocks
 * @param blocks number of blocks
 */
public record UsageRate(double perWeek, OptionalDouble blockSd, int blocks) {
  /** Length of a block, weeks. */
  public static final int BLOCK_WEEKS = 13;

  /** Blocks without which no spread is given. */
  public static final int FEWEST_BLOCKS = 3;

  /**
   * Standard deviation of the mean rate over the next {@code weeks} as a share of the rate; 0 when
   * it is not known.
   */
  public double relativeSd(double weeks) {
    if (blockSd.isEmpty() || !(perWeek > 0)) {
      return 0;
    }
    double ahead = Math.max(1, weeks / BLOCK_WEEKS);
    return blockSd.getAsDouble() / perWeek * Math.sqrt(1.0 / blocks + 1 / ahead);
  }
}

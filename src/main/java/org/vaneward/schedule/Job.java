package org.vaneward.schedule;

import java.util.OptionalInt;

/**
 * A job to put into a week, or after the last one.
 *
 * <p>Its arrays are not copied and must not be changed.
 *
 * @param site index of the site it is done at
 * @param cost by week, one entry more for after the last week; finite
 * @param daysLate by week, one entry more for after the last week: days past the job's limit, 0
 *     when within it; never falling
 * @param committed the week it is committed to, whatever that costs or breaks
 */
public record Job(int site, double[] cost, long[] daysLate, OptionalInt committed) {
  public Job {
    if (site < 0) {
      throw new IllegalArgumentException("a site's index is at least 0, not " + site);
    }
    if (cost.length < 2 || daysLate.length != cost.length) {
      throw new IllegalArgumentException(
          cost.length + " costs and " + daysLate.length + " days late: one each for every week");
    }
    for (double one : cost) {
      if (!(Math.abs(one) < Double.POSITIVE_INFINITY)) {
        throw new IllegalArgumentException("a job's cost is finite, not " + one);
      }
    }
  }

  /** Whether it has a limit that some week would break. */
  boolean limited() {
    return daysLate[daysLate.length - 1] > 0;
  }
}

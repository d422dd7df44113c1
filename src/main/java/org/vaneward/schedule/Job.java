package org.vaneward.schedule;

import java.util.OptionalInt;

/** A job to put into a week, or after the last one. */
public final class Job {
  private final int site;
  private final double[] cost;
  private final long[] daysLate;
  private final OptionalInt committed;

  /**
   * A job.
   *
   * @param site index of the site it is done at, at least 0
   * @param cost by week, one entry more for after the last week; finite
   * @param daysLate by week, one entry more for after the last week: days past the job's limit, 0
   *     when within it; never falling
   * @param committed the week it is committed to, whatever that costs or breaks; the number of
   *     weeks for after them
   * @throws IllegalArgumentException when a number is out of its domain
   */
  public Job(int site, double[] cost, long[] daysLate, OptionalInt committed) {
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
    long before = 0;
    for (long one : daysLate) {
      if (one < before) {
        throw new IllegalArgumentException("days late start at 0 and never fall: " + one);
      }
      before = one;
    }
    if (committed.isPresent()
        && (committed.getAsInt() < 0 || committed.getAsInt() >= cost.length)) {
      throw new IllegalArgumentException("no week " + committed.getAsInt() + " to commit to");
    }
    this.site = site;
    this.cost = cost.clone();
    this.daysLate = daysLate.clone();
    this.committed = committed;
  }

  /** Index of the site it is done at. */
  public int site() {
    return site;
  }

  /** Weeks it can be put into, after the last one not counted. */
  public int weeks() {
    return cost.length - 1;
  }

  /** Cost of doing it in {@code week}; the number of weeks for after them. */
  public double cost(int week) {
    return cost[week];
  }

  /** Days past its limit in {@code week}; 0 when within it. */
  public long daysLate(int week) {
    return daysLate[week];
  }

  /** The week it is committed to. */
  public OptionalInt committed() {
    return committed;
  }

  /** Whether it has a limit that some week would break. */
  boolean limited() {
    return daysLate[weeks()] > 0;
  }
}

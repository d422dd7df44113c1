package org.vaneward.schedule;

/** A week for every job. */
public final class Schedule {
  private final int[] week;
  private final double extraCost;
  private final int visits;
  private final double visitCost;
  private final double bound;

  Schedule(int[] week, double extraCost, int visits, double visitCost, double bound) {
    this.week = week.clone();
    this.extraCost = extraCost;
    this.visits = visits;
    this.visitCost = visitCost;
    this.bound = bound;
  }

  /** Index of the week of each job, in the order given; the number of weeks for after them. */
  public int[] weeks() {
    return week.clone();
  }

  /** Sum of the jobs' costs. */
  public double extraCost() {
    return extraCost;
  }

  /** Sites visited, counted once for each site and week. */
  public int visits() {
    return visits;
  }

  /** What the visits cost. */
  public double visitCost() {
    return visitCost;
  }

  /**
   * No schedule that keeps what is committed and in which the same jobs break their limits, in the
   * same weeks, costs less.
   */
  public double bound() {
    return bound;
  }

  /** Jobs and visits together. */
  public double total() {
    return extraCost + visitCost;
  }

  /** Whether no schedule is cheaper, to within a few ten-millionths of its cost. */
  public boolean optimal() {
    return total() - bound <= 2 * BranchAndBound.tolerance(total());
  }

  /** How much cheaper another could be at most, as a share of this one's cost; 0 when optimal. */
  public double gap() {
    return optimal() ? 0 : (total() - bound) / Math.abs(total());
  }
}

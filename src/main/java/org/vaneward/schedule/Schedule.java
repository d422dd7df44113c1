package org.vaneward.schedule;

/**
 * A week for every job.
 *
 * @param week by job, in the order given: index of the week; the number of weeks for after them
 * @param extraCost sum of the jobs' costs
 * @param visits sites visited, counted once for each site and week
 * @param visitCost what the visits cost
 * @param bound no schedule that keeps what is committed and in which the same jobs break their
 *     limits, in the same weeks, costs less
 */
public record Schedule(int[] week, double extraCost, int visits, double visitCost, double bound) {

  /** Jobs and visits together. */
  public double total() {
    return extraCost + visitCost;
  }

  /** Whether no schedule is cheaper, to within a ten-millionth of its cost. */
  public boolean optimal() {
    return total() - bound <= 2 * BranchAndBound.tolerance(total());
  }

  /** How much cheaper another could be at most, as a share of this one's cost; 0 when optimal. */
  public double gap() {
    return optimal() ? 0 : (total() - bound) / Math.abs(total());
  }
}

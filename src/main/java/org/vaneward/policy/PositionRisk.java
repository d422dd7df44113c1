package org.vaneward.policy;

import org.vaneward.stats.distribution.LifeDistribution;

/**
 * What can go wrong at one position of a pump, and what it costs.
 *
 * @param position where the part sits, such as {@code seal-inboard}
 * @param component what sits there, such as {@code seal}
 * @param life its life, in running hours
 * @param unplannedCost full cost of the unplanned stop its failure brings when the pump is then
 *     rebuilt in full; not used when the failure does not announce itself
 * @param mendCost the same when only the failed part is renewed
 * @param announces whether its failure stops the pump
 * @param hiddenCostPerHour cost of each hour run on its unseen failure; not used when the failure
 *     announces itself
 */
public record PositionRisk(
    String position,
    String component,
    LifeDistribution life,
    double unplannedCost,
    double mendCost,
    boolean announces,
    double hiddenCostPerHour) {

  /**
   * A risk.
   *
   * @throws IllegalArgumentException when a cost is negative or not finite
   */
  public PositionRisk {
    CostModel.costAtLeastZero("an unplanned cost", unplannedCost);
    CostModel.costAtLeastZero("a cost of mending", mendCost);
    CostModel.costAtLeastZero("a hidden cost per hour", hiddenCostPerHour);
  }

  /** A position whose failure stops the pump; mending it costs as much as rebuilding all. */
  public static PositionRisk announcing(
      String position, String component, LifeDistribution life, double unplannedCost) {
    return announcing(position, component, life, unplannedCost, unplannedCost);
  }

  /** A position whose failure stops the pump. */
  public static PositionRisk announcing(
      String position,
      String component,
      LifeDistribution life,
      double unplannedCost,
      double mendCost) {
    return new PositionRisk(position, component, life, unplannedCost, mendCost, true, 0);
  }

  /** A position whose failure stays unseen until the pump is opened. */
  public static PositionRisk hidden(
      String position, String component, LifeDistribution life, double costPerHour) {
    return new PositionRisk(position, component, life, 0, 0, false, costPerHour);
  }
}

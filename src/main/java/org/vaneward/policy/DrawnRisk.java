package org.vaneward.policy;

import org.vaneward.model.LifeDraws;

/**
 * What can go wrong at one position of a pump, and what it costs, when its life is uncertain.
 *
 * @param position where the part sits, such as {@code seal-inboard}
 * @param component what sits there, such as {@code seal}
 * @param life what is believed of its life
 * @param unplannedCost full cost of an unplanned stop by it when the pump is then rebuilt in full;
 *     not used when the failure does not announce itself
 * @param mendCost full cost of an unplanned stop by it when only the failed part is renewed
 * @param announces whether its failure stops the pump
 * @param hiddenCostPerHour cost of each hour run on its unseen failure; not used when the failure
 *     announces itself
 */
public record DrawnRisk(
    String position,
    String component,
    LifeDraws life,
    double unplannedCost,
    double mendCost,
    boolean announces,
    double hiddenCostPerHour) {

  /**
   * A risk.
   *
   * @throws IllegalArgumentException when a cost is negative or not finite
   */
  public DrawnRisk {
    CostModel.costAtLeastZero("an unplanned cost", unplannedCost);
    CostModel.costAtLeastZero("a cost of mending", mendCost);
    CostModel.costAtLeastZero("a hidden cost per hour", hiddenCostPerHour);
  }

  /** The same risk with other draws of its life. */
  DrawnRisk withLife(LifeDraws other) {
    return new DrawnRisk(
        position, component, other, unplannedCost, mendCost, announces, hiddenCostPerHour);
  }
}

package org.vaneward.policy;

import java.util.List;

/**
 * A pump as its planned rebuild sees it: the positions are in series, the first of the announcing
 * ones to fail stops the pump, and every opening is a full rebuild.
 *
 * @param plannedCost full cost of a planned rebuild, parts included
 * @param positions the risks, at least one
 */
public record CostModel(double plannedCost, List<PositionRisk> positions) {
  /**
   * A cost model.
   *
   * @throws IllegalArgumentException when the planned cost is not positive and finite, or there is
   *     no position
   */
  public CostModel {
    if (!(plannedCost > 0 && plannedCost < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException(
          "a planned cost is positive and finite, not " + plannedCost);
    }
    positions = List.copyOf(positions);
    if (positions.isEmpty()) {
      throw new IllegalArgumentException("a cost model needs a position, and there are 0");
    }
  }

  static void costAtLeastZero(String what, double cost) {
    if (!(cost >= 0 && cost < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException(what + " is finite and at least 0, not " + cost);
    }
  }
}

package org.vaneward.policy;

import java.util.IdentityHashMap;
import java.util.List;
import org.vaneward.model.LifeDraws;
import org.vaneward.stats.distribution.Weibull;

/**
 * A {@link CostModel} whose lives are uncertain: for each draw of the lives, one cost model.
 *
 * @param plannedCost full cost of a planned rebuild, parts included
 * @param positions the risks, at least one; each has one draw or as many as the others
 */
public record DrawnCostModel(double plannedCost, List<DrawnRisk> positions) {
  /**
   * A cost model.
   *
   * @throws IllegalArgumentException when the planned cost is not positive and finite, there is no
   *     position, or numbers of draws differ
   */
  public DrawnCostModel {
    if (!(plannedCost > 0 && plannedCost < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException(
          "a planned cost is positive and finite, not " + plannedCost);
    }
    positions = List.copyOf(positions);
    if (positions.isEmpty()) {
      throw new IllegalArgumentException("a cost model needs a position, and there are 0");
    }
    int draws = draws(positions);
    for (DrawnRisk risk : positions) {
      if (risk.life().size() != 1 && risk.life().size() != draws) {
        throw new IllegalArgumentException(
            risk.position() + " has " + risk.life().size() + " draws, others " + draws);
      }
    }
  }

  /** Number of draws. */
  public int draws() {
    return draws(positions);
  }

  private static int draws(List<DrawnRisk> positions) {
    return positions.stream().mapToInt(r -> r.life().size()).max().orElseThrow();
  }

  /** The same model with only the first {@code n} draws; the same object when there are no more. */
  public DrawnCostModel first(int n) {
    if (n >= draws()) {
      return this;
    }
    // Positions that share a life go on sharing it: runs work it out once for them.
    IdentityHashMap<LifeDraws, LifeDraws> fewer = new IdentityHashMap<>();
    return new DrawnCostModel(
        plannedCost,
        positions.stream()
            .map(r -> r.withLife(fewer.computeIfAbsent(r.life(), l -> l.first(n))))
            .toList());
  }

  /** The cost model at the middle of what is believed: means of log shapes and log scales. */
  public CostModel middle() {
    return new CostModel(
        plannedCost, positions.stream().map(r -> risk(r, r.life().middle())).toList());
  }

  /** The cost model in one draw. */
  public CostModel at(int draw) {
    return new CostModel(
        plannedCost, positions.stream().map(r -> risk(r, r.life().at(draw))).toList());
  }

  private static PositionRisk risk(DrawnRisk r, Weibull life) {
    return new PositionRisk(
        r.position(),
        r.component(),
        life,
        r.unplannedCost(),
        r.mendCost(),
        r.announces(),
        r.hiddenCostPerHour());
  }
}

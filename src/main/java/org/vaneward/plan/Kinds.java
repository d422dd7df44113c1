package org.vaneward.plan;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import org.vaneward.fleet.FleetSettings;
import org.vaneward.fleet.Service;
import org.vaneward.policy.CostModels;
import org.vaneward.policy.DrawnCostModel;
import org.vaneward.policy.DrawnRisk;
import org.vaneward.policy.ExpectedCost;
import org.vaneward.policy.LifeLookup;
import org.vaneward.policy.UncertainAdvice;

/** The cost models of the pumps of a fleet, one for each model in each service. */
final class Kinds {
  /**
   * Draws a pump's date rests on. The first so many of those the interval rests on: draws are
   * independent, so these say the same with an error larger by the root of their ratio; on the
   * sample fleet dates move by days.
   */
  static final int DRAWS = 250;

  private final Map<Key, Kind> known = new ConcurrentHashMap<>();

  /** What tells one cost model from another. */
  private record Key(Optional<String> model, Optional<Service> service) {
    static Key of(PumpNow pump) {
      return new Key(pump.model(), pump.service());
    }
  }

  /** A kind of pump: its cost model, when it has one, or why not. */
  record Kind(CostModels.Outcome outcome, Optional<Costed> costed) {}

  /**
   * A cost model and what it comes to.
   *
   * @param model the model, with {@link #DRAWS} draws
   * @param advice its best interval over those draws
   * @param confidence of limits
   * @param leastByDraw the least cost per hour in each draw
   */
  record Costed(
      DrawnCostModel model, UncertainAdvice advice, double confidence, List<Double> leastByDraw) {
    List<String> positions() {
      return model.positions().stream().map(DrawnRisk::position).toList();
    }
  }

  /** The kinds of {@code pumps}, worked out on several threads. */
  static Kinds of(
      FleetSettings settings, List<PumpNow> pumps, LifeLookup lives, double confidence) {
    Kinds kinds = new Kinds();
    Set<Key> keys = new LinkedHashSet<>();
    pumps.forEach(pump -> keys.add(Key.of(pump)));
    keys.parallelStream()
        .forEach(
            key ->
                kinds.known.put(
                    key,
                    kind(
                        CostModels.forService(settings, key.model(), key.service(), lives),
                        confidence)));
    return kinds;
  }

  private static Kind kind(CostModels.Outcome outcome, double confidence) {
    if (!(outcome instanceof CostModels.Available available)) {
      return new Kind(outcome, Optional.empty());
    }
    DrawnCostModel model = available.model().first(DRAWS);
    ExpectedCost cost = ExpectedCost.of(model, confidence);
    return new Kind(
        outcome, Optional.of(new Costed(model, cost.best(), confidence, cost.leastByDraw())));
  }

  Kind of(PumpNow pump) {
    Kind kind = known.get(Key.of(pump));
    if (kind == null) {
      throw new IllegalArgumentException(pump.pump() + " is not among the pumps planned");
    }
    return kind;
  }
}

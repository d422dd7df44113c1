package org.vaneward.plan;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Function;
import org.vaneward.fleet.FleetSettings;
import org.vaneward.fleet.Service;
import org.vaneward.model.LifeDraws;
import org.vaneward.model.LifeModel;
import org.vaneward.policy.CostModels;
import org.vaneward.policy.DrawnCostModel;
import org.vaneward.policy.DrawnRisk;
import org.vaneward.policy.ExpectedCost;
import org.vaneward.policy.FailureCeiling;
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
  private final Function<Key, Kind> make;

  private Kinds(Function<Key, Kind> make) {
    this.make = make;
  }

  /** What tells one cost model from another. */
  private record Key(Optional<String> model, Optional<Service> service) {
    static Key of(PumpNow pump) {
      return new Key(pump.model(), pump.service());
    }
  }

  /**
   * A kind of pump: its cost model, when it has one, or why not.
   *
   * @param interval from one full rebuild to the next
   */
  record Kind(CostModels.Outcome outcome, Optional<Costed> costed, IntervalAfter interval) {}

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

  /** Kinds, each worked out when it is first asked for. */
  static Kinds asNeeded(FleetSettings settings, LifeLookup lives, double confidence) {
    return new Kinds(
        key ->
            kind(
                CostModels.forService(settings, key.model(), key.service(), lives),
                ceilingHours(settings, key.service(), lives),
                confidence));
  }

  /** The same with those of {@code pumps} worked out at once, on several threads. */
  static Kinds of(
      FleetSettings settings, List<PumpNow> pumps, LifeLookup lives, double confidence) {
    Kinds kinds = asNeeded(settings, lives, confidence);
    Set<Key> keys = new LinkedHashSet<>();
    pumps.forEach(pump -> keys.add(Key.of(pump)));
    keys.parallelStream().forEach(kinds::of);
    return kinds;
  }

  /** Age from new at which the first ceiling on failure is reached; infinite when none is. */
  private static double ceilingHours(
      FleetSettings settings, Optional<Service> service, LifeLookup lives) {
    double least = Double.POSITIVE_INFINITY;
    for (FleetSettings.Component component : settings.components()) {
      String name = component.component();
      Double highest = settings.limits().maxFailureProbability().get(name);
      Optional<LifeModel> life = lives.find(name, service);
      if (highest != null && life.isPresent()) {
        List<LifeDraws> draws =
            component.positions().stream().map(p -> life.get().draws()).toList();
        least = Math.min(least, new FailureCeiling(name, highest, draws).intervalHours());
      }
    }
    return least;
  }

  private static Kind kind(CostModels.Outcome outcome, double ceilingHours, double confidence) {
    if (!(outcome instanceof CostModels.Available available)) {
      return new Kind(
          outcome, Optional.empty(), IntervalAfter.of(Double.POSITIVE_INFINITY, ceilingHours));
    }
    DrawnCostModel model = available.model().first(DRAWS);
    ExpectedCost cost = ExpectedCost.of(model, confidence);
    UncertainAdvice best = cost.best();
    double hours = best.intervalHours().orElse(Double.POSITIVE_INFINITY);
    return new Kind(
        outcome,
        Optional.of(new Costed(model, best, confidence, cost.leastByDraw())),
        IntervalAfter.of(hours, ceilingHours));
  }

  Kind of(PumpNow pump) {
    return of(Key.of(pump));
  }

  private Kind of(Key key) {
    return known.computeIfAbsent(key, make);
  }
}

package org.vaneward.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.TreeMap;
import org.vaneward.fleet.FleetSettings.Clock;
import org.vaneward.fleet.Service;
import org.vaneward.plan.PumpNow;
import org.vaneward.policy.CappedInterval;
import org.vaneward.policy.CostModels;
import org.vaneward.policy.CostModels.Outcome;
import org.vaneward.policy.CostRate;
import org.vaneward.policy.IntervalSearch;

/**
 * The planned interval of the pumps of one service and one model.
 *
 * @param service what they do
 * @param model their model label; empty when not on record
 * @param pumps how many are in service
 * @param agePerWeek what their parts age in a week in the fleet's clock: mean running hours of
 *     those whose usage is known, or 7 days
 * @param outcome the cost model, or why there is none
 * @param costed cost by interval and the advice from it; empty without a cost model
 */
record ServiceInterval(
    Service service,
    Optional<String> model,
    int pumps,
    OptionalDouble agePerWeek,
    Outcome outcome,
    Optional<Costed> costed) {

  /**
   * What the cost model comes to.
   *
   * @param available the cost model and what it rests on
   * @param rate cost by interval
   * @param interval the best interval, cut to the limits at the mean usage
   */
  record Costed(CostModels.Available available, CostRate rate, CappedInterval interval) {}

  /** The service, and the model where the fleet has several. */
  String label() {
    return service + model.map(m -> ", " + m).orElse("");
  }

  /** One for each service and model that has pumps in service, in order. */
  static List<ServiceInterval> of(FleetAnalysis analysis) {
    Map<Service, Map<String, List<PumpNow>>> groups = new TreeMap<>();
    for (PumpNow pump : analysis.pumps()) {
      pump.service()
          .ifPresent(
              service ->
                  groups
                      .computeIfAbsent(service, s -> new TreeMap<>())
                      .computeIfAbsent(pump.model().orElse(""), m -> new ArrayList<>())
                      .add(pump));
    }
    List<ServiceInterval> intervals = new ArrayList<>();
    groups.forEach(
        (service, models) ->
            models.forEach(
                (model, pumps) ->
                    intervals.add(
                        of(
                            analysis,
                            service,
                            model.isEmpty() ? Optional.empty() : Optional.of(model),
                            pumps))));
    return intervals;
  }

  private static ServiceInterval of(
      FleetAnalysis analysis, Service service, Optional<String> model, List<PumpNow> pumps) {
    OptionalDouble usage =
        analysis.fleetSettings().clock() == Clock.DAYS ? OptionalDouble.of(7) : meanUse(pumps);
    Outcome outcome =
        CostModels.forService(
            analysis.fleetSettings(), model, Optional.of(service), analysis.models()::find);
    return new ServiceInterval(
        service, model, pumps.size(), usage, outcome, costed(analysis, outcome, usage));
  }

  private static OptionalDouble meanUse(List<PumpNow> pumps) {
    return pumps.stream()
        .map(PumpNow::hoursPerWeek)
        .filter(OptionalDouble::isPresent)
        .mapToDouble(OptionalDouble::getAsDouble)
        .average();
  }

  private static Optional<Costed> costed(
      FleetAnalysis analysis, Outcome outcome, OptionalDouble usage) {
    if (!(outcome instanceof CostModels.Available available)) {
      return Optional.empty();
    }
    CostRate rate = CostRate.of(available.model());
    CappedInterval interval =
        CappedInterval.of(
            available.model(), IntervalSearch.best(rate), analysis.fleetSettings().limits(), usage);
    return Optional.of(new Costed(available, rate, interval));
  }
}

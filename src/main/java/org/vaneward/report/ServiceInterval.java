package org.vaneward.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.function.Supplier;
import org.vaneward.fleet.FleetSettings.Clock;
import org.vaneward.fleet.Service;
import org.vaneward.plan.PumpNow;
import org.vaneward.policy.CappedInterval;
import org.vaneward.policy.CostModels;
import org.vaneward.policy.CostModels.Outcome;
import org.vaneward.policy.ExpectedCost;
import org.vaneward.policy.PolicyComparison;
import org.vaneward.policy.Renewals;
import org.vaneward.policy.ShopPractice;
import org.vaneward.policy.UncertainAdvice;
import org.vaneward.stats.Estimate;

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
 * @param practice what the shop does with such pumps
 * @param practiceOf whose practice that is: too few openings of one service and model say little
 */
record ServiceInterval(
    Service service,
    Optional<String> model,
    int pumps,
    OptionalDouble agePerWeek,
    Outcome outcome,
    Optional<Costed> costed,
    ShopPractice practice,
    String practiceOf) {

  /** Of the simulated practice. */
  private static final long SEED = 1;

  private static final double WEEKS_PER_YEAR = 365.25 / 7;

  /**
   * What the cost model comes to.
   *
   * @param available the cost model and what it rests on
   * @param cost expected cost by interval
   * @param interval the best interval, cut to the limits at the mean usage
   * @param rules rules for opening a pump, compared
   */
  record Costed(
      CostModels.Available available,
      ExpectedCost cost,
      CappedInterval interval,
      PolicyComparison rules) {
    /** Expected long-run cost per hour at the interval as it stands, limits included. */
    Estimate perHour() {
      return cost.at(interval.intervalHours().orElse(Double.POSITIVE_INFINITY));
    }

    UncertainAdvice advice() {
      return interval.advice();
    }

    /** What the interval as it stands saves per hour against running to failure. */
    Estimate saving() {
      return cost.saving(interval.intervalHours().orElse(Double.POSITIVE_INFINITY));
    }
  }

  /** Running of all these pumps in a year, in the fleet's clock; empty when not known. */
  OptionalDouble hoursPerYear() {
    return agePerWeek.isPresent()
        ? OptionalDouble.of(pumps * agePerWeek.getAsDouble() * WEEKS_PER_YEAR)
        : OptionalDouble.empty();
  }

  /** A rate per hour as money a year for all these pumps; empty without a cost or a usage. */
  Optional<Estimate> yearly(Function<Costed, Estimate> rate) {
    if (costed.isEmpty() || hoursPerYear().isEmpty()) {
      return Optional.empty();
    }
    double hours = hoursPerYear().getAsDouble();
    Estimate perHour = rate.apply(costed.get());
    return Optional.of(
        new Estimate(hours * perHour.estimate(), hours * perHour.lower(), hours * perHour.upper()));
  }

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
    Practices practices = Practices.of(analysis);
    Renewals renewals = new Renewals();
    List<Supplier<ServiceInterval>> work = new ArrayList<>();
    groups.forEach(
        (service, models) ->
            models.forEach(
                (model, pumps) ->
                    work.add(
                        () ->
                            of(
                                analysis,
                                service,
                                model.isEmpty() ? Optional.empty() : Optional.of(model),
                                pumps,
                                practices,
                                renewals))));
    return work.parallelStream().map(Supplier::get).toList();
  }

  private static ServiceInterval of(
      FleetAnalysis analysis,
      Service service,
      Optional<String> model,
      List<PumpNow> pumps,
      Practices practices,
      Renewals renewals) {
    OptionalDouble usage =
        analysis.fleetSettings().clock() == Clock.DAYS ? OptionalDouble.of(7) : meanUse(pumps);
    Outcome outcome =
        CostModels.forService(
            analysis.fleetSettings(), model, Optional.of(service), analysis.models()::find);
    Practices.Found practice = practices.of(service, model);
    return new ServiceInterval(
        service,
        model,
        pumps.size(),
        usage,
        outcome,
        costed(analysis, outcome, usage, practice.practice(), renewals),
        practice.practice(),
        practice.of());
  }

  private static OptionalDouble meanUse(List<PumpNow> pumps) {
    return pumps.stream()
        .map(PumpNow::hoursPerWeek)
        .filter(OptionalDouble::isPresent)
        .mapToDouble(OptionalDouble::getAsDouble)
        .average();
  }

  private static Optional<Costed> costed(
      FleetAnalysis analysis,
      Outcome outcome,
      OptionalDouble usage,
      ShopPractice practice,
      Renewals renewals) {
    if (!(outcome instanceof CostModels.Available available)) {
      return Optional.empty();
    }
    double confidence = analysis.settings().confidence();
    ExpectedCost cost = ExpectedCost.of(available.model(), confidence);
    UncertainAdvice advice = cost.best();
    return Optional.of(
        new Costed(
            available,
            cost,
            CappedInterval.of(available.model(), advice, analysis.fleetSettings().limits(), usage),
            PolicyComparison.of(
                available.model(), advice, practice.rule(), renewals, confidence, SEED)));
  }
}

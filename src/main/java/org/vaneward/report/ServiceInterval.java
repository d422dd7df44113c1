package org.vaneward.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.TreeMap;
import java.util.function.Function;
import org.vaneward.fleet.FleetSettings.Clock;
import org.vaneward.fleet.FleetSettings.Limits;
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
 * @param group the pumps
 * @param agePerWeek what their parts age in a week in the fleet's clock: mean running hours of
 *     those whose usage is known, or 7 days
 * @param outcome the cost model, or why there is none
 * @param costed cost by interval and the advice from it; empty without a cost model
 * @param practice what the shop does with such pumps
 * @param practiceOf whose practice that is: too few openings of one service and model say little
 */
record ServiceInterval(
    Group group,
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
   */
  record Advised(CostModels.Available available, ExpectedCost cost, CappedInterval interval) {
    static Advised of(
        CostModels.Available available, Limits limits, OptionalDouble usage, double confidence) {
      ExpectedCost cost = ExpectedCost.of(available.model(), confidence);
      return new Advised(
          available, cost, CappedInterval.of(available.model(), cost.best(), limits, usage));
    }

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

  /**
   * The same with other rules beside it.
   *
   * @param advised the interval
   * @param rules rules for opening a pump, compared
   */
  record Costed(Advised advised, PolicyComparison rules) {
    CostModels.Available available() {
      return advised.available();
    }

    ExpectedCost cost() {
      return advised.cost();
    }

    CappedInterval interval() {
      return advised.interval();
    }

    Estimate perHour() {
      return advised.perHour();
    }

    UncertainAdvice advice() {
      return advised.advice();
    }

    Estimate saving() {
      return advised.saving();
    }
  }

  /** Running of all these pumps in a year, in the fleet's clock; empty when not known. */
  OptionalDouble hoursPerYear() {
    return agePerWeek.isPresent()
        ? OptionalDouble.of(pumps() * agePerWeek.getAsDouble() * WEEKS_PER_YEAR)
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

  /** What they do. */
  Service service() {
    return group.service();
  }

  /** Their model label; empty when not on record. */
  Optional<String> model() {
    return group.model();
  }

  /** How many are in service. */
  int pumps() {
    return group.pumps().size();
  }

  /** The service, and the model where the fleet has several. */
  String label() {
    return group.label();
  }

  /**
   * Pumps of one service and one model.
   *
   * @param service what they do
   * @param model their model label; empty when not on record
   * @param pumps the pumps
   */
  record Group(Service service, Optional<String> model, List<PumpNow> pumps) {
    /** The groups of those pumps whose service is on record, in order. */
    static List<Group> of(List<PumpNow> pumps) {
      Map<Service, Map<String, List<PumpNow>>> groups = new TreeMap<>();
      for (PumpNow pump : pumps) {
        pump.service()
            .ifPresent(
                service ->
                    groups
                        .computeIfAbsent(service, s -> new TreeMap<>())
                        .computeIfAbsent(pump.model().orElse(""), m -> new ArrayList<>())
                        .add(pump));
      }
      List<Group> found = new ArrayList<>();
      groups.forEach(
          (service, models) ->
              models.forEach(
                  (model, alike) ->
                      found.add(
                          new Group(
                              service, Optional.of(model).filter(m -> !m.isEmpty()), alike))));
      return found;
    }

    /** What their parts age in a week: mean running of those whose usage is known, or 7 days. */
    OptionalDouble agePerWeek(Clock clock) {
      return clock == Clock.DAYS
          ? OptionalDouble.of(7)
          : pumps.stream()
              .map(PumpNow::hoursPerWeek)
              .filter(OptionalDouble::isPresent)
              .mapToDouble(OptionalDouble::getAsDouble)
              .average();
    }

    /** The service, and the model where the fleet has several. */
    String label() {
      return service + model.map(m -> ", " + m).orElse("");
    }
  }

  /** One for each service and model that has pumps in service, in order. */
  static List<ServiceInterval> of(FleetAnalysis analysis) {
    Practices practices = Practices.of(analysis);
    Renewals renewals = new Renewals();
    return Group.of(analysis.pumps()).parallelStream()
        .map(group -> of(analysis, group, practices, renewals))
        .toList();
  }

  private static ServiceInterval of(
      FleetAnalysis analysis, Group group, Practices practices, Renewals renewals) {
    OptionalDouble usage = group.agePerWeek(analysis.fleetSettings().clock());
    Outcome outcome =
        CostModels.forService(
            analysis.fleetSettings(),
            group.model(),
            Optional.of(group.service()),
            analysis.models()::find);
    Practices.Found practice = practices.of(group.service(), group.model());
    return new ServiceInterval(
        group,
        usage,
        outcome,
        costed(analysis, outcome, usage, practice.practice(), renewals),
        practice.practice(),
        practice.of());
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
    Advised advised = Advised.of(available, analysis.fleetSettings().limits(), usage, confidence);
    return Optional.of(
        new Costed(
            advised,
            PolicyComparison.of(
                available.model(), advised.advice(), practice.rule(), renewals, confidence, SEED)));
  }
}

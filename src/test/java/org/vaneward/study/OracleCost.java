package org.vaneward.study;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.vaneward.fleet.FleetSettings;
import org.vaneward.fleet.Service;
import org.vaneward.life.LivesTable;
import org.vaneward.model.LifeDraws;
import org.vaneward.model.LifeModel;
import org.vaneward.plan.PumpNow;
import org.vaneward.policy.CostModels;
import org.vaneward.policy.CostRate;
import org.vaneward.policy.DrawnCostModel;
import org.vaneward.policy.ExpectedCost;
import org.vaneward.policy.IntervalSearch;
import org.vaneward.policy.LifeLookup;
import org.vaneward.report.FleetLives;
import org.vaneward.sample.Truth;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.distribution.Weibull;
import org.vaneward.stats.fit.FitSettings;
import org.vaneward.stats.fit.WeibullFit;
import org.vaneward.stats.fit.WeibullFitter;

/**
 * What one kind of pump truly costs at an interval that somebody advises, beside the least there
 * is, which an oracle who knows the true lives would find.
 */
final class OracleCost {
  private static final double CONFIDENCE = 0.90;

  private final FleetSettings settings;
  private final Kind kind;
  private final CostRate cost;
  private final double least;

  private OracleCost(FleetSettings settings, Kind kind, CostRate cost) {
    this.settings = settings;
    this.kind = kind;
    this.cost = cost;
    this.least = IntervalSearch.best(cost).costPerHour();
  }

  /** What is common to some pumps of a fleet. */
  record Kind(Optional<String> model, Optional<Service> service) {}

  /** The kinds of pump of a fleet, with how many there are of each. */
  static Map<Kind, Integer> kinds(FleetLives fleet) {
    Map<Kind, Integer> kinds = new LinkedHashMap<>();
    for (PumpNow pump : PumpNow.of(fleet.records().fleet(), fleet.lives())) {
      kinds.merge(new Kind(pump.model(), pump.service()), 1, Integer::sum);
    }
    return kinds;
  }

  /** The true cost of a kind of pump whose lives {@code oracle} knows. */
  static OracleCost of(FleetSettings settings, Kind kind, LifeLookup oracle) {
    return new OracleCost(
        settings, kind, CostRate.of(model(settings, kind, oracle).orElseThrow().at(0)));
  }

  /**
   * The true long-run cost per hour at the interval that {@code lives} advise over the least there
   * is, less 1. Running to failure counts as an interval, and is what pumps do without advice.
   */
  double regret(LifeLookup lives) {
    OptionalDouble hours = advised(lives);
    double paid =
        hours.isPresent() ? cost.costPerHour(hours.getAsDouble()) : cost.runToFailureCostPerHour();
    return paid / least - 1;
  }

  /** The interval advised; empty when that is to run to failure, or when there is no advice. */
  private OptionalDouble advised(LifeLookup lives) {
    Optional<DrawnCostModel> found = model(settings, kind, lives);
    if (found.isEmpty()) {
      return OptionalDouble.empty();
    }
    DrawnCostModel model = found.get();
    return model.draws() > 1
        ? ExpectedCost.of(model, CONFIDENCE).best().intervalHours()
        : IntervalSearch.best(model.at(0)).intervalHours();
  }

  private static Optional<DrawnCostModel> model(
      FleetSettings settings, Kind kind, LifeLookup lives) {
    return CostModels.forService(settings, kind.model(), kind.service(), lives)
            instanceof CostModels.Available available
        ? Optional.of(available.model())
        : Optional.empty();
  }

  /** One fit of each component to all services together. */
  static LifeLookup together(LivesTable table, FitSettings settings) {
    Map<List<String>, Weibull> fits = fits(table, List.of("component"), settings);
    return (component, service) ->
        Optional.ofNullable(fits.get(List.of(component)))
            .map(life -> known(component, service, life));
  }

  /** Each service's own fit; all together where it has none. */
  static LifeLookup own(LivesTable table, FitSettings settings) {
    Map<List<String>, Weibull> fits =
        fits(table, List.of("component", "product", "duty"), settings);
    LifeLookup all = together(table, settings);
    return (component, service) ->
        service
            .flatMap(s -> Optional.ofNullable(fits.get(List.of(component, s.product(), s.duty()))))
            .map(life -> known(component, service, life))
            .or(() -> all.find(component, service));
  }

  private static Map<List<String>, Weibull> fits(
      LivesTable table, List<String> by, FitSettings settings) {
    Map<List<String>, Weibull> fits = new LinkedHashMap<>();
    table
        .groupBy(by)
        .forEach(
            (key, lives) -> {
              if (WeibullFitter.fit(lives.observations(), settings)
                  instanceof WeibullFit.Fitted fit) {
                fits.put(key, fit.weibull());
              }
            });
    return fits;
  }

  /** The true lives of a drawn fleet. */
  static LifeLookup oracle(Truth truth) {
    return (component, service) ->
        truth.lifetimes().stream()
            .filter(life -> life.component().equals(component))
            .filter(life -> service.equals(Optional.of(new Service(life.product(), life.duty()))))
            .findFirst()
            .map(life -> known(component, service, new Weibull(life.shape(), life.scale())));
  }

  /** A life as though it were known. */
  static LifeModel known(String component, Optional<Service> service, Weibull life) {
    return new LifeModel(
        component,
        service,
        life,
        new Estimate(life.shape(), life.shape(), life.shape()),
        new Estimate(life.scale(), life.scale(), life.scale()),
        LifeModel.Basis.OWN_FAILURES,
        0,
        0,
        0,
        LifeDraws.certain(life));
  }
}

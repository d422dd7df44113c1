package org.vaneward.plan;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.vaneward.fleet.FleetSettings;
import org.vaneward.fleet.Service;
import org.vaneward.model.LifeModel;
import org.vaneward.policy.Bound;
import org.vaneward.policy.CappedInterval;
import org.vaneward.policy.CostModel;
import org.vaneward.policy.CostModels;
import org.vaneward.policy.IntervalAdvice;
import org.vaneward.policy.IntervalSearch;
import org.vaneward.policy.LifeLookup;
import org.vaneward.policy.PositionRisk;
import org.vaneward.policy.RunCost;
import org.vaneward.policy.RunOn;

/**
 * Plans pumps one at a time; pumps of one model in one service share a cost model.
 *
 * <p>A part's age counts in full in the pump's present service, whatever services it was run in.
 */
final class PumpPlanner {
  private final FleetSettings settings;
  private final LifeLookup lives;
  private final Map<Kind, Costed> costed = new HashMap<>();

  PumpPlanner(FleetSettings settings, LifeLookup lives) {
    this.settings = settings;
    this.lives = lives;
  }

  PumpPlan plan(PumpNow pump) {
    Usage usage = Usage.of(settings, pump);
    Ages ages = new Ages(pump, usage);
    Costed kind = costed.computeIfAbsent(new Kind(pump.model(), pump.service()), this::cost);
    CostSide cost = costSide(kind, usage, ages);
    LimitDates limits = LimitDates.of(settings, pump, usage, ages, lives);
    Set<String> notKnown = new LinkedHashSet<>(kind.outcome().notKnown());
    Optional<FailureProbability> stops = failureProbability(pump, usage, ages, notKnown);
    notKnown.addAll(limits.notKnown());
    Bound bound = bound(cost, limits);
    NextRebuild next = next(bound, cost, limits);
    return new PumpPlan(
        pump.pump(),
        pump.site(),
        pump.service(),
        pump.hoursSinceRebuild(),
        next,
        bound,
        stops,
        cost.waitingPerWeek(),
        cost.firstWeekLate(),
        Optional.empty(),
        new Why(pump.service(), usage, cost, limits).sentence(bound),
        next.date().map(d -> Math.max(0, ChronoUnit.DAYS.between(d, usage.asOf()))).orElse(0L),
        limits.mandated().map(LimitDates.Mandated::by),
        limits.latest(),
        limits.latest().filter(d -> d.isBefore(usage.asOf())).isPresent(),
        kind.advice()
            .flatMap(
                a ->
                    kind.model()
                        .map(m -> CappedInterval.of(m, a, settings.limits(), usage.perWeek()))),
        ages.assumptions(),
        List.copyOf(notKnown));
  }

  /** What tells one cost model from another. */
  private record Kind(Optional<String> model, Optional<Service> service) {}

  /** A kind's cost model and its best interval, when it has them. */
  private record Costed(
      CostModels.Outcome outcome, Optional<CostModel> model, Optional<IntervalAdvice> advice) {}

  private Costed cost(Kind kind) {
    CostModels.Outcome outcome =
        CostModels.forService(settings, kind.model(), kind.service(), lives);
    if (outcome instanceof CostModels.Available available) {
      return new Costed(
          outcome,
          Optional.of(available.model()),
          Optional.of(IntervalSearch.best(available.model())));
    }
    return new Costed(outcome, Optional.empty(), Optional.empty());
  }

  private static CostSide costSide(Costed kind, Usage usage, Ages ages) {
    if (kind.outcome() instanceof CostModels.NotAvailable none) {
      return CostSide.none(none.reason());
    }
    CostModel model = kind.model().orElseThrow();
    IntervalAdvice advice = kind.advice().orElseThrow();
    if (advice.noInterval().isPresent()) {
      return CostSide.none(advice.noInterval().get().words());
    }
    Optional<List<Double>> known =
        ages.at(model.positions().stream().map(PositionRisk::position).toList());
    if (known.isEmpty()) {
      return CostSide.none("the age of a part is not known, nor since when the pump has run");
    }
    if (usage.perWeek().isEmpty()) {
      return CostSide.none("no running hours a week are known for it");
    }
    return dated(RunCost.fromAges(model, known.get()), known.get(), advice, usage);
  }

  private static CostSide dated(
      RunCost run, List<Double> ages, IntervalAdvice advice, Usage usage) {
    double g = advice.costPerHour();
    double week = usage.perWeek().orElseThrow();
    RunOn runOn = RunOn.best(run, g);
    OptionalDouble waiting = OptionalDouble.of(run.extraCost(week, g));
    if (runOn.dueHours().isEmpty()) {
      return CostSide.none(
          "at the ages of its parts, running to the next failure is cheapest", waiting);
    }
    double due = runOn.dueHours().getAsDouble();
    Optional<LocalDate> date = usage.day(due);
    if (date.isEmpty()) {
      return CostSide.none("at its usage it is not due within a hundred years", waiting);
    }
    double late =
        due > 0 ? run.extraCost(due + week, g) - run.extraCost(due, g) : run.extraCost(week, g);
    return new CostSide(
        date,
        runOn.window().flatMap(w -> usage.day(w.fromHours())),
        runOn.window().flatMap(w -> w.toHours().stream().boxed().findFirst()).flatMap(usage::day),
        Optional.empty(),
        driver(run, ages, Math.max(due, 0)),
        waiting,
        OptionalDouble.of(late));
  }

  private static Optional<CostSide.Driver> driver(RunCost run, List<Double> ages, double hours) {
    int most = 0;
    for (int i = 1; i < ages.size(); i++) {
      if (run.marginalOf(i, hours) > run.marginalOf(most, hours)) {
        most = i;
      }
    }
    PositionRisk risk = run.model().positions().get(most);
    return Optional.of(
        new CostSide.Driver(risk.position(), ages.get(most), risk.life().quantile(0.5)));
  }

  private static Bound bound(CostSide cost, LimitDates limits) {
    Bound bound = Bound.NONE;
    LocalDate first = LocalDate.MAX;
    if (cost.date().isPresent()) {
      bound = Bound.COST;
      first = cost.date().get();
    }
    if (limits.ceiling().isPresent() && limits.ceiling().get().by().isBefore(first)) {
      bound = Bound.FAILURE_PROBABILITY;
      first = limits.ceiling().get().by();
    }
    if (limits.mandated().isPresent() && limits.mandated().get().by().isBefore(first)) {
      bound = Bound.MANDATED;
    }
    return bound;
  }

  /** Where a limit binds, the window ends on the day it allows and may start earlier on cost. */
  private static NextRebuild next(Bound bound, CostSide cost, LimitDates limits) {
    return switch (bound) {
      case NONE -> NextRebuild.none();
      case COST -> new NextRebuild(cost.date(), cost.from(), earlier(cost.to(), limits.latest()));
      case FAILURE_PROBABILITY, MANDATED ->
          new NextRebuild(limits.latest(), earlier(cost.from(), limits.latest()), limits.latest());
    };
  }

  /** The earlier of two days; the other when one is missing. */
  private static Optional<LocalDate> earlier(Optional<LocalDate> a, Optional<LocalDate> b) {
    if (a.isEmpty() || b.isEmpty()) {
      return a.or(() -> b);
    }
    return a.get().isBefore(b.get()) ? a : b;
  }

  /** Announcing positions only: the others do not stop the pump. */
  private Optional<FailureProbability> failureProbability(
      PumpNow pump, Usage usage, Ages ages, Set<String> notKnown) {
    List<double[]> hazards = new ArrayList<>();
    double[] days = {30, 90, 365};
    if (usage.perWeek().isEmpty()) {
      notKnown.add("no running hours a week are known for it: the chance of a stop is not given");
      return Optional.empty();
    }
    for (FleetSettings.Component component : settings.components()) {
      Optional<LifeModel> life = lives.find(component.component(), pump.service());
      if (!component.announces() || life.isEmpty()) {
        continue;
      }
      for (String position : component.positions()) {
        OptionalDouble age = ages.at(position);
        if (age.isEmpty()) {
          notKnown.add("the age of " + position + " is not known: its risk of a stop is left out");
          continue;
        }
        double[] added = new double[days.length];
        for (int i = 0; i < days.length; i++) {
          double further = usage.within(days[i]).orElseThrow();
          added[i] = addedHazard(life.get(), age.getAsDouble(), further);
        }
        hazards.add(added);
      }
    }
    if (hazards.isEmpty()) {
      return Optional.empty();
    }
    return Optional.of(
        new FailureProbability(stop(hazards, 0), stop(hazards, 1), stop(hazards, 2)));
  }

  private static double addedHazard(LifeModel life, double age, double further) {
    return life.weibull().cumulativeHazard(age + further) - life.weibull().cumulativeHazard(age);
  }

  private static double stop(List<double[]> hazards, int i) {
    return -Math.expm1(-hazards.stream().mapToDouble(h -> h[i]).sum());
  }
}

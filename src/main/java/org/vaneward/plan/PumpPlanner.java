package org.vaneward.plan;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.vaneward.fleet.FleetSettings;
import org.vaneward.model.LifeModel;
import org.vaneward.policy.Bound;
import org.vaneward.policy.CostModels;
import org.vaneward.policy.LifeLookup;
import org.vaneward.policy.NoInterval;

/**
 * Plans pumps one at a time; pumps of one model in one service share a cost model.
 *
 * <p>A part's age counts in full in the pump's present service, whatever services it was run in.
 * Several threads may plan at once.
 */
final class PumpPlanner {
  /** Standard deviations off the mean at which the usage is tried, and how much each counts. */
  private static final double[] USAGE_SDS = {-Math.sqrt(3), 0, Math.sqrt(3)};

  private static final double[] USAGE_WEIGHTS = {1.0 / 6, 2.0 / 3, 1.0 / 6};

  private final FleetSettings settings;
  private final LifeLookup lives;
  private final Kinds kinds;
  private final int weeks;

  PumpPlanner(FleetSettings settings, LifeLookup lives, Kinds kinds, int weeks) {
    this.settings = settings;
    this.lives = lives;
    this.kinds = kinds;
    this.weeks = weeks;
  }

  PumpPlan plan(PumpNow pump) {
    Usage usage = Usage.of(settings, pump);
    Ages ages = new Ages(pump, usage);
    Kinds.Kind kind = kinds.of(pump);
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
        usage.perWeek(),
        next,
        cost.range().filter(r -> bound == Bound.COST),
        kind.interval(),
        bound,
        stops,
        cost.waitingPerWeek(),
        cost.firstWeekLate(),
        cost.run(),
        Optional.empty(),
        new Why(pump.service(), usage, cost, limits).sentence(bound),
        next.date().map(d -> Math.max(0, ChronoUnit.DAYS.between(d, usage.asOf()))).orElse(0L),
        limits.mandated().map(LimitDates.Mandated::by),
        limits.latest(),
        limits.latest().filter(d -> d.isBefore(usage.asOf())).isPresent(),
        kind.costed().isPresent(),
        cost.byWeek(),
        ages.assumptions(),
        List.copyOf(notKnown));
  }

  private CostSide costSide(Kinds.Kind kind, Usage usage, Ages ages) {
    if (kind.outcome() instanceof CostModels.NotAvailable none) {
      return CostSide.none(none.reason());
    }
    Kinds.Costed costed = kind.costed().orElseThrow();
    if (costed.advice().noInterval().isPresent()) {
      NoInterval none = costed.advice().noInterval().get();
      return CostSide.none(
          none.words(),
          OptionalDouble.empty(),
          Optional.empty(),
          // Those words say it of all parts already.
          none == NoInterval.HAZARDS_DO_NOT_RISE ? List.of() : costed.advice().notPrevented());
    }
    Optional<List<Double>> known = ages.at(costed.positions());
    if (known.isEmpty()) {
      return CostSide.none("the age of a part is not known, nor since when the pump has run");
    }
    if (usage.perWeek().isEmpty()) {
      return CostSide.none("no running hours a week are known for it");
    }
    double[] now = known.get().stream().mapToDouble(Double::doubleValue).toArray();
    return new DueOnCost(costed, usage, now, weeks).costSide();
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
    if (usage.perWeek().isEmpty()) {
      notKnown.add("no running hours a week are known for it: the chance of a stop is not given");
      return Optional.empty();
    }
    StopChance chance = new StopChance();
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
        chance.add(life.get().draws(), age.getAsDouble());
      }
    }
    return chance.isEmpty()
        ? Optional.empty()
        : Optional.of(
            new FailureProbability(
                stop(chance, usage, 30), stop(chance, usage, 90), stop(chance, usage, 365)));
  }

  /** Over all that is believed of the lives and of the usage ahead. */
  private static double stop(StopChance chance, Usage usage, int days) {
    double further = usage.within(days).orElseThrow();
    double sd = usage.relativeSd(days);
    if (sd == 0) {
      return chance.within(further);
    }
    double total = 0;
    for (int k = 0; k < USAGE_SDS.length; k++) {
      // Log-normal about the rate: usage is never below 0.
      total += USAGE_WEIGHTS[k] * chance.within(further * Math.exp(sd * USAGE_SDS[k]));
    }
    return total;
  }
}

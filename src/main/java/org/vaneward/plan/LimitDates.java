package org.vaneward.plan;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.TreeMap;
import org.vaneward.fleet.FleetSettings;
import org.vaneward.model.LifeModel;
import org.vaneward.policy.FailureCeiling;
import org.vaneward.policy.LifeLookup;

/**
 * The days the limits allow for one pump.
 *
 * @param mandated the mandated interval
 * @param ceiling the failure-probability ceiling reached first
 * @param notKnown limits that could not be applied, one sentence each
 */
record LimitDates(Optional<Mandated> mandated, Optional<Ceiling> ceiling, List<String> notKnown) {

  /**
   * The mandated interval.
   *
   * @param months how long it is
   * @param since the day it is counted from
   * @param rebuilt whether that was a full rebuild
   * @param by the last day allowed
   */
  record Mandated(int months, LocalDate since, boolean rebuilt, LocalDate by) {}

  /**
   * A ceiling.
   *
   * @param ceiling what it says
   * @param by the day it is reached
   */
  record Ceiling(FailureCeiling ceiling, LocalDate by) {}

  /** The last day any limit allows; empty when none is set. */
  Optional<LocalDate> latest() {
    Optional<LocalDate> ceilingBy = ceiling.map(Ceiling::by);
    Optional<LocalDate> mandatedBy = mandated.map(Mandated::by);
    if (ceilingBy.isEmpty() || mandatedBy.isEmpty()) {
      return mandatedBy.or(() -> ceilingBy);
    }
    return ceilingBy.get().isBefore(mandatedBy.get()) ? ceilingBy : mandatedBy;
  }

  static LimitDates of(
      FleetSettings settings, PumpNow pump, Usage usage, Ages ages, LifeLookup lives) {
    List<String> notKnown = new ArrayList<>();
    Optional<Mandated> mandated = mandated(settings, pump, notKnown);
    Optional<Ceiling> first = Optional.empty();
    for (var one : new TreeMap<>(settings.limits().maxFailureProbability()).entrySet()) {
      Optional<Ceiling> found =
          settings.components().stream()
              .filter(c -> c.component().equals(one.getKey()))
              .findFirst()
              .flatMap(c -> ceiling(c, one.getValue(), pump, usage, ages, lives, notKnown));
      if (found.isPresent() && (first.isEmpty() || found.get().by().isBefore(first.get().by()))) {
        first = found;
      }
    }
    return new LimitDates(mandated, first, List.copyOf(notKnown));
  }

  private static Optional<Mandated> mandated(
      FleetSettings settings, PumpNow pump, List<String> notKnown) {
    OptionalInt months = settings.limits().maxIntervalMonths();
    if (months.isEmpty()) {
      return Optional.empty();
    }
    Optional<LocalDate> since = pump.lastRebuild().or(pump::inServiceSince);
    if (since.isEmpty()) {
      notKnown.add(
          "no rebuild and no first day of service is on record: the "
              + months.getAsInt()
              + "-month limit cannot be counted");
    }
    return since.map(
        day ->
            new Mandated(
                months.getAsInt(),
                day,
                pump.lastRebuild().isPresent(),
                day.plusMonths(months.getAsInt())));
  }

  private static Optional<Ceiling> ceiling(
      FleetSettings.Component component,
      double highest,
      PumpNow pump,
      Usage usage,
      Ages ages,
      LifeLookup lives,
      List<String> notKnown) {
    String name = component.component();
    Optional<LifeModel> life = lives.find(name, pump.service());
    Optional<List<Double>> known = ages.at(component.positions());
    if (life.isEmpty() || known.isEmpty() || usage.perWeek().isEmpty()) {
      notKnown.add(
          "the ceiling on "
              + name
              + " failures cannot be applied: "
              + (life.isEmpty()
                  ? "no failure of it is on record"
                  : known.isEmpty() ? "its age is not known" : "the pump's usage is not known"));
      return Optional.empty();
    }
    FailureCeiling ceiling =
        new FailureCeiling(
            name, highest, component.positions().stream().map(p -> life.get().draws()).toList());
    return usage.day(ceiling.hoursUntil(known.get())).map(day -> new Ceiling(ceiling, day));
  }
}

package org.vaneward.backtest;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.stream.Collectors;
import org.vaneward.fleet.Fleet;
import org.vaneward.fleet.Pump;
import org.vaneward.fleet.PumpHistory;
import org.vaneward.life.RunningHours;

/**
 * A fleet as it stood on an earlier day. What happened since is left out: openings, readings,
 * services begun, pumps commissioned or retired, sites whose records start later.
 *
 * <p>Stated running hours a week carry no date and may have been written down since; they are left
 * out where the readings of the time tell the usage. Prices, costs, limits and the workshop are
 * those of {@code fleet.json}, which keeps no history of them.
 */
final class KnownThen {
  private final LocalDate day;

  private KnownThen(LocalDate day) {
    this.day = day;
  }

  /**
   * The fleet on {@code day}.
   *
   * @param asRead its records as they would have been read that day
   * @param records all its records, for the pumps there were: a day of commissioning yet to come is
   *     not believed by who reads it
   */
  static Fleet on(Fleet asRead, Fleet records, LocalDate day) {
    KnownThen then = new KnownThen(day);
    Set<String> known =
        records.pumps().stream()
            .filter(then::knows)
            .map(history -> history.pump().pump())
            .collect(Collectors.toSet());
    return new Fleet(
        asRead.settings().withAsOf(day),
        asRead.pumps().stream()
            .filter(history -> known.contains(history.pump().pump()))
            .map(then::of)
            .toList());
  }

  private boolean knows(PumpHistory history) {
    Pump pump = history.pump();
    return isPast(pump.commissioned()) && isPast(pump.recordsFrom());
  }

  private boolean isPast(Optional<LocalDate> date) {
    return date.filter(day::isBefore).isEmpty();
  }

  private PumpHistory of(PumpHistory history) {
    Pump pump = history.pump();
    PumpHistory unstated = of(history, pump, OptionalDouble.empty());
    boolean readingsTell = RunningHours.of(unstated, day).hoursPerWeek().isPresent();
    return readingsTell ? unstated : of(history, pump, pump.hoursPerWeek());
  }

  private PumpHistory of(PumpHistory history, Pump pump, OptionalDouble hoursPerWeek) {
    Pump then =
        new Pump(
            pump.pump(),
            pump.site(),
            pump.model(),
            pump.commissioned(),
            pump.recordsFrom(),
            hoursPerWeek,
            pump.retired().filter(date -> !date.isAfter(day)),
            pump.covariates(),
            pump.row());
    return new PumpHistory(
        then,
        until(history.services(), s -> s.from()),
        until(history.readings(), r -> r.date()),
        until(history.openings(), o -> o.date()));
  }

  private interface Dated<T> {
    LocalDate of(T one);
  }

  private <T> List<T> until(List<T> all, Dated<T> date) {
    return all.stream().filter(one -> !date.of(one).isAfter(day)).toList();
  }
}

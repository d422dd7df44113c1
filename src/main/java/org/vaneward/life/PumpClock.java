package org.vaneward.life;

import java.time.LocalDate;
import java.util.Optional;
import java.util.OptionalDouble;
import org.vaneward.fleet.FleetSettings.Clock;
import org.vaneward.fleet.Opening;
import org.vaneward.life.RunningHours.Basis;
import org.vaneward.life.RunningHours.Hours;

/** What ages are counted in for one pump: running hours, or days of the calendar. */
final class PumpClock {
  private final Clock clock;
  private final RunningHours running;

  PumpClock(Clock clock, RunningHours running) {
    this.clock = clock;
    this.running = running;
  }

  /** The count on a day; only differences mean anything. */
  Optional<Hours> at(LocalDate date) {
    return clock == Clock.DAYS ? Optional.of(days(date)) : running.at(date);
  }

  /** The count at opening {@code i} of the pump's history. */
  Optional<Hours> atOpening(int i, Opening opening) {
    return clock == Clock.DAYS
        ? Optional.of(days(opening.date()))
        : running.atOpening(i, opening.date());
  }

  OptionalDouble perWeek() {
    return clock == Clock.DAYS ? OptionalDouble.of(7) : running.hoursPerWeek();
  }

  boolean countsHours() {
    return clock == Clock.HOURS;
  }

  private static Hours days(LocalDate date) {
    return new Hours(date.toEpochDay(), Basis.READ);
  }
}

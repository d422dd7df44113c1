package org.vaneward.plan;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.Optional;
import java.util.OptionalDouble;
import org.vaneward.fleet.FleetSettings;
import org.vaneward.fleet.FleetSettings.Clock;
import org.vaneward.life.UsageRate;

/**
 * Running to days and back.
 *
 * @param asOf the day of record
 * @param perWeek running in a week, in the fleet's clock; empty when not known or nought
 * @param rate the same with its spread; empty when not known, or in days
 * @param unit the clock's unit, for sentences
 */
public record Usage(LocalDate asOf, OptionalDouble perWeek, Optional<UsageRate> rate, String unit) {
  /** A date further off than this is no date: a hundred years. */
  private static final double FURTHEST_DAYS = 36525;

  /** The usage of {@code pump}. */
  public static Usage of(FleetSettings settings, PumpNow pump) {
    if (settings.clock() == Clock.DAYS) {
      return new Usage(settings.asOf(), OptionalDouble.of(7), Optional.empty(), "days");
    }
    double perWeek = pump.hoursPerWeek().orElse(0);
    boolean known = perWeek > 0 && perWeek < Double.POSITIVE_INFINITY;
    return new Usage(
        settings.asOf(),
        known ? OptionalDouble.of(perWeek) : OptionalDouble.empty(),
        known ? pump.usage() : Optional.empty(),
        "h");
  }

  /**
   * The day by which {@code further} has been run, rounded down to a whole day so that a limit is
   * not overrun; empty when the usage is not known or the day is beyond a hundred years.
   */
  public Optional<LocalDate> day(double further) {
    if (perWeek.isEmpty()) {
      return Optional.empty();
    }
    double days = Math.floor(7 * further / perWeek.getAsDouble());
    return Math.abs(days) <= FURTHEST_DAYS
        ? Optional.of(asOf.plusDays((long) days))
        : Optional.empty();
  }

  /**
   * Standard deviation of the mean rate over the next {@code days} as a share of the rate; 0 when
   * not known.
   */
  public double relativeSd(double days) {
    return rate.map(r -> r.relativeSd(days / 7)).orElse(0.0);
  }

  /** Running within {@code days}. */
  public OptionalDouble within(double days) {
    return perWeek.isEmpty()
        ? OptionalDouble.empty()
        : OptionalDouble.of(perWeek.getAsDouble() * days / 7);
  }

  /** Running since {@code day}; 0 when that is yet to come. */
  public OptionalDouble since(LocalDate day) {
    return within(Math.max(0, (double) ChronoUnit.DAYS.between(day, asOf)));
  }
}

package org.vaneward.ingest;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.vaneward.fleet.Effect;
import org.vaneward.fleet.MeterReading;
import org.vaneward.fleet.Pump;
import org.vaneward.ingest.Meter.Misfit;
import org.vaneward.ingest.Meter.Point;
import org.vaneward.ingest.Meter.Role;

/**
 * Settles the hour-meter readings of one pump among themselves, then the hours stated at its
 * openings against them.
 *
 * <p>Of readings that contradict each other the fewest are set aside. Hours at an opening that
 * contradict the readings are taken as unknown. An opening on the day a meter is replaced shows the
 * old meter: the hours are those at which the pump was stopped. Where the last reading of an old
 * meter is not stated, the one before is carried forward at the pump's usage.
 */
final class MeterCheck {
  private final Pump pump;
  private final Ledger ledger;
  private final List<ReadingDraft> readings;
  private final List<OpeningDraft> openings;
  private final List<Meter> meters = new ArrayList<>();
  private final Map<ReadingDraft, Misfit> wrongOldHours = new HashMap<>();
  private final Map<OpeningDraft, ReadingDraft> readOnNewMeter = new HashMap<>();

  private MeterCheck(
      Pump pump, List<ReadingDraft> readings, List<OpeningDraft> openings, Ledger ledger) {
    this.pump = pump;
    this.ledger = ledger;
    this.readings = inOrder(readings, ledger);
    this.openings = openings;
  }

  /**
   * The readings of {@code pump} that hold, in order of date; of one day in order of hours, a
   * replaced meter where the file has it. Settles the hours of {@code openings}, given in order of
   * date, on the way.
   */
  static List<MeterReading> settled(
      Pump pump, List<ReadingDraft> readings, List<OpeningDraft> openings, Ledger ledger) {
    MeterCheck check = new MeterCheck(pump, readings, openings, ledger);
    check.splitByMeter();
    check.settleReadings();
    check.settleOpenings();
    check.fillOldHours();
    return check.readings.stream().filter(r -> !r.dropped).map(ReadingDraft::reading).toList();
  }

  private static List<ReadingDraft> inOrder(List<ReadingDraft> readings, Ledger ledger) {
    List<ReadingDraft> sorted = new ArrayList<>(readings);
    sorted.sort(Comparator.comparing((ReadingDraft r) -> r.date).thenComparing(r -> r.row));
    int start = 0;
    for (int i = 1; i <= sorted.size(); i++) {
      boolean sameRun =
          i < sorted.size()
              && sorted.get(i).date.equals(sorted.get(start).date)
              && !sorted.get(i).replaced
              && !sorted.get(start).replaced;
      if (!sameRun) {
        sorted
            .subList(start, i)
            .sort(
                Comparator.comparingDouble((ReadingDraft r) -> r.hours).thenComparing(r -> r.row));
        start = i;
      }
    }
    return withoutRepeats(sorted, ledger);
  }

  private static List<ReadingDraft> withoutRepeats(List<ReadingDraft> sorted, Ledger ledger) {
    List<ReadingDraft> once = new ArrayList<>(sorted.size());
    for (ReadingDraft reading : sorted) {
      ReadingDraft before = once.isEmpty() ? reading : once.get(once.size() - 1);
      if (!once.isEmpty() && before.sameAs(reading)) {
        ledger.repair(
            reading.row,
            "",
            "same as " + Where.beside(before.row, reading.row) + "; counted once",
            Effect.NOTHING);
      } else {
        once.add(reading);
      }
    }
    return once;
  }

  private void splitByMeter() {
    Meter meter = new Meter(Long.MIN_VALUE);
    meters.add(meter);
    for (int i = 0; i < readings.size(); i++) {
      ReadingDraft r = readings.get(i);
      if (r.replaced) {
        if (r.oldHours.isPresent()) {
          meter.add(new Point(Role.OLD, i, r.day(), r.oldHours.getAsDouble(), r.row));
        }
        meter.endOn(r.day());
        meter = new Meter(r.day());
        meters.add(meter);
      }
      meter.add(new Point(r.replaced ? Role.NEW : Role.READING, i, r.day(), r.hours, r.row));
    }
  }

  private void settleReadings() {
    for (Meter meter : meters) {
      for (Misfit misfit : meter.settle()) {
        ReadingDraft reading = readings.get(misfit.point().source());
        switch (misfit.point().role()) {
          case NEW -> restart(meter, misfit, reading);
          case OLD -> {
            reading.oldHours = OptionalDouble.empty();
            wrongOldHours.put(reading, misfit);
          }
          default -> {
            reading.dropped = true;
            ledger.setAside(
                reading.row,
                "hours",
                "hours "
                    + Where.hours(reading.hours)
                    + " "
                    + misfit.reason()
                    + "; if the meter was replaced, the first reading of the new one needs the"
                    + " event meter-replaced and old_hours",
                Effect.READING_LOST);
          }
        }
      }
    }
  }

  /** The first reading of a new meter cannot be right: a new meter starts at 0 if it may. */
  private void restart(Meter meter, Misfit misfit, ReadingDraft reading) {
    Point next = meter.first().orElseThrow();
    double start =
        MeterChain.tooFast(reading.day(), 0, next.day(), next.hours()) ? next.hours() : 0;
    ledger.repair(
        reading.row,
        "hours",
        "hours "
            + Where.hours(reading.hours)
            + " of the new meter "
            + misfit.reason()
            + "; the new meter is taken to start at "
            + Where.hours(start),
        Effect.USAGE_ESTIMATED);
    reading.hours = start;
    meter.startAt(start, misfit.point());
  }

  private void settleOpenings() {
    int first = 0;
    for (int i = 0; i < openings.size(); i++) {
      OpeningDraft opening = openings.get(i);
      while (meters.get(first).lastDay() < opening.day()) {
        first++;
      }
      if (opening.meterHours().isPresent()) {
        place(i, opening, opening.meterHours().getAsDouble(), first);
      }
    }
    for (Meter meter : meters) {
      meter
          .settleStops()
          .forEach(misfit -> forget(openings.get(misfit.point().source()), misfit.reason()));
    }
  }

  /** Finds the meter that can have shown {@code hours} when the pump was stopped. */
  private void place(int index, OpeningDraft opening, double hours, int first) {
    Optional<String> conflict = meters.get(first).conflict(opening.day(), hours);
    if (conflict.isEmpty()) {
      meters.get(first).addStop(new Point(Role.STOP, index, opening.day(), hours, opening.row()));
      return;
    }
    for (int i = first + 1; i < meters.size() && meters.get(i).firstDay() <= opening.day(); i++) {
      if (meters.get(i).conflict(opening.day(), hours).isEmpty()) {
        readOnNewMeter.put(opening, replacement(i));
        return;
      }
    }
    forget(opening, conflict.get());
  }

  private void forget(OpeningDraft opening, String reason) {
    ledger.repair(
        opening.row(),
        "hours",
        "hours "
            + Where.hours(opening.meterHours().orElseThrow())
            + " "
            + reason
            + "; taken from the readings instead",
        Effect.AGE_ESTIMATED);
    opening.setMeterHours(OptionalDouble.empty());
  }

  /** The row that says that meter {@code index} was fitted. */
  private ReadingDraft replacement(int index) {
    return readings.get(meters.get(index).first().orElseThrow().source());
  }

  private void fillOldHours() {
    for (int i = 1; i < meters.size(); i++) {
      ReadingDraft reading = replacement(i);
      if (reading.oldHours.isEmpty()) {
        fillOldHours(reading, meters.get(i - 1), meters.get(i));
      }
    }
    readOnNewMeter.forEach(this::takeOldHours);
  }

  private void fillOldHours(ReadingDraft reading, Meter old, Meter fresh) {
    Misfit misfit = wrongOldHours.get(reading);
    String why =
        misfit == null
            ? "old_hours is not known"
            : "old_hours " + Where.hours(misfit.point().hours()) + " " + misfit.reason();
    OptionalDouble perDay = hoursPerDay(old, fresh);
    Optional<Point> anchor = old.latest();
    if (anchor.isEmpty() && (pump.commissioned().isEmpty() || perDay.isEmpty())) {
      reading.dropped = true;
      ledger.setAside(
          reading.row,
          "old_hours",
          why + ", and no earlier row tells what the old meter showed; give old_hours",
          Effect.READING_LOST);
      return;
    }
    long day = anchor.isPresent() ? anchor.get().day() : commissionedDay();
    double from = anchor.isPresent() ? anchor.get().hours() : 0;
    double usage = perDay.orElse(0);
    double hours = Math.round(10 * (from + usage * Math.max(0, reading.day() - day))) / 10.0;
    reading.oldHours = OptionalDouble.of(hours);
    ledger.repair(
        reading.row,
        "old_hours",
        why
            + "; taken as "
            + Where.hours(hours)
            + ", carried forward from "
            + (anchor.isPresent() ? anchor.get().shown() : "0 when commissioned")
            + (perDay.isPresent()
                ? " at " + Where.hours(Math.round(10 * usage) / 10.0) + " hours a day"
                : ", for no usage is known"),
        Effect.USAGE_ESTIMATED);
  }

  private long commissionedDay() {
    return pump.commissioned().map(LocalDate::toEpochDay).orElseThrow();
  }

  /** Usage by the old meter, else as stated for the pump, else by the new meter. */
  private OptionalDouble hoursPerDay(Meter old, Meter fresh) {
    OptionalDouble byOld = old.hoursPerDay();
    if (byOld.isPresent()) {
      return byOld;
    }
    return pump.hoursPerWeek().isPresent()
        ? OptionalDouble.of(pump.hoursPerWeek().getAsDouble() / 7)
        : fresh.hoursPerDay();
  }

  private void takeOldHours(OpeningDraft opening, ReadingDraft replacement) {
    String stated = Where.hours(opening.meterHours().orElseThrow());
    opening.setMeterHours(replacement.dropped ? OptionalDouble.empty() : replacement.oldHours);
    ledger.repair(
        opening.row(),
        "hours",
        "hours "
            + stated
            + " are those of the meter fitted that day ("
            + Where.of(replacement.row)
            + "); taken as "
            + (opening.meterHours().isPresent()
                ? Where.hours(opening.meterHours().getAsDouble()) + ", the last of the old one"
                : "unknown"),
        Effect.AGE_ESTIMATED);
  }
}

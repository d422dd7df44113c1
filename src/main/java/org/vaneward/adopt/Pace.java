package org.vaneward.adopt;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.vaneward.ingest.DateForm;
import org.vaneward.ingest.NumberForm;
import org.vaneward.ingest.Unit;
import org.vaneward.io.Numbers;

/** Tells readings in minutes or seconds by meters that would run faster than the clock. */
final class Pace {
  private static final double HOURS_OF_A_DAY = 24;
  private static final double MINUTES = 60;
  private static final int LEAST = 3;

  private Pace() {}

  /**
   * The unit readings seem to be in.
   *
   * @param because what speaks for it
   */
  record Found(Unit unit, String because) {}

  /** The unit that {@code readings} seem to be in; empty where they may be hours. */
  static Optional<Found> of(TableMatch readings, DateForm days, NumberForm numbers) {
    List<String> pumps = first(readings, "pump");
    List<String> dates = first(readings, "date");
    List<String> hours = first(readings, "hours");
    Map<String, Reading> before = new HashMap<>();
    List<Double> perDay = new ArrayList<>();
    for (int i = 0; i < pumps.size(); i++) {
      Optional<LocalDate> day = day(dates.get(i), days);
      Optional<Double> value = value(hours.get(i), numbers);
      if (day.isPresent() && value.isPresent()) {
        Reading reading = new Reading(day.get(), value.get());
        Reading last = before.put(pumps.get(i), reading);
        if (last != null && reading.day().isAfter(last.day()) && reading.value() > last.value()) {
          perDay.add(
              (reading.value() - last.value())
                  / ChronoUnit.DAYS.between(last.day(), reading.day()));
        }
      }
    }
    if (perDay.size() < LEAST) {
      return Optional.empty();
    }
    perDay.sort(Double::compare);
    double middle = perDay.get(perDay.size() / 2);
    if (middle <= HOURS_OF_A_DAY) {
      return Optional.empty();
    }
    Unit unit = middle <= HOURS_OF_A_DAY * MINUTES ? Unit.MINUTES : Unit.SECONDS;
    return Optional.of(
        new Found(
            unit,
            "no unit is named, and between readings meters run on by "
                + Math.round(middle)
                + " a day where a day has 24 hours; "
                + unit.word()
                + " are proposed"));
  }

  private record Reading(LocalDate day, double value) {}

  private static List<String> first(TableMatch readings, String column) {
    Pick pick = readings.picks().get(column);
    return pick == null ? List.of() : pick.from().first();
  }

  private static Optional<LocalDate> day(String text, DateForm form) {
    Optional<LocalDate> iso = DateForm.ISO.days(text).stream().findFirst();
    return iso.isPresent() ? iso : form.days(text).stream().findFirst();
  }

  private static Optional<Double> value(String text, NumberForm form) {
    Optional<Double> read = NumberForms.read(form, text);
    return read.isPresent() || !Numbers.isNumber(text)
        ? read
        : Optional.of(new BigDecimal(text).doubleValue());
  }
}

package org.vaneward.ingest;

import java.time.LocalDate;
import java.util.OptionalDouble;
import org.vaneward.fleet.MeterReading;
import org.vaneward.fleet.RowRef;

/** A row of {@code readings.csv} until it is settled against the others of its pump. */
final class ReadingDraft {
  final String pump;
  final LocalDate date;
  final boolean replaced;
  final RowRef row;
  double hours;
  OptionalDouble oldHours;
  boolean dropped;

  ReadingDraft(
      String pump,
      LocalDate date,
      double hours,
      boolean replaced,
      OptionalDouble oldHours,
      RowRef row) {
    this.pump = pump;
    this.date = date;
    this.hours = hours;
    this.replaced = replaced;
    this.oldHours = oldHours;
    this.row = row;
  }

  long day() {
    return date.toEpochDay();
  }

  boolean sameAs(ReadingDraft other) {
    return date.equals(other.date)
        && replaced == other.replaced
        && hours == other.hours
        && oldHours.equals(other.oldHours);
  }

  MeterReading reading() {
    return new MeterReading(pump, date, hours, oldHours, row);
  }
}

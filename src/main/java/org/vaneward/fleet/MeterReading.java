package org.vaneward.fleet;

import java.time.LocalDate;
import java.util.OptionalDouble;

/**
 * An hour-meter reading.
 *
 * @param pump asset tag
 * @param date day of the reading
 * @param hours what the meter shows; the first reading of the new meter when one was fitted
 * @param oldMeterHours last reading of the old meter, present when the meter was replaced that day
 * @param row where it stands in the records
 */
public record MeterReading(
    String pump, LocalDate date, double hours, OptionalDouble oldMeterHours, RowRef row) {
  /** Whether a new meter was fitted that day. */
  public boolean meterReplaced() {
    return oldMeterHours.isPresent();
  }
}

package org.vaneward.life;

import java.time.LocalDate;
import org.vaneward.life.RunningHours.Basis;
import org.vaneward.life.RunningHours.Hours;

/**
 * A day in a pump's history with the pump's count on it.
 *
 * @param date the day
 * @param count running hours or days, by the fleet's clock
 * @param basis how the count is known
 */
record Moment(LocalDate date, double count, Basis basis) {
  static Moment of(LocalDate date, Hours hours) {
    return new Moment(date, hours.hours(), hours.basis());
  }
}

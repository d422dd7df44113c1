package org.vaneward.plan;

import java.time.LocalDate;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * What cost alone says of one pump.
 *
 * @param date the day it is due
 * @param from first day of the window round it
 * @param to last day of it; empty when it has none
 * @param whyNone why there is no day; empty when there is one
 * @param driver the position that asks most for a rebuild then
 * @param waitingPerWeek expected extra cost of one week more from today
 * @param firstWeekLate the same from the due day
 */
record CostSide(
    Optional<LocalDate> date,
    Optional<LocalDate> from,
    Optional<LocalDate> to,
    Optional<String> whyNone,
    Optional<Driver> driver,
    OptionalDouble waitingPerWeek,
    OptionalDouble firstWeekLate) {

  /**
   * The position that asks most for a rebuild.
   *
   * @param position where
   * @param age its part's age now
   * @param halfFailBy age by which half of such parts fail in this service
   */
  record Driver(String position, double age, double halfFailBy) {}

  static CostSide none(String why) {
    return none(why, OptionalDouble.empty());
  }

  static CostSide none(String why, OptionalDouble waitingPerWeek) {
    return new CostSide(
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.of(why),
        Optional.empty(),
        waitingPerWeek,
        OptionalDouble.empty());
  }
}

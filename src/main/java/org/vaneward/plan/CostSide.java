package org.vaneward.plan;

import java.time.LocalDate;
import java.util.List;
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
 * @param range where the due day may lie, lives and usage being uncertain; empty without a day
 * @param run what the time since the due day has risked and cost; empty when it is not past
 * @param byWeek expected extra cost of a rebuild in the weeks to come
 * @param notPrevented components whose failures probably do not grow more likely with age
 */
record CostSide(
    Optional<LocalDate> date,
    Optional<LocalDate> from,
    Optional<LocalDate> to,
    Optional<String> whyNone,
    Optional<Driver> driver,
    OptionalDouble waitingPerWeek,
    OptionalDouble firstWeekLate,
    Optional<DateRange> range,
    Optional<RiskRun> run,
    Optional<WeeklyCost> byWeek,
    List<String> notPrevented) {

  /**
   * The position that asks most for a rebuild.
   *
   * @param position where
   * @param age its part's age now
   * @param halfFailBy age by which half of such parts fail in this service
   */
  record Driver(String position, double age, double halfFailBy) {}

  static CostSide none(String why) {
    return none(why, OptionalDouble.empty(), Optional.empty(), List.of());
  }

  static CostSide none(
      String why,
      OptionalDouble waitingPerWeek,
      Optional<WeeklyCost> byWeek,
      List<String> notPrevented) {
    return new CostSide(
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.of(why),
        Optional.empty(),
        waitingPerWeek,
        OptionalDouble.empty(),
        Optional.empty(),
        Optional.empty(),
        byWeek,
        notPrevented);
  }
}

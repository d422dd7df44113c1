package org.vaneward.plan;

import java.time.LocalDate;
import java.util.List;

/** What it costs to open a pump on another day than its best one. */
@FunctionalInterface
public interface ExtraCost {
  /**
   * Expected extra cost against the pump's best moment, in the fleet's currency.
   *
   * @param pump a pump with a day on which it is due
   * @param days the day a rebuild would be booked on in each week, then the Monday after the last
   * @return for each of {@code days}; the last entry is of leaving the pump until after the
   *     calendar
   */
  double[] byWeek(PumpPlan pump, List<LocalDate> days);
}

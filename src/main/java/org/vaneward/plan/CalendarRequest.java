package org.vaneward.plan;

import java.util.List;
import org.vaneward.fleet.Commitment;

/**
 * What is asked of a calendar.
 *
 * @param weeks how many it covers, at least 1
 * @param committed rebuilds that keep their week, at most one for a pump
 */
public record CalendarRequest(int weeks, List<Commitment> committed) {
  /** Weeks covered unless told otherwise: two years. */
  public static final int WEEKS = 104;

  public CalendarRequest {
    if (weeks < 1) {
      throw new IllegalArgumentException("a calendar has at least 1 week, not " + weeks);
    }
    committed = List.copyOf(committed);
  }

  /** Two years, nothing committed. */
  public static CalendarRequest plain() {
    return new CalendarRequest(WEEKS, List.of());
  }
}

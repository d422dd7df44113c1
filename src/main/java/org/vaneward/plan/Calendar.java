package org.vaneward.plan;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;

/**
 * Rebuilds booked by week.
 *
 * @param weeks weeks with a rebuild, in order
 * @param notKept days that could not be kept
 */
public record Calendar(List<Week> weeks, List<NotKept> notKept) {
  public Calendar {
    weeks = List.copyOf(weeks);
    notKept = List.copyOf(notKept);
  }

  /**
   * A week's rebuilds.
   *
   * @param week ISO 8601 week, such as {@code 2026-W36}
   * @param monday its Monday
   * @param pumps asset tags, in order of urgency
   */
  public record Week(String week, LocalDate monday, List<String> pumps) {
    public Week {
      pumps = List.copyOf(pumps);
    }
  }

  /** What could not be kept. */
  public enum Kept {
    /** A limit: mandated interval or failure-probability ceiling. */
    LIMIT,
    /** The window of least cost. */
    WINDOW
  }

  /**
   * A day that could not be kept.
   *
   * @param pump asset tag
   * @param what what it was the last day of
   * @param by the last day allowed
   * @param scheduled the day booked; empty when no week was free
   * @param daysLate how much later that is; empty when no week was free
   */
  public record NotKept(
      String pump, Kept what, LocalDate by, Optional<LocalDate> scheduled, OptionalLong daysLate) {}
}

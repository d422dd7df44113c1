package org.vaneward.plan;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;

/**
 * Rebuilds booked by week.
 *
 * @param mondays of every week it covers, in order
 * @param closed Mondays of those in which the workshop is closed
 * @param weeks weeks with a rebuild, in order
 * @param bookings the rebuilds, in order of their days
 * @param notKept days that could not be kept
 * @param balance what it costs, and how sure it is that no other costs less
 * @param remarks what a planner should know of the rebuilds committed, one sentence each
 */
public record Calendar(
    List<LocalDate> mondays,
    Set<LocalDate> closed,
    List<Week> weeks,
    List<Booking> bookings,
    List<NotKept> notKept,
    Balance balance,
    List<String> remarks) {
  public Calendar {
    mondays = List.copyOf(mondays);
    closed = Set.copyOf(closed);
    weeks = List.copyOf(weeks);
    bookings = List.copyOf(bookings);
    notKept = List.copyOf(notKept);
    remarks = List.copyOf(remarks);
  }

  /** The day a pump is booked for; empty when it is not. */
  public Optional<LocalDate> dayOf(String pump) {
    return bookings.stream().filter(b -> b.pump().equals(pump)).map(Booking::day).findFirst();
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

  /**
   * A rebuild booked.
   *
   * @param pump asset tag
   * @param site where it stands
   * @param week ISO 8601 week
   * @param day the day booked
   * @param committed whether it was committed before
   * @param limit last day any limit allows
   * @param extraCost expected cost of that week beyond the pump's best moment
   * @param note what was written beside the commitment
   */
  public record Booking(
      String pump,
      String site,
      String week,
      LocalDate day,
      boolean committed,
      Optional<LocalDate> limit,
      double extraCost,
      Optional<String> note) {}

  /**
   * The sums.
   *
   * @param optimal whether no calendar under the same limits and commitments costs less
   * @param gap how much less another could cost at most, as a share of this one's cost; 0 when
   *     optimal
   * @param extraCost expected cost of all weeks beyond the best moments, pumps left until after the
   *     calendar included
   * @param visits visits to sites: one for each site and week with a rebuild
   * @param visitCost what they cost
   * @param leftForLater pumps due some day that the calendar leaves until after its last week
   */
  public record Balance(
      boolean optimal,
      double gap,
      double extraCost,
      int visits,
      double visitCost,
      int leftForLater) {

    /** Weeks and visits together. */
    public double total() {
      return extraCost + visitCost;
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
   * @param scheduled the day booked; empty when the pump is left until after the calendar
   * @param daysLate how much later that is; empty when not booked
   * @param why why it could not be kept, one clause
   */
  public record NotKept(
      String pump,
      Kept what,
      LocalDate by,
      Optional<LocalDate> scheduled,
      OptionalLong daysLate,
      String why) {}
}

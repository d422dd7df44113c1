package org.vaneward.plan;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.vaneward.fleet.Service;
import org.vaneward.policy.Bound;
import org.vaneward.policy.CappedInterval;

/**
 * The plan of one pump.
 *
 * @param pump asset tag
 * @param site where it stands
 * @param service what it does; empty when not on record
 * @param hoursSinceRebuild running since the last full rebuild, since the records speak of the pump
 *     when none is on record; empty when not known
 * @param nextRebuild when it is due
 * @param boundBy what sets the date
 * @param failureProbability chance of an unplanned stop without a rebuild; empty when no life or no
 *     usage is known
 * @param costOfWaitingPerWeek expected extra cost of running one week more instead of rebuilding
 *     today, against average running; negative when waiting pays; empty when cost sets no date
 * @param costOfFirstWeekLate the same for the week after the day that is best on cost (today when
 *     that is past)
 * @param scheduled day it is booked for; empty when not within the calendar
 * @param why one sentence that says why
 * @param overdueDays days since it was due; 0 when it is not overdue
 * @param mandatedBy last day the mandated interval allows
 * @param latest last day any limit allows
 * @param pastLimit whether that day is past: a limit is broken
 * @param interval planned interval of pumps like this; empty when no cost model is known
 * @param assumptions what was assumed for want of records, one sentence each
 * @param notKnown what is left out for want of knowledge, one sentence each
 */
public record PumpPlan(
    String pump,
    String site,
    Optional<Service> service,
    OptionalDouble hoursSinceRebuild,
    NextRebuild nextRebuild,
    Bound boundBy,
    Optional<FailureProbability> failureProbability,
    OptionalDouble costOfWaitingPerWeek,
    OptionalDouble costOfFirstWeekLate,
    Optional<LocalDate> scheduled,
    String why,
    long overdueDays,
    Optional<LocalDate> mandatedBy,
    Optional<LocalDate> latest,
    boolean pastLimit,
    Optional<CappedInterval> interval,
    List<String> assumptions,
    List<String> notKnown) {
  public PumpPlan {
    assumptions = List.copyOf(assumptions);
    notKnown = List.copyOf(notKnown);
  }

  PumpPlan scheduledOn(Optional<LocalDate> day) {
    return new PumpPlan(
        pump,
        site,
        service,
        hoursSinceRebuild,
        nextRebuild,
        boundBy,
        failureProbability,
        costOfWaitingPerWeek,
        costOfFirstWeekLate,
        day,
        why,
        overdueDays,
        mandatedBy,
        latest,
        pastLimit,
        interval,
        assumptions,
        notKnown);
  }
}

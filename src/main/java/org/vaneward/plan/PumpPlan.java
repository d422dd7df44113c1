package org.vaneward.plan;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.vaneward.fleet.Service;
import org.vaneward.policy.Bound;

/**
 * The plan of one pump.
 *
 * @param pump asset tag
 * @param site where it stands
 * @param service what it does; empty when not on record
 * @param hoursSinceRebuild running since the last full rebuild, since the records speak of the pump
 *     when none is on record; empty when not known
 * @param agePerWeek what its parts age in a week in the fleet's clock; empty when not known
 * @param nextRebuild when it is due
 * @param range between which days that may lie, lives and usage being uncertain; empty when a limit
 *     sets the date or there is none
 * @param intervalAfter the interval of pumps like it, to count from that rebuild
 * @param boundBy what sets the date
 * @param failureProbability chance of an unplanned stop without a rebuild; empty when no life or no
 *     usage is known
 * @param costOfWaitingPerWeek expected extra cost of running one week more instead of rebuilding
 *     today, against average running; negative when waiting pays; empty when cost sets no date
 * @param costOfFirstWeekLate the same for the week after the day that is best on cost (today when
 *     that is past)
 * @param riskRun what the time since it was due on cost has risked and cost; empty when that day is
 *     not past
 * @param scheduled day it is booked for; empty when not within the calendar
 * @param why one sentence that says why
 * @param overdueDays days since it was due; 0 when it is not overdue
 * @param mandatedBy last day the mandated interval allows
 * @param latest last day any limit allows
 * @param pastLimit whether that day is past: a limit is broken
 * @param priced whether a cost model of pumps like it is known
 * @param byWeek expected extra cost of a rebuild in the weeks to come; empty when not known
 * @param assumptions what was assumed for want of records, one sentence each
 * @param notKnown what is left out for want of knowledge, one sentence each
 */
public record PumpPlan(
    String pump,
    String site,
    Optional<Service> service,
    OptionalDouble hoursSinceRebuild,
    OptionalDouble agePerWeek,
    NextRebuild nextRebuild,
    Optional<DateRange> range,
    IntervalAfter intervalAfter,
    Bound boundBy,
    Optional<FailureProbability> failureProbability,
    OptionalDouble costOfWaitingPerWeek,
    OptionalDouble costOfFirstWeekLate,
    Optional<RiskRun> riskRun,
    Optional<LocalDate> scheduled,
    String why,
    long overdueDays,
    Optional<LocalDate> mandatedBy,
    Optional<LocalDate> latest,
    boolean pastLimit,
    boolean priced,
    Optional<WeeklyCost> byWeek,
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
        agePerWeek,
        nextRebuild,
        range,
        intervalAfter,
        boundBy,
        failureProbability,
        costOfWaitingPerWeek,
        costOfFirstWeekLate,
        riskRun,
        day,
        why,
        overdueDays,
        mandatedBy,
        latest,
        pastLimit,
        priced,
        byWeek,
        assumptions,
        notKnown);
  }
}

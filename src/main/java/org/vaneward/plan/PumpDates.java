package org.vaneward.plan;

import java.time.LocalDate;
import java.util.Comparator;
import org.vaneward.fleet.FleetSettings;
import org.vaneward.policy.LifeLookup;

/**
 * When to rebuild pumps next, asked for one at a time and without a calendar: the same days, costs
 * and chances as {@link Plan} gives, none of them booked.
 */
public final class PumpDates {
  private final PumpPlanner planner;

  /**
   * Dates of the pumps of a fleet.
   *
   * @param lives where to find life models
   * @param confidence of the limits of dates, between 0 and 1
   */
  public PumpDates(FleetSettings settings, LifeLookup lives, double confidence) {
    planner = new PumpPlanner(settings, lives, Kinds.asNeeded(settings, lives, confidence), 0);
  }

  /** When to rebuild {@code pump} next. */
  public PumpPlan of(PumpNow pump) {
    return planner.plan(pump);
  }

  /** Those past a limit first, then by due day, those without one last. */
  public static Comparator<PumpPlan> urgency(LocalDate asOf) {
    return Comparator.comparing(
            (PumpPlan p) -> p.pastLimit() ? p.latest().orElse(asOf) : LocalDate.MAX)
        .thenComparing(p -> p.nextRebuild().date().orElse(LocalDate.MAX))
        .thenComparing(PumpPlan::pump);
  }
}

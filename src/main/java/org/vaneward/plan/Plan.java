package org.vaneward.plan;

import java.util.List;
import java.util.function.Consumer;
import org.vaneward.fleet.FleetSettings;
import org.vaneward.policy.LifeLookup;

/**
 * When to rebuild each pump next, and in which week.
 *
 * @param pumps every pump in service: those past a limit first, then by due day, those without one
 *     last
 * @param calendar their next rebuilds, by week
 */
public record Plan(List<PumpPlan> pumps, Calendar calendar) {
  /** Confidence of the limits of dates unless told otherwise. */
  public static final double CONFIDENCE = 0.90;

  public Plan {
    pumps = List.copyOf(pumps);
  }

  /** The plan of {@code pumps} over two years, nothing committed. */
  public static Plan of(FleetSettings settings, List<PumpNow> pumps, LifeLookup lives) {
    return of(settings, pumps, lives, CONFIDENCE, CalendarRequest.plain(), said -> {});
  }

  /**
   * The plan of {@code pumps}.
   *
   * @param pumps the pumps in service; their order does not matter
   * @param lives where to find life models
   * @param confidence of the limits of dates, between 0 and 1
   * @param request weeks the calendar covers and rebuilds committed
   * @param progress is told, in a few words, how far a long search has come
   */
  public static Plan of(
      FleetSettings settings,
      List<PumpNow> pumps,
      LifeLookup lives,
      double confidence,
      CalendarRequest request,
      Consumer<String> progress) {
    List<PumpPlan> plans = due(settings, pumps, lives, confidence, request.weeks());
    Calendar calendar =
        new CalendarPlanner(settings, request, new WaitingCost(settings)).plan(plans, progress);
    return new Plan(
        plans.stream().map(p -> p.scheduledOn(calendar.dayOf(p.pump()))).toList(), calendar);
  }

  /**
   * When each pump is due, not booked into any week, in the order of a plan.
   *
   * @param weeks ahead for which the extra cost of each week is worked out
   */
  public static List<PumpPlan> due(
      FleetSettings settings, List<PumpNow> pumps, LifeLookup lives, double confidence, int weeks) {
    Kinds kinds = Kinds.of(settings, pumps, lives, confidence);
    PumpPlanner planner = new PumpPlanner(settings, lives, kinds, weeks);
    return pumps.parallelStream()
        .map(planner::plan)
        .sorted(PumpDates.urgency(settings.asOf()))
        .toList();
  }
}

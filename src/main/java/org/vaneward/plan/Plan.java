package org.vaneward.plan;

import java.time.LocalDate;
import java.util.Comparator;
import java.util.List;
import org.vaneward.fleet.FleetSettings;
import org.vaneward.policy.LifeLookup;

/**
 * When to rebuild each pump next, and in which week.
 *
 * @param pumps every pump in service: those past a limit first, then by due day, those without one
 *     last
 * @param calendar rebuilds due within the horizon, levelled
 */
public record Plan(List<PumpPlan> pumps, Calendar calendar) {
  public Plan {
    pumps = List.copyOf(pumps);
  }

  /**
   * The plan of {@code pumps}.
   *
   * @param pumps the pumps in service; their order does not matter
   * @param lives where to find life models
   */
  public static Plan of(
      FleetSettings settings, List<PumpNow> pumps, LifeLookup lives, PlanSettings asked) {
    Kinds kinds = Kinds.of(settings, pumps, lives, asked.confidence());
    PumpPlanner planner = new PumpPlanner(settings, lives, kinds, asked.weeks());
    List<PumpPlan> plans =
        pumps.parallelStream().map(planner::plan).sorted(urgency(settings.asOf())).toList();
    Leveller leveller = new Leveller(settings, asked.weeks());
    Calendar calendar = leveller.level(plans);
    return new Plan(
        plans.stream().map(p -> p.scheduledOn(leveller.dayOf(p.pump()))).toList(), calendar);
  }

  private static Comparator<PumpPlan> urgency(LocalDate asOf) {
    return Comparator.comparing(
            (PumpPlan p) -> p.pastLimit() ? p.latest().orElse(asOf) : LocalDate.MAX)
        .thenComparing(p -> p.nextRebuild().date().orElse(LocalDate.MAX))
        .thenComparing(PumpPlan::pump);
  }
}

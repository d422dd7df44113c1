package org.vaneward.report;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;
import org.vaneward.spares.DemandRequest;
import org.vaneward.spares.Figures;
import org.vaneward.spares.FleetAhead;
import org.vaneward.spares.KitFit;
import org.vaneward.spares.Line;
import org.vaneward.spares.Outlook;
import org.vaneward.spares.Outlook.Spending;
import org.vaneward.spares.Rule;

/**
 * Kits, parts and money ahead, under the plan and under other rules.
 *
 * @param ahead the fleet and its plan
 * @param plan what comes under the plan
 * @param alternatives what comes under other rules, over the same futures
 * @param kits how kits fit
 */
public record SparesAnalysis(
    FleetAhead ahead, Outlook plan, List<Alternative> alternatives, List<KitFit> kits) {
  private static final double SHORTER = 0.75;
  private static final double LONGER = 1.25;

  public SparesAnalysis {
    alternatives = List.copyOf(alternatives);
    kits = List.copyOf(kits);
  }

  /**
   * Another rule.
   *
   * @param key in a machine's words
   * @param words in a planner's
   * @param planned planned openings
   * @param unplanned unplanned openings
   * @param money all money over the time looked at
   * @param more money beyond the plan's, future by future
   * @param chanceDearer share of the futures in which it is dearer than the plan
   */
  public record Alternative(
      String key,
      String words,
      Figures planned,
      Figures unplanned,
      Figures money,
      Figures more,
      double chanceDearer) {}

  /** Lives the fleet forward under the plan and under other rules. */
  public static SparesAnalysis of(
      FleetAnalysis analysis, DemandRequest request, Consumer<String> progress) {
    FleetAhead ahead =
        FleetAhead.of(
            analysis.fleetSettings(),
            analysis.pumps(),
            analysis.plan(),
            analysis.models()::find,
            request.months());
    progress.accept(
        "living "
            + Words.count(ahead.pumpCount(), "pump", "pumps")
            + " through "
            + Words.count(request.months(), "month", "months")
            + ", "
            + Words.whole(request.futures())
            + " times");
    Outlook plan = Outlook.of(ahead, Rule.PLAN, request, progress);
    List<Alternative> alternatives = new ArrayList<>();
    alternatives.add(alternative("plan", "the plan", plan, plan));
    other(
        alternatives,
        plan,
        "shorter",
        "intervals a quarter shorter",
        Rule.PLAN.withIntervals(SHORTER),
        ahead,
        request);
    other(
        alternatives,
        plan,
        "longer",
        "intervals a quarter longer",
        Rule.PLAN.withIntervals(LONGER),
        ahead,
        request);
    other(
        alternatives,
        plan,
        "mend",
        "as planned, failures only mended",
        Rule.PLAN.mending(),
        ahead,
        request);
    other(
        alternatives,
        plan,
        "to-failure",
        "run to failure, rebuilt in full",
        Rule.TO_FAILURE,
        ahead,
        request);
    return new SparesAnalysis(ahead, plan, alternatives, KitFit.of(ahead));
  }

  private static void other(
      List<Alternative> into,
      Outlook plan,
      String key,
      String words,
      Rule rule,
      FleetAhead ahead,
      DemandRequest request) {
    into.add(alternative(key, words, Outlook.of(ahead, rule, request, said -> {}), plan));
  }

  private static Alternative alternative(String key, String words, Outlook other, Outlook plan) {
    double[] more = other.moneyByFuture(Spending.ALL, m -> true);
    double[] base = plan.moneyByFuture(Spending.ALL, m -> true);
    int dearer = 0;
    for (int f = 0; f < more.length; f++) {
      more[f] -= base[f];
      dearer += more[f] > 0 ? 1 : 0;
    }
    return new Alternative(
        key,
        words,
        other.counts(Line.PLANNED),
        other.counts(Line.UNPLANNED),
        other.money(Spending.ALL),
        Figures.of(more),
        (double) dearer / base.length);
  }
}

package org.vaneward.report;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;
import org.vaneward.spares.DemandRequest;
import org.vaneward.spares.Figures;
import org.vaneward.spares.FleetAhead;
import org.vaneward.spares.KitFit;
import org.vaneward.spares.Line;
import org.vaneward.spares.Order;
import org.vaneward.spares.Outlook;
import org.vaneward.spares.Outlook.Spending;
import org.vaneward.spares.Rule;
import org.vaneward.spares.Totals;

/**
 * Kits, parts and money ahead, under the plan and under other rules.
 *
 * @param ahead the fleet and its plan
 * @param plan what comes under the plan
 * @param alternatives the plan, then other rules over the first {@value #COMPARED} of the same
 *     futures
 * @param kits how kits fit
 * @param orders what booked rebuilds need, and by when to order it
 */
public record SparesAnalysis(
    FleetAhead ahead,
    Outlook plan,
    List<Alternative> alternatives,
    List<KitFit> kits,
    List<Order> orders) {
  private static final double SHORTER = 0.75;
  private static final double LONGER = 1.25;

  /** Futures over which other rules are compared with the plan: the first so many. */
  static final int COMPARED = 2000;

  /** A rule to compare the plan with. */
  private record Other(String key, String words, Rule rule) {}

  private static final List<Other> OTHERS =
      List.of(
          new Other("shorter", "intervals a quarter shorter", Rule.PLAN.withIntervals(SHORTER)),
          new Other("longer", "intervals a quarter longer", Rule.PLAN.withIntervals(LONGER)),
          new Other("mend", "as planned, failures only mended", Rule.PLAN.mending()),
          new Other("to-failure", "run to failure, rebuilt in full", Rule.TO_FAILURE));

  public SparesAnalysis {
    alternatives = List.copyOf(alternatives);
    kits = List.copyOf(kits);
    orders = List.copyOf(orders);
  }

  /**
   * Another rule.
   *
   * @param key in a machine's words
   * @param words in a planner's
   * @param planned planned openings
   * @param unplanned unplanned openings
   * @param kits kits bought
   * @param looseParts parts bought loose
   * @param money all money over the time looked at
   * @param more money beyond the plan's, future by future
   * @param chanceDearer share of the futures in which it is dearer than the plan
   */
  public record Alternative(
      String key,
      String words,
      Figures planned,
      Figures unplanned,
      Figures kits,
      Figures looseParts,
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
    alternatives.add(
        new Alternative(
            "plan",
            "the plan",
            plan.counts(Line.PLANNED),
            plan.counts(Line.UNPLANNED),
            plan.countsOf(Line.Kind.KIT),
            plan.countsOf(Line.Kind.LOOSE),
            plan.money(Spending.ALL),
            Figures.of(new double[1]),
            0));
    DemandRequest fewer =
        new DemandRequest(request.months(), Math.min(COMPARED, request.futures()), request.seed());
    double[] base = plan.moneyByFuture(Spending.ALL, m -> true);
    for (Other other : OTHERS) {
      alternatives.add(
          alternative(
              other, Totals.of(ahead, other.rule, fewer), base, plan.money(Spending.ALL).mean()));
    }
    return new SparesAnalysis(ahead, plan, alternatives, KitFit.of(ahead), Order.of(ahead));
  }

  /** Compared future by future: the first failures are the same under both rules. */
  private static Alternative alternative(
      Other other, Totals totals, double[] base, double planMean) {
    double[] money = totals.moneyByFuture();
    double[] more = new double[money.length];
    int dearer = 0;
    for (int f = 0; f < more.length; f++) {
      more[f] = money[f] - base[f];
      dearer += more[f] > 0 ? 1 : 0;
    }
    Figures difference = Figures.of(more);
    // The plan's mean over all futures and the difference over these: nearer than these alone.
    return new Alternative(
        other.key,
        other.words,
        totals.planned(),
        totals.unplanned(),
        totals.kits(),
        totals.looseParts(),
        Figures.of(money).withMean(planMean + difference.mean()),
        difference,
        (double) dearer / more.length);
  }
}

package org.vaneward.spares;

import java.util.function.Consumer;
import org.vaneward.fleet.FleetSettings.OpeningCost;

/** Openings and money of each future, and no more: for rules that are only compared. */
public final class Totals {
  private final double[] planned;
  private final double[] unplanned;
  private final double[] money;

  private Totals(int futures) {
    planned = new double[futures];
    unplanned = new double[futures];
    money = new double[futures];
  }

  /**
   * Lives a fleet forward.
   *
   * @param rule when pumps are opened and what is done then
   */
  public static Totals of(FleetAhead fleet, Rule rule, DemandRequest request) {
    Totals totals = new Totals(request.futures());
    double visitCost = fleet.settings.workshop().siteVisitCost();
    Consumer<String> silent = said -> {};
    Futures.live(fleet, rule, request, () -> totals.new Page(visitCost), silent);
    return totals;
  }

  private final class Page implements Futures.Page {
    private final double visitCost;
    private int future;

    Page(double visitCost) {
      this.visitCost = visitCost;
    }

    @Override
    public void start(int number) {
      future = number;
    }

    @Override
    public void open(
        PumpAhead pump,
        double day,
        boolean isPlanned,
        Recipe recipe,
        OpeningCost cost,
        boolean visit) {
      if (isPlanned) {
        planned[future]++;
      } else {
        unplanned[future]++;
      }
      money[future] += recipe.partsCost + cost.total() + (visit ? visitCost : 0);
    }

    @Override
    public void end() {
      // Everything is in its place.
    }

    @Override
    public void close() {
      // Everything is in its place.
    }
  }

  /** Planned openings. */
  public Figures planned() {
    return Figures.of(planned);
  }

  /** Unplanned openings. */
  public Figures unplanned() {
    return Figures.of(unplanned);
  }

  /** All money, one sum for each future. */
  public double[] moneyByFuture() {
    return money.clone();
  }
}

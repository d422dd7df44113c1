package org.vaneward.spares;

import java.util.function.Consumer;
import org.vaneward.fleet.FleetSettings.OpeningCost;

/**
 * Openings, kits, loose parts and money of each future, and no more: for rules that are only
 * compared.
 */
public final class Totals {
  private final double[] planned;
  private final double[] unplanned;
  private final double[] kits;
  private final double[] loose;
  private final double[] money;

  private Totals(int futures) {
    planned = new double[futures];
    unplanned = new double[futures];
    kits = new double[futures];
    loose = new double[futures];
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
      kits[future] += recipe.kits;
      loose[future] += recipe.loose;
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

  /** Kits of all kinds. */
  public Figures kits() {
    return Figures.of(kits);
  }

  /** Loose parts of all kinds. */
  public Figures looseParts() {
    return Figures.of(loose);
  }

  /** All money, one sum for each future. */
  public double[] moneyByFuture() {
    return money.clone();
  }
}

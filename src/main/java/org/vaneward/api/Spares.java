package org.vaneward.api;

import java.util.List;
import org.vaneward.fleet.FleetSettings;
import org.vaneward.report.SparesAnalysis;
import org.vaneward.report.SparesView;
import tech.tablesaw.api.Table;

/**
 * Kits, loose parts and money ahead.
 *
 * <pre>{@code
 * Spares spares = decisions.spares(12);
 * Table kits = spares.demand();
 * Table money = spares.budget();
 * Table shelf = spares.stock();
 * Table toOrder = spares.orders();
 * List<Chart> charts = spares.charts();
 * }</pre>
 */
public final class Spares {
  private final SparesView view;

  Spares(FleetSettings settings, SparesAnalysis spares) {
    view = new SparesView(settings, spares);
  }

  /**
   * Openings, kits and loose parts, in all, by year, month, site and product ({@code scope} and
   * {@code of}): mean, and what is enough in so many of 100 futures ({@code p80}: in 80); the
   * columns of {@code spares.csv}.
   */
  public Table demand() {
    return Tables.of(view.demand());
  }

  /** Money by month and year and by what it goes on; the columns of {@code budget.csv}. */
  public Table budget() {
    return Tables.of(view.budget());
  }

  /** What to keep on the shelf; the columns of {@code stock.csv}. */
  public Table stock() {
    return Tables.of(view.stock());
  }

  /** What booked rebuilds need, and by when to order it; the columns of {@code orders.csv}. */
  public Table orders() {
    return Tables.of(view.orders());
  }

  /** Openings and money month by month, then each kit taken. */
  public List<Chart> charts() {
    return Decisions.charts(view.pictures());
  }
}

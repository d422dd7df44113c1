package org.vaneward.report;

import java.util.List;
import java.util.Optional;
import org.vaneward.backtest.Backtest;
import org.vaneward.backtest.HalfYear;
import org.vaneward.chart.ForecastBands;
import org.vaneward.chart.ForecastBands.Stretch;
import org.vaneward.chart.Picture;
import org.vaneward.fleet.FleetSettings;
import org.vaneward.report.Page.Grid;
import org.vaneward.report.Page.PastPart;
import org.vaneward.report.Page.Point;
import org.vaneward.stats.renewal.CountDistribution;

/** How well past advice did. */
final class BacktestSection {
  /** What to say where nothing was replayed. */
  static final String NOT_REPLAYED =
      "History was not replayed for this report: that takes some seconds for each half-year, and is"
          + " left out for large fleets unless report is told --backtest.";

  private static final Grid NOTHING = new Grid(List.of(), List.of(), List.of(), "");

  private final Optional<Backtest> backtest;
  private final String currency;

  BacktestSection(FleetSettings settings, Optional<Backtest> backtest) {
    this.backtest = backtest;
    this.currency = settings.currency();
  }

  PastPart part() {
    return backtest
        .map(this::part)
        .orElseGet(
            () ->
                new PastPart(
                    NOT_REPLAYED,
                    "",
                    List.of(),
                    NOTHING,
                    List.of(),
                    NOTHING,
                    "",
                    NOTHING,
                    NOTHING,
                    List.of()));
  }

  private PastPart part(Backtest replayed) {
    BacktestTables tables = new BacktestTables(replayed, currency);
    if (replayed.halfYears().isEmpty()) {
      return new PastPart(
          tables.summary(),
          "",
          List.of(),
          NOTHING,
          List.of(),
          NOTHING,
          "",
          NOTHING,
          NOTHING,
          List.of());
    }
    return new PastPart(
        tables.summary(),
        tables.moneySummary(),
        List.of(
            picture(replayed, "Unplanned stops, foretold and come", "unplanned stops", true),
            picture(replayed, "Kits, foretold and used", "kits", false)),
        tables.halfYears(),
        tables.remarks(),
        tables.scores(),
        tables.rivals(),
        tables.calibration(),
        tables.money(),
        BacktestTables.moneyWords());
  }

  private static Picture picture(Backtest replayed, String title, String what, boolean stops) {
    BacktestTables tables = new BacktestTables(replayed, "");
    List<Stretch> stretches =
        replayed.halfYears().stream()
            .map(
                h ->
                    stops
                        ? stretch(tables, h, h.forecast().stops(), h.came().stops())
                        : stretch(tables, h, h.kits(), h.came().kits()))
            .toList();
    return ForecastBands.draw(title, what, replayed.request().confidence(), stretches);
  }

  private static Stretch stretch(
      BacktestTables tables, HalfYear half, CountDistribution foretold, int came) {
    return new Stretch(
        half.span().origin().plusDays(1).toString().substring(0, "2026-01".length()),
        tables.lower(foretold),
        foretold.mean(),
        tables.upper(foretold),
        came);
  }

  /** How sure to be of what is foretold, for the first screen. */
  Optional<Point> point() {
    return backtest
        .filter(b -> !b.halfYears().isEmpty())
        .map(
            b ->
                new Point(
                    "Forecasts so far",
                    b.stopsWithin()
                        + " of "
                        + Words.count(b.halfYears().size(), "half-year", "half-years")
                        + " came as foretold",
                    "Unplanned stops lay within "
                        + Words.percent(b.request().confidence())
                        + " limits worked out from the records of the day; more under How well past"
                        + " advice did."));
  }
}

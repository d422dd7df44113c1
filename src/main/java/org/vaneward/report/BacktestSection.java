package org.vaneward.report;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.vaneward.backtest.Backtest;
import org.vaneward.backtest.HalfYear;
import org.vaneward.chart.ForecastBands;
import org.vaneward.chart.ForecastBands.Stretch;
import org.vaneward.chart.Picture;
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

  private static final double DAYS_PER_YEAR = 365.25;

  private final Optional<Backtest> backtest;
  private final String currency;
  private final KnownTruth knownTruth = KnownTruth.read();
  private final int pumps;
  private final double years;

  BacktestSection(FleetAnalysis analysis, Optional<Backtest> backtest) {
    this.backtest = backtest;
    this.currency = analysis.fleetSettings().currency();
    this.pumps = Math.max(1, analysis.pumps().size());
    this.years = years(analysis);
  }

  /** From the first day the records speak of a pump. */
  private static double years(FleetAnalysis analysis) {
    LocalDate asOf = analysis.fleetSettings().asOf();
    LocalDate first =
        analysis.pumps().stream()
            .flatMap(p -> p.inServiceSince().stream())
            .min(Comparator.naturalOrder())
            .orElse(asOf);
    return ChronoUnit.DAYS.between(first, asOf) / DAYS_PER_YEAR;
  }

  PastPart part() {
    return backtest.map(this::part).orElseGet(() -> nothing(NOT_REPLAYED));
  }

  private PastPart nothing(String why) {
    return new PastPart(
        why,
        "",
        List.of(),
        NOTHING,
        List.of(),
        NOTHING,
        "",
        NOTHING,
        NOTHING,
        List.of(),
        knownTruth.summary(pumps, years),
        knownTruth.grid(years));
  }

  private PastPart part(Backtest replayed) {
    BacktestTables tables = new BacktestTables(replayed, currency);
    if (replayed.halfYears().isEmpty()) {
      return nothing(tables.summary());
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
        BacktestTables.moneyWords(),
        knownTruth.summary(pumps, years),
        knownTruth.grid(years));
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

package org.vaneward.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.vaneward.backtest.Backtest;
import org.vaneward.backtest.Forecast;
import org.vaneward.backtest.HalfYear;
import org.vaneward.backtest.MoneyCompared;
import org.vaneward.backtest.Rival;
import org.vaneward.backtest.Score;
import org.vaneward.fleet.FleetSettings;
import org.vaneward.io.CsvWriter;
import org.vaneward.io.Json;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.renewal.CountDistribution;
import org.vaneward.stats.scoring.ForecastScores;
import org.vaneward.stats.scoring.ReliabilityBin;

/** History replayed, for people and for programs. */
public final class BacktestView implements View {
  static final List<String> COLUMNS =
      List.of(
          "from",
          "to",
          "pumps",
          "failures_known",
          "what",
          "forecast",
          "came",
          "mean",
          "lower",
          "upper",
          "crps");

  private final FleetSettings settings;
  private final Backtest backtest;
  private final BacktestTables tables;

  /** A view of a fleet's history replayed. */
  public BacktestView(FleetSettings settings, Backtest backtest) {
    this.settings = settings;
    this.backtest = backtest;
    this.tables = new BacktestTables(backtest, settings.currency());
  }

  /** The answer, then the half-years, the rivals, the chances, the money. */
  @Override
  public String text() {
    StringBuilder text = new StringBuilder();
    text.append(settings.fleet()).append(", as of ").append(settings.asOf()).append("\n\n");
    text.append(Words.wrapped(tables.summary(), 0));
    if (backtest.halfYears().isEmpty()) {
      return text.toString();
    }
    text.append(Words.wrapped(tables.moneySummary(), 0));
    part(text, "Foretold and come", tables.halfYears());
    tables.remarks().forEach(s -> text.append(Words.wrapped(s, 0)));
    part(text, "Beside simple rules", tables.scores());
    text.append(Words.wrapped(tables.rivals(), 0));
    part(text, "Were the chances right?", tables.calibration());
    part(text, "What the advice would have cost", tables.money());
    BacktestTables.moneyWords().forEach(s -> text.append(Words.wrapped("  - " + s, 4)));
    return text.toString();
  }

  private static void part(StringBuilder text, String heading, Page.Grid grid) {
    text.append('\n').append(heading).append("\n\n");
    text.append(grid.isEmpty() ? grid.empty() + "\n" : TextTable.of(grid).toString());
  }

  /** A row for each half-year, number and forecast. */
  @Override
  public String csv() {
    CsvWriter table = CsvWriter.forSpreadsheets(COLUMNS.toArray(String[]::new));
    for (HalfYear h : backtest.halfYears()) {
      row(table, h, "stops", "lives", h.came().stops(), h.forecast().stops());
      for (Rival rival : Rival.values()) {
        h.of(rival)
            .ifPresent(f -> row(table, h, "stops", rival.key(), h.came().stops(), f.stops()));
      }
      row(table, h, "kits", "lives", h.came().kits(), h.kits());
      row(table, h, "planned", "lives", h.came().planned(), h.planned());
    }
    return table.text();
  }

  /** The table of a history that was not replayed. */
  static String noRows() {
    return CsvWriter.forSpreadsheets(COLUMNS.toArray(String[]::new)).text();
  }

  private void row(
      CsvWriter table, HalfYear h, String what, String by, int came, CountDistribution foretold) {
    table
        .cell(h.span().origin().plusDays(1).toString())
        .cell(h.span().end().toString())
        .cell(h.pumps().size())
        .cell(h.failures())
        .cell(what)
        .cell(by)
        .cell(came)
        .cell(foretold.mean())
        .cell(tables.lower(foretold))
        .cell(tables.upper(foretold))
        .cell(ForecastScores.crps(foretold, came))
        .endRow();
  }

  @Override
  public String json() {
    return Json.write(document());
  }

  Document document() {
    List<Stretch> stretches = new ArrayList<>();
    for (HalfYear h : backtest.halfYears()) {
      List<RivalNumbers> rivals = new ArrayList<>();
      for (Rival rival : Rival.values()) {
        h.of(rival)
            .map(Forecast::stops)
            .ifPresent(
                f -> rivals.add(new RivalNumbers(rival.key(), numbers(f, h.came().stops()))));
      }
      stretches.add(
          new Stretch(
              h.span().origin().plusDays(1).toString(),
              h.span().end().toString(),
              h.pumps().size(),
              h.failures(),
              numbers(h.forecast().stops(), h.came().stops()),
              numbers(h.kits(), h.came().kits()),
              numbers(h.planned(), h.came().planned()),
              h.transform().middle(),
              rivals));
    }
    List<ScoreNumbers> scores = new ArrayList<>();
    if (!backtest.halfYears().isEmpty()) {
      scores.add(score("lives", backtest.ours()));
    }
    for (Rival rival : Rival.values()) {
      if (backtest.of(rival).halfYears() > 0) {
        scores.add(score(rival.key(), backtest.of(rival)));
      }
    }
    return new Document(
        backtest.request().confidence(),
        stretches,
        backtest.stopsWithin(),
        backtest.kitsWithin(),
        scores,
        backtest.calibration().stream().map(BacktestView::bin).toList(),
        backtest.money().map(BacktestView::money),
        backtest.skipped().stream().map(d -> d.plusDays(1).toString()).toList(),
        backtest.skippedBecause());
  }

  private Numbers numbers(CountDistribution foretold, int came) {
    return new Numbers(
        came,
        foretold.mean(),
        tables.lower(foretold),
        tables.upper(foretold),
        ForecastScores.crps(foretold, came));
  }

  private static ScoreNumbers score(String forecast, Score s) {
    return new ScoreNumbers(forecast, s.halfYears(), s.crps(), s.brier(), s.log());
  }

  private static Bin bin(ReliabilityBin b) {
    return new Bin(
        b.from(),
        b.to(),
        b.forecasts(),
        b.foretold(),
        b.came(),
        b.share().lower(),
        b.share().upper());
  }

  private static Money money(MoneyCompared m) {
    return new Money(
        m.from().toString(),
        m.to().toString(),
        m.pumps(),
        m.pumpYears(),
        m.leftOut(),
        side(m.happened()),
        side(m.advised()),
        m.more(),
        m.chanceDearer(),
        m.onRecord());
  }

  private static Side side(MoneyCompared.Side s) {
    return new Side(s.planned(), s.stops(), s.money());
  }

  record Document(
      double confidence,
      List<Stretch> halfYears,
      int stopsWithin,
      int kitsWithin,
      List<ScoreNumbers> scores,
      List<Bin> calibration,
      Optional<Money> money,
      List<String> skipped,
      Optional<String> skippedBecause) {}

  record Stretch(
      String from,
      String to,
      int pumps,
      int failuresKnown,
      Numbers stops,
      Numbers kits,
      Numbers planned,
      double integralTransform,
      List<RivalNumbers> rivals) {}

  record Numbers(int came, double mean, int lower, int upper, double crps) {}

  record RivalNumbers(String forecast, Numbers stops) {}

  record ScoreNumbers(String forecast, int halfYears, double crps, double brier, double log) {}

  record Bin(
      double from,
      double to,
      int forecasts,
      double foretold,
      int came,
      double lower,
      double upper) {}

  record Side(Estimate planned, Estimate stops, Estimate money) {}

  record Money(
      String from,
      String to,
      int pumps,
      double pumpYears,
      int leftOut,
      Side happened,
      Side advised,
      Estimate more,
      double chanceDearer,
      Estimate onRecord) {}
}

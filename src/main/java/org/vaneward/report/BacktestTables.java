package org.vaneward.report;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.vaneward.backtest.Backtest;
import org.vaneward.backtest.HalfYear;
import org.vaneward.backtest.MoneyCompared;
import org.vaneward.backtest.Rival;
import org.vaneward.backtest.Score;
import org.vaneward.report.Page.Grid;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.renewal.CountDistribution;
import org.vaneward.stats.scoring.ReliabilityBin;

/** History replayed as sentences and tables, for the page and for the terminal. */
final class BacktestTables {
  static final String OURS = "from the lives of the parts";

  private static final int FEW = 10;
  private static final int FIFTHS = 5;

  private final Backtest backtest;
  private final String currency;

  BacktestTables(Backtest backtest, String currency) {
    this.backtest = backtest;
    this.currency = currency;
  }

  /** How good the forecasts were, first of all. */
  String summary() {
    List<HalfYear> halfYears = backtest.halfYears();
    if (halfYears.isEmpty()) {
      return "No half-year of these records can be replayed"
          + backtest.skippedBecause().map(why -> ": " + why).orElse(": they are too short")
          + ".";
    }
    String limits = Words.percent(backtest.request().confidence());
    return "Replayed half-year by half-year since "
        + halfYears.get(0).span().origin()
        + ", each time with no more than the records of that day: unplanned stops came within the "
        + limits
        + " limits foretold in "
        + backtest.stopsWithin()
        + " of "
        + Words.count(halfYears.size(), "half-year", "half-years")
        + ", kits used in "
        + backtest.kitsWithin()
        + ". "
        + total()
        + (halfYears.size() < FEW
            ? " So few half-years say little of how good the limits are."
            : "");
  }

  private String total() {
    double foretold = 0;
    int came = 0;
    for (HalfYear halfYear : backtest.halfYears()) {
      foretold += halfYear.forecast().stops().mean();
      came += halfYear.came().stops();
    }
    return "In all "
        + Words.count(came, "stop", "stops")
        + " came where "
        + (foretold < FEW ? one(foretold) : Words.whole(foretold))
        + " were foretold.";
  }

  /** Whether the forecasts beat the rivals. */
  String rivals() {
    Score ours = backtest.ours();
    List<String> worse = new ArrayList<>();
    List<String> better = new ArrayList<>();
    for (Rival rival : Rival.values()) {
      Score score = backtest.of(rival);
      if (score.halfYears() == ours.halfYears()) {
        (score.crps() > ours.crps() ? worse : better).add(rival.words());
      }
    }
    String all =
        better.isEmpty()
            ? "The forecast of the fleet's stops was better than each simple rule beside it"
            : worse.isEmpty()
                ? "No forecast of the fleet's stops was worse than this one"
                : "The forecast of the fleet's stops was better than some simple rules (not than: "
                    + String.join("; ", better)
                    + ")";
    return all
        + ", by how far off its chances were on average (ranked probability score, in stops; lower"
        + " is better). Brier and log score judge each pump's own chance of a stop.";
  }

  Grid halfYears() {
    List<List<String>> rows = new ArrayList<>();
    for (HalfYear h : backtest.halfYears()) {
      List<String> row = new ArrayList<>();
      row.add(h.span().origin().plusDays(1).toString());
      row.add(Words.whole(h.pumps().size()));
      row.add(Words.whole(h.failures()));
      cells(row, h.came().stops(), h.forecast().stops());
      cells(row, h.came().kits(), h.kits());
      cells(row, h.came().planned(), h.planned());
      rows.add(row);
    }
    return Grid.ofNumbers(
        List.of(
            "From",
            "Pumps",
            "Failures known",
            "Stops came",
            "Foretold",
            "Limits",
            "Kits came",
            "Foretold",
            "Limits",
            "Planned came",
            "Foretold",
            "Limits"),
        rows,
        summary());
  }

  private void cells(List<String> row, int came, CountDistribution foretold) {
    int lower = lower(foretold);
    int upper = upper(foretold);
    row.add(Words.whole(came) + (came < lower || came > upper ? " (outside)" : ""));
    row.add(one(foretold.mean()));
    row.add(lower + " to " + upper);
  }

  int lower(CountDistribution foretold) {
    return foretold.quantile((1 - backtest.request().confidence()) / 2);
  }

  int upper(CountDistribution foretold) {
    return foretold.quantile((1 + backtest.request().confidence()) / 2);
  }

  private static String one(double value) {
    return String.format(Locale.ROOT, "%,.1f", value);
  }

  Grid scores() {
    List<List<String>> rows = new ArrayList<>();
    rows.add(score(OURS, backtest.ours()));
    for (Rival rival : Rival.values()) {
      if (backtest.of(rival).halfYears() > 0) {
        rows.add(score(rival.words(), backtest.of(rival)));
      }
    }
    return Grid.ofNumbers(
        List.of(
            "Forecast",
            "Half-years",
            "Stops: ranked probability score",
            "A pump's stop: Brier score",
            "A pump's stop: log score"),
        backtest.halfYears().isEmpty() ? List.of() : rows,
        "Nothing was foretold.");
  }

  private static List<String> score(String name, Score score) {
    return List.of(
        name,
        Words.whole(score.halfYears()),
        Words.number(score.crps()),
        String.format(Locale.ROOT, "%.4f", score.brier()),
        String.format(Locale.ROOT, "%.4f", score.log()));
  }

  Grid calibration() {
    List<List<String>> rows = new ArrayList<>();
    for (ReliabilityBin bin : backtest.calibration()) {
      rows.add(
          List.of(
              Words.percent(bin.from()) + " to " + Words.percent(bin.to()),
              Words.whole(bin.forecasts()),
              Words.percent(bin.foretold()),
              Words.percent(bin.share().estimate()),
              Words.percent(bin.share().lower()) + " to " + Words.percent(bin.share().upper())));
    }
    return Grid.ofNumbers(
        List.of("Chance foretold", "Pumps and half-years", "Mean foretold", "Stopped", "Limits"),
        rows,
        "Nothing was foretold.");
  }

  /** What the advice would have saved, or why that is not said. */
  String moneySummary() {
    if (backtest.money().isEmpty()) {
      return backtest.halfYears().isEmpty()
          ? ""
          : "What the advice would have cost is not worked out: fleet.json does not state what"
              + " planned rebuilds and unplanned stops cost, or no pump's history is complete"
              + " enough.";
    }
    MoneyCompared money = backtest.money().get();
    Estimate more = money.more();
    boolean saves = more.estimate() < 0;
    double share = Math.abs(more.estimate()) / money.happened().money().estimate();
    return "Had the advice of each half-year been followed since "
        + money.from()
        + ", at today's prices it would have "
        + (saves ? "saved about " : "cost about ")
        + Words.about(Math.abs(more.estimate()), currency)
        + (saves ? "" : " more")
        + " ("
        + Words.percent(share)
        + " of what was spent; limits "
        + range(more)
        + "). "
        + (more.lower() <= 0 && more.upper() >= 0
            ? "The limits hold 0: it may as well have been the other way round. "
            : "")
        + "That is an estimate, not a record: of about "
        + Words.whole(money.advised().stops().estimate())
        + " stops under the advice "
        + Words.whole(money.onRecord().estimate())
        + " are failures on record; the others are drawn from the lives of the parts.";
  }

  private String range(Estimate more) {
    boolean saves = more.estimate() < 0;
    double sign = saves ? -1 : 1;
    double a = sign * (saves ? more.upper() : more.lower());
    double b = sign * (saves ? more.lower() : more.upper());
    return Words.about(a, currency) + " to " + Words.about(b, currency);
  }

  /** What the comparison rests on and cannot know. */
  static List<String> moneyWords() {
    return List.of(
        "What a planned rebuild prevented leaves no record. Where the advice would have opened a pump"
            + " earlier, later or not at all, failures after that day are drawn from the lives fitted"
            + " to all records together, given the age each part is known to have reached.",
        "Each half-year's advice rests on the records as they were, not on those the advice itself"
            + " would have made; overdue pumps are taken in order of urgency, as many a week as the"
            + " workshop can do.",
        "A pump counts from the first half-year at whose start every part in it is on record.",
        "Prices are those of fleet.json throughout. Left out on both sides: visits to sites,"
            + " inspections, and openings for a leak on the start-up test. A rebuild not yet worn off"
            + " at the end counts for the share of its interval that is run.");
  }

  Grid money() {
    if (backtest.money().isEmpty()) {
      return Grid.ofNumbers(List.of("", "What happened"), List.of(), "Not worked out.");
    }
    MoneyCompared m = backtest.money().get();
    String unit = currency.isEmpty() ? "Money" : "Money, " + currency;
    return Grid.ofNumbers(
        List.of("Over all pumps", "What happened", "Under the advice", "Limits"),
        List.of(
            row("Planned rebuilds", m.happened().planned(), m.advised().planned()),
            row("Unplanned stops", m.happened().stops(), m.advised().stops()),
            row(unit, m.happened().money(), m.advised().money()),
            List.of(
                unit + " beyond what happened",
                "",
                Words.whole(m.more().estimate()),
                Words.whole(m.more().lower()) + " to " + Words.whole(m.more().upper()))),
        "Not worked out.");
  }

  private static List<String> row(String name, Estimate happened, Estimate advised) {
    return List.of(
        name,
        Words.whole(happened.estimate()),
        Words.whole(advised.estimate()),
        Words.whole(advised.lower()) + " to " + Words.whole(advised.upper()));
  }

  /** Which half-years were not replayed, and what the forecast is of. */
  List<String> remarks() {
    List<String> said = new ArrayList<>();
    said.add(
        "Foretold is the half-year as the shop would have carried on by its habits so far, for what"
            + " came, came under these. Pumps commissioned within a half-year are not in its forecast,"
            + " nor are openings for a leak on the start-up test.");
    said.add(places());
    List<LocalDate> skipped = backtest.skipped();
    if (!skipped.isEmpty()) {
      said.add(
          Words.count(skipped.size(), "half-year", "half-years")
              + " from "
              + skipped.get(0).plusDays(1)
              + " on could not be foretold: "
              + backtest.skippedBecause().orElse("too little was known")
              + ".");
    }
    int leftOut = backtest.halfYears().stream().mapToInt(HalfYear::leftOut).max().orElse(0);
    if (leftOut > 0) {
      said.add(
          "Up to "
              + Words.count(leftOut, "pump", "pumps")
              + " in a half-year are left out: their running hours or the age of a part were not"
              + " known.");
    }
    return said;
  }

  /** The probability integral transform in words. */
  private String places() {
    List<String> counts = new ArrayList<>();
    for (double count : backtest.transforms(FIFTHS)) {
      counts.add(one(count));
    }
    return "Where the stops that came stood in those foretold, from the lowest fifth to the highest: "
        + String.join(", ", counts)
        + " half-years (a count may share two fifths). Right forecasts have about "
        + one(backtest.halfYears().size() / (double) FIFTHS)
        + " in each.";
  }
}

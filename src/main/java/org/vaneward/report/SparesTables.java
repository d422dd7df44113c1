package org.vaneward.report;

import java.time.Year;
import java.time.YearMonth;
import java.time.format.TextStyle;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Function;
import org.vaneward.report.Page.Grid;
import org.vaneward.report.Page.Kind;
import org.vaneward.report.SparesAnalysis.Alternative;
import org.vaneward.spares.Cost;
import org.vaneward.spares.Figures;
import org.vaneward.spares.Line;
import org.vaneward.spares.Outlook;
import org.vaneward.spares.Outlook.Spending;

/** Kits, parts and money ahead as tables, for the page and for the terminal. */
final class SparesTables {
  private static final double FEW = 10;
  private static final int MONTHS_PER_YEAR = 12;

  private final SparesAnalysis spares;
  private final Outlook plan;
  private final String currency;

  SparesTables(SparesAnalysis spares, String currency) {
    this.spares = spares;
    this.plan = spares.plan();
    this.currency = currency;
  }

  /** What opens and what it takes, over all months. */
  String headline() {
    Figures planned = plan.counts(Line.PLANNED);
    Figures unplanned = plan.counts(Line.UNPLANNED);
    Figures money = plan.money(Spending.ALL);
    return "From "
        + plan.months().get(0)
        + " to "
        + plan.months().get(plan.months().size() - 1)
        + " the plan opens about "
        + Words.count(Math.round(planned.mean()), "pump", "pumps")
        + " on a planned day, and failures about "
        + Words.whole(unplanned.mean())
        + " more (in 8 of 10 futures no more than "
        + Words.whole(unplanned.p80())
        + "). All that costs about "
        + Words.about(money.mean(), currency)
        + "; "
        + Words.about(money.p80(), currency)
        + " is enough in 8 of 10 futures, "
        + Words.about(money.p95(), currency)
        + " in 19 of 20.";
  }

  /** What the first year costs, or as much of it as is looked at; empty without a cost. */
  Optional<Page.Point> budgetPoint() {
    int months = Math.min(MONTHS_PER_YEAR, plan.months().size());
    Figures money = plan.money(Spending.ALL, m -> m < months);
    return money.mean() > 0
        ? Optional.of(
            new Page.Point(
                "Budget",
                Words.about(money.mean(), currency)
                    + " over the next "
                    + Words.count(months, "month", "months"),
                "is what all openings are expected to cost, failures included; "
                    + Words.about(money.p80(), currency)
                    + " is enough in 8 of 10 futures."))
        : Optional.empty();
  }

  /** How to read the levels. */
  String explained() {
    return "P50, P80 and P95: what is enough in 50, 80 and 95 of 100 futures. They do not add up: the"
        + " P80 of a year is less than the sum of its months' P80s. Every opening is taken as a full"
        + " rebuild, as planned; parts of a failure that is only mended are in the table of kits.";
  }

  /** Lines over all months and by year. */
  Grid demand() {
    List<String> headers = new ArrayList<>(List.of("What", "Name", "Mean", "P50", "P80", "P95"));
    List<Kind> kinds =
        new ArrayList<>(
            List.of(Kind.TEXT, Kind.TEXT, Kind.NUMBER, Kind.NUMBER, Kind.NUMBER, Kind.NUMBER));
    for (Year year : plan.years()) {
      headers.add(yearName(year) + ", P50");
      headers.add(yearName(year) + ", P80");
      kinds.addAll(List.of(Kind.NUMBER, Kind.NUMBER));
    }
    List<List<String>> rows = new ArrayList<>();
    for (Line line : plan.lines()) {
      Figures all = plan.counts(line);
      List<String> row =
          new ArrayList<>(
              List.of(
                  line.kind().words(),
                  line.name(),
                  mean(all.mean()),
                  Words.whole(all.p50()),
                  Words.whole(all.p80()),
                  Words.whole(all.p95())));
      for (Year year : plan.years()) {
        Figures of = plan.counts(line, plan.in(year));
        row.add(Words.whole(of.p50()));
        row.add(Words.whole(of.p80()));
      }
      rows.add(row);
    }
    return new Grid(headers, kinds, rows, "No opening is expected.");
  }

  /** The year, and from or to which month where it is not a whole one. */
  private String yearName(Year year) {
    List<YearMonth> months =
        plan.months().stream().filter(m -> m.getYear() == year.getValue()).toList();
    YearMonth first = months.get(0);
    YearMonth last = months.get(months.size() - 1);
    String from = first.getMonthValue() > 1 ? " from " + monthOf(first) : "";
    String to = last.getMonthValue() < MONTHS_PER_YEAR ? " to " + monthOf(last) : "";
    return year + from + to;
  }

  private static String monthOf(YearMonth month) {
    return month.getMonth().getDisplayName(TextStyle.SHORT, Locale.ENGLISH);
  }

  static String mean(double value) {
    return String.format(Locale.ROOT, Math.abs(value) < FEW ? "%.1f" : "%,.0f", value);
  }

  /** Kits and loose parts, in order. */
  private List<Line> bought() {
    return plan.lines().stream()
        .filter(l -> l.kind() == Line.Kind.KIT || l.kind() == Line.Kind.LOOSE)
        .toList();
  }

  private List<Line> kits() {
    return plan.lines().stream().filter(l -> l.kind() == Line.Kind.KIT).toList();
  }

  /** Month by month: openings, kits, money. */
  Grid months() {
    List<String> headers = new ArrayList<>(List.of("Month", "Planned", "Unplanned"));
    kits().forEach(kit -> headers.add(kit.name() + " P50 (P95)"));
    headers.addAll(money("mean", "P50", "P80", "P95"));
    List<List<String>> rows = new ArrayList<>();
    for (int m = 0; m < plan.months().size(); m++) {
      int month = m;
      Figures spent = plan.money(Spending.ALL, i -> i == month);
      List<String> row = new ArrayList<>();
      row.add(monthName(m));
      row.add(mean(plan.counts(Line.PLANNED, i -> i == month).mean()));
      row.add(mean(plan.counts(Line.UNPLANNED, i -> i == month).mean()));
      for (Line kit : kits()) {
        Figures of = plan.counts(kit, i -> i == month);
        row.add(Words.whole(of.p50()) + " (" + Words.whole(of.p95()) + ")");
      }
      row.add(Words.whole(spent.mean()));
      row.add(Words.whole(spent.p50()));
      row.add(Words.whole(spent.p80()));
      row.add(Words.whole(spent.p95()));
      rows.add(row);
    }
    return Grid.ofNumbers(headers, rows, "No month is looked at.");
  }

  private String monthName(int m) {
    YearMonth month = plan.months().get(m);
    return month + (plan.isPart(m) ? " (part)" : "");
  }

  private List<String> money(String... what) {
    List<String> headers = new ArrayList<>();
    for (String one : what) {
      headers.add(currency.isEmpty() ? "Cost, " + one : currency + ", " + one);
    }
    return headers;
  }

  /** What each site takes. */
  Grid sites() {
    List<String> more = money("mean", "P80");
    Grid places = places("Site", plan.sites(), site -> line -> plan.atSite(line, site));
    List<String> headers = new ArrayList<>(places.headers());
    headers.addAll(more);
    List<List<String>> rows = new ArrayList<>();
    for (List<String> row : places.rows()) {
      Figures spent = plan.moneyAtSite(row.get(0));
      List<String> full = new ArrayList<>(row);
      full.add(Words.whole(spent.mean()));
      full.add(Words.whole(spent.p80()));
      rows.add(full);
    }
    return Grid.ofNumbers(headers, rows, places.empty());
  }

  /** What pumps of each product take. */
  Grid products() {
    return places("Product", plan.products(), product -> line -> plan.ofProduct(line, product));
  }

  private Grid places(
      String heading, List<String> places, Function<String, Function<Line, Figures>> of) {
    List<String> headers = new ArrayList<>(List.of(heading, "Planned", "Unplanned"));
    bought().forEach(line -> headers.add(line.name()));
    List<List<String>> rows = new ArrayList<>();
    for (String place : places) {
      List<String> row = new ArrayList<>(List.of(place));
      row.add(meanAndP80(of.apply(place).apply(Line.PLANNED)));
      row.add(meanAndP80(of.apply(place).apply(Line.UNPLANNED)));
      bought().forEach(line -> row.add(meanAndP80(of.apply(place).apply(line))));
      rows.add(row);
    }
    return Grid.ofNumbers(headers, rows, "No pump is in service.");
  }

  private static String meanAndP80(Figures figures) {
    return mean(figures.mean()) + " (" + Words.whole(figures.p80()) + ")";
  }

  /** Money by what it goes on, by year. */
  Grid budget() {
    List<String> headers = new ArrayList<>(List.of(currency.isEmpty() ? "Cost" : currency));
    plan.years()
        .forEach(
            year -> headers.addAll(List.of(yearName(year) + ", P50", yearName(year) + ", P80")));
    headers.addAll(List.of("All, mean", "All, P50", "All, P80"));
    List<List<String>> rows = new ArrayList<>();
    spending(rows, "planned", Spending.ofPlanned());
    spending(rows, "unplanned", Spending.ofUnplanned());
    rows.add(spent("All", Spending.ALL));
    return Grid.ofNumbers(headers, rows, "No cost is stated.");
  }

  private void spending(List<List<String>> rows, String which, Spending of) {
    for (Cost cost : Cost.values()) {
      if (plan.money(of.on(cost)).mean() > 0) {
        rows.add(spent(Words.capital(which) + ": " + cost.words(), of.on(cost)));
      }
    }
    rows.add(spent("All " + which, of));
  }

  private List<String> spent(String name, Spending of) {
    List<String> row = new ArrayList<>(List.of(name));
    for (Year year : plan.years()) {
      Figures one = plan.money(of, plan.in(year));
      row.add(Words.whole(one.p50()));
      row.add(Words.whole(one.p80()));
    }
    Figures all = plan.money(of);
    row.add(Words.whole(all.mean()));
    row.add(Words.whole(all.p50()));
    row.add(Words.whole(all.p80()));
    return row;
  }

  /** What other rules come to. */
  Grid alternatives() {
    List<String> headers =
        new ArrayList<>(List.of("Rule", "Planned", "Unplanned", "Kits (P80)", "Loose parts (P80)"));
    headers.addAll(money("mean", "P80", "beyond the plan", "beyond it, P10 to P90"));
    headers.add("Dearer in");
    List<List<String>> rows = new ArrayList<>();
    for (Alternative one : spares.alternatives()) {
      boolean itself = one.key().equals("plan");
      rows.add(
          List.of(
              Words.capital(one.words()),
              mean(one.planned().mean()),
              mean(one.unplanned().mean()),
              meanAndP80(one.kits()),
              meanAndP80(one.looseParts()),
              Words.whole(one.money().mean()),
              Words.whole(one.money().p80()),
              itself ? Words.NONE : Words.whole(one.more().mean()),
              itself
                  ? Words.NONE
                  : Words.whole(one.more().p10()) + " to " + Words.whole(one.more().p90()),
              itself ? Words.NONE : Words.percent(one.chanceDearer())));
    }
    return Grid.ofNumbers(headers, rows, "");
  }

  /** Why the months ahead are not the whole story. */
  String alternativesExplained() {
    return "The first "
        + Words.whole(Math.min(SparesAnalysis.COMPARED, plan.futures()))
        + " futures, each lived under every rule. Money of these months only: a rebuild put off past their end is still to come, and a pump"
        + " then stands nearer to its next failure. What an interval costs in the long run is in the"
        + " table of intervals. Mandated intervals and ceilings on failure hold for longer intervals"
        + " too, and are set aside only where pumps run to failure.";
  }
}

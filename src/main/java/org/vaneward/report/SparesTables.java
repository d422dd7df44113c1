package org.vaneward.report;

import java.time.LocalDate;
import java.time.Year;
import java.time.YearMonth;
import java.time.format.TextStyle;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.vaneward.policy.PartsCost;
import org.vaneward.report.Page.Grid;
import org.vaneward.report.Page.Kind;
import org.vaneward.report.SparesAnalysis.Alternative;
import org.vaneward.spares.Cost;
import org.vaneward.spares.Figures;
import org.vaneward.spares.KitFit;
import org.vaneward.spares.Line;
import org.vaneward.spares.Order;
import org.vaneward.spares.Outlook;
import org.vaneward.spares.Outlook.Spending;
import org.vaneward.spares.StockLevel;

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

  private static String mean(double value) {
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
    return grid(headers, rows, "No month is looked at.");
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

  /** A first column of text, then numbers. */
  private static Grid grid(List<String> headers, List<List<String>> rows, String empty) {
    List<Kind> kinds = new ArrayList<>(Collections.nCopies(headers.size(), Kind.NUMBER));
    kinds.set(0, Kind.TEXT);
    return new Grid(headers, kinds, rows, empty);
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
    return grid(headers, rows, places.empty());
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
    return grid(headers, rows, "No pump is in service.");
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
    return grid(headers, rows, "No cost is stated.");
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
    return grid(headers, rows, "");
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

  /**
   * What to order for booked rebuilds.
   *
   * @param until orders due until then
   */
  Grid orders(LocalDate asOf, LocalDate until) {
    List<List<String>> rows = new ArrayList<>();
    for (Order order : spares.orders()) {
      if (!order.orderBy().isAfter(until)) {
        rows.add(
            List.of(
                orderBy(order, asOf),
                order.line().kind().words() + " " + order.line().name(),
                Words.whole(order.number()),
                Words.count(order.rebuilds(), "rebuild", "rebuilds") + " of " + order.month(),
                order.firstNeeded().toString()));
      }
    }
    return new Grid(
        List.of("Order by", "Item", "Number", "For", "First needed"),
        List.of(Kind.DATE, Kind.TEXT, Kind.NUMBER, Kind.TEXT, Kind.DATE),
        rows,
        "No booked rebuild needs an order by " + until + ".");
  }

  private static String orderBy(Order order, LocalDate asOf) {
    long late = ChronoUnit.DAYS.between(order.orderBy(), asOf);
    return late < 0
        ? order.orderBy().toString()
        : late == 0 ? "at once" : "at once, " + Words.count(late, "day", "days") + " late";
  }

  /** What the list of orders says of itself. */
  static String ordersExplained() {
    return "Order by: the day of the first of a month's rebuilds less the lead time. Days late are the"
        + " days that rebuild would wait for it, unless it is on the shelf already: what is there is"
        + " not on record here.";
  }

  /** How kits fit the openings of each model. */
  Grid kitFit() {
    List<List<String>> rows = new ArrayList<>();
    for (KitFit fit : spares.kits()) {
      String model = fit.model().orElse("not on record");
      rows.add(
          row(
              model + ", " + Words.count(fit.pumps(), "pump", "pumps"),
              "Full rebuild",
              fit.full()));
      fit.mends().forEach((component, way) -> rows.add(row("", "One failed " + component, way)));
    }
    return new Grid(
        List.of(
            "Model",
            "Opening",
            "Bought cheapest as",
            currency.isEmpty() ? "Cost" : currency,
            "Left over"),
        List.of(Kind.TEXT, Kind.TEXT, Kind.SENTENCE, Kind.NUMBER, Kind.TEXT),
        rows,
        "fleet.json has no needs.");
  }

  private static List<String> row(String model, String opening, PartsCost way) {
    return List.of(model, opening, bought(way), Words.whole(way.cost()), listed(way.leftOver()));
  }

  private static String bought(PartsCost way) {
    return (way.kits().isEmpty() ? "" : "kit " + listed(way.kits()))
        + (way.kits().isEmpty() || way.looseParts().isEmpty() ? "" : ", topped up with ")
        + (way.looseParts().isEmpty() ? "" : listed(way.looseParts()) + " loose");
  }

  private static String listed(Map<String, Integer> numbers) {
    return numbers.isEmpty()
        ? Words.NONE
        : numbers.entrySet().stream()
            .map(e -> e.getValue() + " × " + e.getKey())
            .collect(Collectors.joining(", "));
  }

  /** Part by part: what a full rebuild needs, and where that comes from. */
  Grid coverage() {
    List<List<String>> rows = new ArrayList<>();
    for (KitFit fit : spares.kits()) {
      String model = fit.model().orElse("not on record");
      TreeSet<String> parts = new TreeSet<>(fit.needs().keySet());
      parts.addAll(fit.full().leftOver().keySet());
      for (String part : parts) {
        int needed = fit.needs().getOrDefault(part, 0);
        int loose = fit.full().looseParts().getOrDefault(part, 0);
        int over = fit.full().leftOver().getOrDefault(part, 0);
        rows.add(
            List.of(
                part.equals(parts.first()) ? model : "",
                part,
                Words.whole(needed),
                Words.whole(needed + over - loose),
                Words.whole(loose),
                Words.whole(over)));
      }
    }
    return new Grid(
        List.of("Model", "Part", "A rebuild needs", "From the kit", "Topped up loose", "Left over"),
        List.of(Kind.TEXT, Kind.TEXT, Kind.NUMBER, Kind.NUMBER, Kind.NUMBER, Kind.NUMBER),
        rows,
        "fleet.json has no needs.");
  }

  /** What a full rebuild costs bought in other ways. */
  Grid ways() {
    List<List<String>> rows = new ArrayList<>();
    for (KitFit fit : spares.kits()) {
      for (PartsCost way : fit.ways()) {
        rows.add(
            List.of(
                fit.model().orElse("not on record"),
                bought(way),
                Words.whole(way.cost()),
                Words.whole(way.cost() - fit.full().cost()),
                listed(way.leftOver())));
      }
    }
    return new Grid(
        List.of(
            "Model",
            "A full rebuild bought as",
            currency.isEmpty() ? "Cost" : currency,
            "Beyond the cheapest",
            "Left over"),
        List.of(Kind.TEXT, Kind.SENTENCE, Kind.NUMBER, Kind.NUMBER, Kind.TEXT),
        rows,
        "fleet.json has no needs.");
  }

  /** What to keep on the shelf, at one store and at all sites. */
  Grid stock() {
    List<List<String>> rows = new ArrayList<>();
    for (StockLevel level : plan.stock().pooled()) {
      List<StockLevel> sites =
          plan.sites().stream()
              .flatMap(s -> plan.stock().at(s).stream())
              .filter(l -> l.line().equals(level.line()))
              .toList();
      StockLevel.Cheapest cheapest = level.cheapest();
      rows.add(
          List.of(
              level.line().kind().words() + " " + level.line().name(),
              Words.count(level.leadTimeDays(), "day", "days"),
              mean(plan.counts(level.line()).mean() / plan.length()),
              number(level.orderAtAhead()),
              number(level.fillToAhead()),
              total(sites, StockLevel::orderAtAhead),
              number(level.orderAt()),
              number(level.fillTo()),
              number(cheapest.level()),
              cheapest.level().isEmpty()
                  ? Words.NONE
                  : Words.whole(cheapest.holdingPerYear())
                      + " + "
                      + Words.whole(cheapest.waitingPerYear())));
    }
    return grid(
        List.of(
            "Item",
            "Lead time",
            "Asked for in a year",
            "Order at",
            "Fill up to",
            "Order at, all sites together",
            "All from the shelf: order at",
            "All from the shelf: fill up to",
            "Cheapest level",
            (currency.isEmpty() ? "Cost" : currency) + " a year, holding + waiting"),
        rows,
        "No kit or part with a lead time is asked for.");
  }

  private static String number(OptionalInt value) {
    return value.isPresent() ? Words.whole(value.getAsInt()) : Words.NONE;
  }

  private static String total(List<StockLevel> levels, Function<StockLevel, OptionalInt> of) {
    return levels.stream().anyMatch(l -> of.apply(l).isEmpty())
        ? Words.NONE
        : Words.whole(levels.stream().mapToInt(l -> of.apply(l).orElseThrow()).sum());
  }

  /** Levels of each site, one row for each item, one column for each site. */
  Grid stockBySite() {
    List<String> headers = new ArrayList<>(List.of("Item"));
    headers.addAll(plan.sites());
    headers.add("One store");
    List<List<String>> rows = new ArrayList<>();
    for (StockLevel pooled : plan.stock().pooled()) {
      List<String> row = new ArrayList<>();
      row.add(pooled.line().kind().words() + " " + pooled.line().name());
      for (String site : plan.sites()) {
        row.add(
            plan.stock().at(site).stream()
                .filter(l -> l.line().equals(pooled.line()))
                .map(l -> number(l.orderAtAhead()) + " / " + number(l.fillToAhead()))
                .findFirst()
                .orElse("0 / 0"));
      }
      row.add(number(pooled.orderAtAhead()) + " / " + number(pooled.fillToAhead()));
      rows.add(row);
    }
    return grid(headers, rows, "No kit or part with a lead time is asked for.");
  }
}

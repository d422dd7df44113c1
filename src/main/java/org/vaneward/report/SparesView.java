package org.vaneward.report;

import java.time.LocalDate;
import java.time.Year;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.function.IntFunction;
import java.util.function.IntPredicate;
import org.vaneward.chart.Picture;
import org.vaneward.fleet.FleetSettings;
import org.vaneward.io.Json;
import org.vaneward.io.Listing;
import org.vaneward.io.TableWriter;
import org.vaneward.policy.PartsCost;
import org.vaneward.spares.Cost;
import org.vaneward.spares.Figures;
import org.vaneward.spares.Line;
import org.vaneward.spares.Order;
import org.vaneward.spares.Outlook;
import org.vaneward.spares.Outlook.Spending;
import org.vaneward.spares.StockLevel;

/** Kits, loose parts, budget and stock of a fleet, for people and for programs. */
public final class SparesView implements View {
  private static final List<String> COLUMNS =
      List.of("scope", "of", "kind", "name", "mean", "p10", "p50", "p80", "p90", "p95");

  private static final List<String> BUDGET_COLUMNS =
      List.of(
          "scope", "of", "openings", "on", "currency", "mean", "p10", "p50", "p80", "p90", "p95");

  private static final List<String> ORDER_COLUMNS =
      List.of("order_by", "kind", "name", "number", "month", "rebuilds", "first_needed");

  private static final List<String> STOCK_COLUMNS =
      List.of(
          "store",
          "kind",
          "name",
          "lead_time_days",
          "price",
          "order_at",
          "fill_to",
          "order_at_all_from_shelf",
          "fill_to_all_from_shelf",
          "cheapest",
          "holding_per_year",
          "waiting_per_year");

  private final FleetSettings settings;
  private final SparesAnalysis spares;
  private final Outlook plan;
  private final SparesTables tables;
  private final KitTables kits;
  private final StockTables stock;

  /** A view of what lies ahead of a fleet. */
  public SparesView(FleetSettings settings, SparesAnalysis spares) {
    this.settings = settings;
    this.spares = spares;
    this.plan = spares.plan();
    this.tables = new SparesTables(spares, settings.currency());
    this.kits = new KitTables(settings, spares);
    this.stock = new StockTables(spares.plan(), settings.currency());
  }

  /** The answer, then the tables. */
  @Override
  public String text() {
    StringBuilder text = new StringBuilder();
    text.append(settings.fleet()).append(", as of ").append(settings.asOf()).append("\n\n");
    text.append(Words.wrapped(tables.headline(), 0));
    part(text, "What opens, and what it takes", tables.demand());
    text.append(Words.wrapped(tables.explained(), 0));
    part(text, "Month by month", tables.months());
    part(text, "By site: mean (P80)", tables.sites());
    part(text, "By product: mean (P80)", tables.products());
    part(text, "Budget", tables.budget());
    part(text, "Other rules over the same months", tables.alternatives());
    text.append(Words.wrapped(tables.alternativesExplained(), 0));
    part(text, KitTables.ORDERS, kits.orders());
    text.append(Words.wrapped(KitTables.ordersExplained(), 0));
    part(text, "How the kits fit", kits.kitFit());
    part(text, "What the kit covers of a full rebuild", kits.coverage());
    part(text, "A full rebuild bought in other ways", kits.ways());
    part(text, StockTables.heading(settings), stock.stock());
    text.append(Words.wrapped(StockTables.explained(settings), 0));
    part(text, "The same by site: order at / fill up to", stock.bySite());
    if (!spares.ahead().notKnown().isEmpty()) {
      text.append("\nNot known\n");
      spares.ahead().notKnown().forEach(s -> text.append(Words.wrapped("  - " + s, 4)));
    }
    text.append("\nBefore a pump is opened\n");
    Cautions.openingAFuelPump().forEach(c -> text.append(Words.wrapped("  - " + c, 4)));
    return text.toString();
  }

  /** Openings and money month by month, then each kit taken. */
  public List<Picture> pictures() {
    return new SparesSection(settings, spares).pictures();
  }

  private static void part(StringBuilder text, String heading, Page.Grid grid) {
    text.append('\n').append(heading).append("\n\n");
    text.append(grid.isEmpty() ? grid.empty() + "\n" : TextTable.of(grid).toString());
  }

  /** Every count with its figures: over all months, by year, by month, by site, by product. */
  @Override
  public String csv() {
    return demand().csv();
  }

  /** The same for any form. */
  public Listing demand() {
    return new Listing("Demand", COLUMNS, this::rows);
  }

  private void rows(TableWriter table) {
    for (Line line : plan.lines()) {
      row(table, "all", "", line, plan.counts(line));
      for (Year year : plan.years()) {
        row(table, "year", year.toString(), line, plan.counts(line, plan.in(year)));
      }
      for (int m = 0; m < plan.months().size(); m++) {
        int month = m;
        row(
            table,
            "month",
            plan.months().get(m).toString(),
            line,
            plan.counts(line, i -> i == month));
      }
      for (String site : plan.sites()) {
        row(table, "site", site, line, plan.atSite(line, site));
      }
      for (String product : plan.products()) {
        row(table, "product", product, line, plan.ofProduct(line, product));
      }
    }
  }

  private static void row(TableWriter table, String scope, String of, Line line, Figures figures) {
    table.cell(scope).cell(of).cell(line.kind().key()).cell(line.name());
    figures(table, figures, 3).endRow();
  }

  private static TableWriter figures(TableWriter table, Figures figures, int decimals) {
    return table
        .rounded(figures.mean(), decimals)
        .rounded(figures.p10(), decimals)
        .rounded(figures.p50(), decimals)
        .rounded(figures.p80(), decimals)
        .rounded(figures.p90(), decimals)
        .rounded(figures.p95(), decimals);
  }

  /** Money by month and by year, by what it goes on. */
  public String budgetCsv() {
    return budget().csv();
  }

  /** The same for any form. */
  public Listing budget() {
    return new Listing("Budget", BUDGET_COLUMNS, this::budgetRows);
  }

  private void budgetRows(TableWriter table) {
    money(table, "all", "", m -> true);
    for (Year year : plan.years()) {
      money(table, "year", year.toString(), plan.in(year));
    }
    for (int m = 0; m < plan.months().size(); m++) {
      int month = m;
      money(table, "month", plan.months().get(m).toString(), i -> i == month);
    }
  }

  private void money(TableWriter table, String scope, String of, IntPredicate months) {
    for (Sum sum : sums()) {
      table.cell(scope).cell(of).cell(sum.openings()).cell(sum.on()).cell(settings.currency());
      figures(table, plan.money(sum.of(), months), 2).endRow();
    }
  }

  /** A sum of money with its names. */
  private record Sum(String openings, String on, Spending of) {}

  private static List<Sum> sums() {
    List<Sum> sums = new ArrayList<>();
    sums.add(new Sum("all", "all", Spending.ALL));
    for (Sum which :
        List.of(
            new Sum("planned", "all", Spending.ofPlanned()),
            new Sum("unplanned", "all", Spending.ofUnplanned()))) {
      sums.add(which);
      for (Cost cost : Cost.values()) {
        sums.add(new Sum(which.openings(), cost.words(), which.of().on(cost)));
      }
    }
    return sums;
  }

  /** What to order for booked rebuilds, and by when. */
  public String ordersCsv() {
    return orders().csv();
  }

  /** The same for any form. */
  public Listing orders() {
    return new Listing("Orders", ORDER_COLUMNS, this::orderRows);
  }

  private void orderRows(TableWriter table) {
    for (Order order : spares.orders()) {
      table
          .cell(order.orderBy())
          .cell(order.line().kind().key())
          .cell(order.line().name())
          .cell(order.number())
          .cell(order.month().toString())
          .cell(order.rebuilds())
          .cell(order.firstNeeded())
          .endRow();
    }
  }

  /** What to keep on the shelf: at one store, and at each site. */
  public String stockCsv() {
    return stock().csv();
  }

  /** The same for any form. */
  public Listing stock() {
    return new Listing("Stock", STOCK_COLUMNS, this::stockRows);
  }

  private void stockRows(TableWriter table) {
    levels(table, "one store", plan.stock().pooled());
    plan.sites().forEach(site -> levels(table, site, plan.stock().at(site)));
  }

  private static void levels(TableWriter table, String store, List<StockLevel> levels) {
    for (StockLevel level : levels) {
      table
          .cell(store)
          .cell(level.line().kind().key())
          .cell(level.line().name())
          .cell(level.leadTimeDays())
          .cell(level.price())
          .cell(level.orderAtAhead())
          .cell(level.fillToAhead())
          .cell(level.orderAt())
          .cell(level.fillTo())
          .cell(level.cheapest().level());
      if (level.cheapest().level().isPresent()) {
        table
            .rounded(level.cheapest().holdingPerYear(), 2)
            .rounded(level.cheapest().waitingPerYear(), 2);
      } else {
        table.empty().empty();
      }
      table.endRow();
    }
  }

  /** Everything, unrounded. */
  @Override
  public String json() {
    return Json.write(document());
  }

  Document document() {
    return new Document(
        settings.asOf(),
        settings.currency(),
        plan.futures(),
        plan.months().stream().map(Object::toString).toList(),
        plan.lines().stream().map(this::entry).toList(),
        sums().stream().map(this::budget).toList(),
        spares.alternatives(),
        spares.kits().stream()
            .map(k -> new KitEntry(k.model().orElse(""), k.pumps(), k.full(), k.ways(), k.mends()))
            .toList(),
        spares.orders().stream()
            .map(
                o ->
                    new OrderEntry(
                        o.orderBy(),
                        o.line().kind().key(),
                        o.line().name(),
                        o.number(),
                        o.month().toString(),
                        o.rebuilds(),
                        o.firstNeeded()))
            .toList(),
        stores(),
        spares.ahead().notKnown());
  }

  private LineEntry entry(Line line) {
    return new LineEntry(
        line.kind().key(),
        line.name(),
        plan.counts(line),
        byMonth(m -> plan.counts(line, i -> i == m)),
        plan.sites().stream().map(s -> new PlaceEntry(s, plan.atSite(line, s))).toList(),
        plan.products().stream().map(p -> new PlaceEntry(p, plan.ofProduct(line, p))).toList());
  }

  private List<Figures> byMonth(IntFunction<Figures> of) {
    List<Figures> all = new ArrayList<>();
    for (int m = 0; m < plan.months().size(); m++) {
      all.add(of.apply(m));
    }
    return all;
  }

  private BudgetEntry budget(Sum sum) {
    return new BudgetEntry(
        sum.openings(),
        sum.on(),
        plan.money(sum.of()),
        byMonth(m -> plan.money(sum.of(), i -> i == m)),
        plan.years().stream()
            .map(y -> new PlaceEntry(y.toString(), plan.money(sum.of(), plan.in(y))))
            .toList());
  }

  private List<StoreEntry> stores() {
    List<StoreEntry> stores = new ArrayList<>();
    stores.add(new StoreEntry("one store", levels(plan.stock().pooled())));
    plan.sites().forEach(s -> stores.add(new StoreEntry(s, levels(plan.stock().at(s)))));
    return stores;
  }

  private static List<LevelEntry> levels(List<StockLevel> levels) {
    return levels.stream()
        .map(
            l ->
                new LevelEntry(
                    l.line().kind().key(),
                    l.line().name(),
                    l.leadTimeDays(),
                    l.price(),
                    l.orderAtAhead(),
                    l.fillToAhead(),
                    l.orderAt(),
                    l.fillTo(),
                    l.cheapest()))
        .toList();
  }

  record Document(
      LocalDate asOf,
      String currency,
      int futures,
      List<String> months,
      List<LineEntry> lines,
      List<BudgetEntry> budget,
      List<SparesAnalysis.Alternative> rules,
      List<KitEntry> kits,
      List<OrderEntry> orders,
      List<StoreEntry> stock,
      List<String> notKnown) {}

  record LineEntry(
      String kind,
      String name,
      Figures all,
      List<Figures> months,
      List<PlaceEntry> sites,
      List<PlaceEntry> products) {}

  record PlaceEntry(String of, Figures figures) {}

  record BudgetEntry(
      String openings, String on, Figures all, List<Figures> months, List<PlaceEntry> years) {}

  record KitEntry(
      String model,
      int pumps,
      PartsCost fullRebuild,
      List<PartsCost> waysToBuyIt,
      Map<String, PartsCost> mends) {}

  record OrderEntry(
      LocalDate orderBy,
      String kind,
      String name,
      int number,
      String month,
      int rebuilds,
      LocalDate firstNeeded) {}

  record StoreEntry(String store, List<LevelEntry> items) {}

  record LevelEntry(
      String kind,
      String name,
      int leadTimeDays,
      OptionalDouble price,
      OptionalInt orderAt,
      OptionalInt fillTo,
      OptionalInt orderAtAllFromShelf,
      OptionalInt fillToAllFromShelf,
      StockLevel.Cheapest cheapest) {}
}

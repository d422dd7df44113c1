package org.vaneward.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.vaneward.chart.DemandFan;
import org.vaneward.chart.MonthBars;
import org.vaneward.chart.Picture;
import org.vaneward.fleet.FleetSettings;
import org.vaneward.report.Page.SparesPart;
import org.vaneward.spares.Figures;
import org.vaneward.spares.Line;
import org.vaneward.spares.Outlook;
import org.vaneward.spares.Outlook.Spending;

/** Kits, parts and money ahead on the page. */
final class SparesSection {
  /** Kits beyond so many have their numbers in the tables only. */
  private static final int MOST_FANS = 6;

  private final FleetSettings settings;
  private final Outlook plan;
  private final SparesTables tables;
  private final KitTables kits;
  private final StockTables stock;
  private final List<String> notKnown;

  SparesSection(FleetSettings settings, SparesAnalysis spares) {
    this.settings = settings;
    this.plan = spares.plan();
    this.tables = new SparesTables(spares, settings.currency());
    this.kits = new KitTables(settings, spares);
    this.stock = new StockTables(spares.plan(), settings.currency());
    this.notKnown = spares.ahead().notKnown();
  }

  /** What it costs, for the first screen; empty when no cost is stated. */
  Optional<Page.Point> point() {
    return tables.budgetPoint();
  }

  SparesPart part() {
    return new SparesPart(
        tables.headline(),
        tables.explained(),
        pictures(),
        tables.demand(),
        tables.months(),
        tables.sites(),
        tables.products(),
        tables.budget(),
        tables.alternatives(),
        tables.alternativesExplained(),
        kits.orders(),
        KitTables.ordersExplained(),
        kits.kitFit(),
        kits.coverage(),
        kits.ways(),
        StockTables.heading(settings),
        StockTables.explained(settings),
        stock.stock(),
        stock.bySite(),
        notKnown);
  }

  List<Picture> pictures() {
    if (plan.months().size() > MonthBars.MOST_MONTHS) {
      return List.of();
    }
    List<MonthBars.Bar> openings = new ArrayList<>();
    List<MonthBars.Bar> money = new ArrayList<>();
    for (int m = 0; m < plan.months().size(); m++) {
      int month = m;
      String name = plan.months().get(m).toString();
      openings.add(
          new MonthBars.Bar(
              name,
              plan.counts(Line.PLANNED, i -> i == month).mean(),
              plan.counts(Line.UNPLANNED, i -> i == month).mean(),
              plan.openings(i -> i == month).p80()));
      money.add(
          new MonthBars.Bar(
              name,
              plan.money(Spending.ofPlanned(), i -> i == month).mean(),
              plan.money(Spending.ofUnplanned(), i -> i == month).mean(),
              plan.money(Spending.ALL, i -> i == month).p80()));
    }
    String currency = settings.currency().isEmpty() ? "cost" : settings.currency();
    List<Picture> pictures = new ArrayList<>();
    pictures.add(MonthBars.draw("Pumps opened, month by month", "openings", openings));
    pictures.add(MonthBars.draw("Money, month by month", currency, money));
    plan.lines().stream()
        .filter(line -> line.kind() == Line.Kind.KIT)
        .limit(MOST_FANS)
        .map(this::fan)
        .forEach(pictures::add);
    return pictures;
  }

  private Picture fan(Line kit) {
    List<DemandFan.Reach> months = new ArrayList<>();
    for (int m = 0; m < plan.months().size(); m++) {
      int last = m;
      Figures taken = plan.counts(kit, i -> i <= last);
      months.add(
          new DemandFan.Reach(
              plan.months().get(m).toString(), taken.p10(), taken.p50(), taken.p80(), taken.p95()));
    }
    return DemandFan.draw("Kit " + kit.name() + ", taken by month", "kit " + kit.name(), months);
  }
}

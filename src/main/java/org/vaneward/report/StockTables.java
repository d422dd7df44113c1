package org.vaneward.report;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalInt;
import java.util.function.Function;
import org.vaneward.fleet.FleetSettings;
import org.vaneward.report.Page.Grid;
import org.vaneward.spares.Outlook;
import org.vaneward.spares.StockLevel;

/** What to keep on the shelf, as tables. */
final class StockTables {
  private final Outlook plan;
  private final String currency;

  StockTables(Outlook plan, String currency) {
    this.plan = plan;
    this.currency = currency;
  }

  static String heading(FleetSettings settings) {
    return "What to keep on the shelf, for "
        + Words.percent(settings.stock().serviceLevel())
        + " of lead times without a wait";
  }

  static String explained(FleetSettings settings) {
    FleetSettings.Stock stock = settings.stock();
    boolean priced = stock.holdingPerYear().isPresent() && stock.waitingPerDay().isPresent();
    return "Order at: with the shelf watched all the time, order when what is on it and on order falls"
        + " to this. Fill up to: looked at every "
        + stock.reviewDays()
        + " days, order up to this. Both count what unplanned openings ask for, with the kits of"
        + " booked rebuilds ordered ahead for them; \"all from the shelf\" counts those too. Lead times"
        + " are taken as certain. All sites together is what it takes when every site keeps its own."
        + (priced
            ? " Cheapest level: where holding at "
                + Words.percent(stock.holdingPerYear().getAsDouble())
                + " of the price a year and waiting at "
                + Words.money(stock.waitingPerDay().getAsDouble(), settings.currency())
                + " a day cost least together, each one taken being ordered again at once."
            : " A cheapest level needs stock.holding_per_year and stock.waiting_per_day in fleet.json.");
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
              SparesTables.mean(plan.counts(level.line()).mean() / plan.length()),
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
    return Grid.ofNumbers(
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

  /** Levels of each site and of one store for all, a row each; a column for each item. */
  Grid bySite() {
    List<StockLevel> pooled = plan.stock().pooled();
    List<String> headers = new ArrayList<>(List.of("Site"));
    pooled.forEach(l -> headers.add(l.line().kind().words() + " " + l.line().name()));
    List<List<String>> rows = new ArrayList<>();
    if (!pooled.isEmpty()) {
      plan.sites().forEach(site -> rows.add(levels(site, plan.stock().at(site))));
      rows.add(levels("One store", pooled));
    }
    return Grid.ofNumbers(headers, rows, "No kit or part with a lead time is asked for.");
  }

  /** In the order of the items of the one store. */
  private List<String> levels(String store, List<StockLevel> levels) {
    List<String> row = new ArrayList<>(List.of(store));
    for (StockLevel item : plan.stock().pooled()) {
      row.add(
          levels.stream()
              .filter(l -> l.line().equals(item.line()))
              .map(l -> number(l.orderAtAhead()) + " / " + number(l.fillToAhead()))
              .findFirst()
              .orElse("0 / 0"));
    }
    return row;
  }
}

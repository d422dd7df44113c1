package org.vaneward.report;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.vaneward.fleet.FleetSettings;
import org.vaneward.policy.PartsCost;
import org.vaneward.report.Page.Grid;
import org.vaneward.report.Page.Kind;
import org.vaneward.spares.KitFit;
import org.vaneward.spares.Order;

/** How kits fit, and what to order, as tables. */
final class KitTables {
  static final String ORDERS = "What to order for booked rebuilds in the next three months";

  /** Orders of so many months stand on the page; the table beside it has all. */
  private static final int ORDER_MONTHS = 3;

  private final LocalDate asOf;
  private final String currency;
  private final SparesAnalysis spares;

  KitTables(FleetSettings settings, SparesAnalysis spares) {
    this.asOf = settings.asOf();
    this.currency = settings.currency();
    this.spares = spares;
  }

  /** What to order for booked rebuilds. */
  Grid orders() {
    LocalDate until = asOf.plusMonths(ORDER_MONTHS);
    List<List<String>> rows = new ArrayList<>();
    for (Order order : spares.orders()) {
      if (!order.orderBy().isAfter(until)) {
        rows.add(
            List.of(
                orderBy(order),
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

  private String orderBy(Order order) {
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
}

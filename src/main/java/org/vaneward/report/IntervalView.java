package org.vaneward.report;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.vaneward.io.CsvWriter;
import org.vaneward.io.Json;
import org.vaneward.policy.CappedInterval;
import org.vaneward.policy.CostModels;
import org.vaneward.policy.NoInterval;
import org.vaneward.policy.Window;
import org.vaneward.report.ServiceInterval.Costed;

/** The planned interval of each service of a fleet, for people and for programs. */
public final class IntervalView {
  private final List<ServiceInterval> intervals;
  private final String currency;

  /** A view of the intervals of an analysed fleet. */
  public IntervalView(FleetAnalysis analysis) {
    this.intervals = ServiceInterval.of(analysis);
    this.currency = analysis.fleetSettings().currency();
  }

  /** One line for each service and model. */
  public String text() {
    TextTable table =
        new TextTable(
            "service, model",
            "pumps",
            "rebuild every",
            "set by",
            "least cost at",
            "within 2%",
            currency + " per 1,000 h",
            "to failure",
            "remark");
    for (ServiceInterval one : intervals) {
      Optional<CappedInterval> interval = one.costed().map(Costed::interval);
      table.row(
          one.label(),
          Words.whole(one.pumps()),
          interval.map(i -> Words.hours(i.intervalHours())).orElse(Words.NONE),
          interval.map(i -> i.boundBy().key()).orElse(Words.NONE),
          interval.map(i -> Words.hours(i.advice().intervalHours())).orElse(Words.NONE),
          interval.map(IntervalView::window).orElse(Words.NONE),
          one.costed().map(c -> Words.whole(1000 * costPerHour(c))).orElse(Words.NONE),
          interval
              .map(i -> Words.whole(1000 * i.advice().runToFailureCostPerHour()))
              .orElse(Words.NONE),
          remark(one));
    }
    return "Rebuild everything at the interval or at the first failure, whichever comes first\n\n"
        + table;
  }

  /** Long-run cost per hour at the interval as it stands, limits included. */
  static double costPerHour(Costed costed) {
    OptionalDouble hours = costed.interval().intervalHours();
    return hours.isPresent()
        ? costed.rate().costPerHour(hours.getAsDouble())
        : costed.interval().advice().runToFailureCostPerHour();
  }

  static String window(CappedInterval interval) {
    return interval.advice().intervalHours().isEmpty()
        ? Words.NONE
        : interval
            .advice()
            .window()
            .map(w -> Words.hoursRange(w.fromHours(), w.toHours().orElse(Double.POSITIVE_INFINITY)))
            .orElse(Words.NONE);
  }

  static String remark(ServiceInterval one) {
    if (one.outcome() instanceof CostModels.NotAvailable none) {
      return none.reason();
    }
    return one.costed()
        .flatMap(c -> c.interval().advice().noInterval())
        .map(NoInterval::words)
        .orElse("");
  }

  /** The same, unrounded. */
  public String json() {
    return Json.write(document());
  }

  Document document() {
    return new Document(intervals.stream().map(IntervalView::entry).toList());
  }

  private static Entry entry(ServiceInterval one) {
    Optional<CappedInterval> interval = one.costed().map(Costed::interval);
    Optional<Window> window =
        interval
            .filter(i -> i.advice().intervalHours().isPresent())
            .flatMap(i -> i.advice().window());
    return new Entry(
        one.service().product(),
        one.service().duty(),
        one.model(),
        one.pumps(),
        one.costed().isPresent() ? "available" : "not-available",
        remark(one).isEmpty() ? Optional.empty() : Optional.of(remark(one)),
        "age",
        interval.map(CappedInterval::intervalHours).orElse(OptionalDouble.empty()),
        interval.map(i -> i.boundBy().key()),
        interval.map(i -> i.advice().intervalHours()).orElse(OptionalDouble.empty()),
        number(one.costed().map(IntervalView::costPerHour)),
        number(interval.map(i -> i.advice().runToFailureCostPerHour())),
        window.map(w -> new Ends(w.fromHours(), w.toHours())),
        number(interval.map(i -> i.advice().plannedShare())));
  }

  /** One row for each service and model, unrounded. */
  public String csv() {
    CsvWriter table =
        CsvWriter.forSpreadsheets(
            "product",
            "duty",
            "model",
            "pumps",
            "interval_hours",
            "bound_by",
            "least_cost_interval_hours",
            "cost_rate",
            "run_to_failure_cost_rate",
            "window_from",
            "window_to",
            "planned_share",
            "reason");
    for (Entry e : document().intervals()) {
      table
          .cell(e.product())
          .cell(e.duty())
          .cell(e.model())
          .cell(e.pumps())
          .cell(e.interval())
          .cell(e.boundBy())
          .cell(e.leastCostInterval())
          .cell(e.costRate())
          .cell(e.runToFailureCostRate())
          .cell(number(e.window().map(Ends::from)))
          .cell(e.window().map(Ends::to).orElse(OptionalDouble.empty()))
          .cell(e.plannedShare())
          .cell(e.reason())
          .endRow();
    }
    return table.text();
  }

  private static OptionalDouble number(Optional<Double> value) {
    return value.map(OptionalDouble::of).orElse(OptionalDouble.empty());
  }

  record Document(List<Entry> intervals) {}

  record Entry(
      String product,
      String duty,
      Optional<String> model,
      int pumps,
      String status,
      Optional<String> reason,
      String policy,
      OptionalDouble interval,
      Optional<String> boundBy,
      OptionalDouble leastCostInterval,
      OptionalDouble costRate,
      OptionalDouble runToFailureCostRate,
      Optional<Ends> window,
      OptionalDouble plannedShare) {}

  record Ends(double from, OptionalDouble to) {}
}

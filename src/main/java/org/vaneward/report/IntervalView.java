package org.vaneward.report;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
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
public final class IntervalView implements View {
  private final List<ServiceInterval> intervals;
  private final String currency;
  private final String unit;

  /** A view of the intervals of an analysed fleet. */
  public IntervalView(FleetAnalysis analysis) {
    this.intervals = ServiceInterval.of(analysis);
    this.currency = analysis.fleetSettings().currency();
    this.unit = Words.unit(analysis.fleetSettings().clock());
  }

  /** One line for each service and model. */
  @Override
  public String text() {
    TextTable table =
        new TextTable(
            "service, model",
            "pumps",
            "rebuild every",
            "set by",
            "least cost at",
            "within 2%",
            money("per 1,000 " + unit),
            "to failure",
            "remark");
    for (ServiceInterval one : intervals) {
      Optional<CappedInterval> interval = one.costed().map(Costed::interval);
      table.row(
          one.label(),
          Words.whole(one.pumps()),
          interval.map(i -> Words.age(i.intervalHours(), unit)).orElse(Words.NONE),
          interval.map(i -> i.boundBy().key()).orElse(Words.NONE),
          interval.map(i -> Words.age(i.advice().intervalHours(), unit)).orElse(Words.NONE),
          interval.map(i -> window(i, unit)).orElse(Words.NONE),
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

  private String money(String what) {
    return currency.isEmpty() ? "cost " + what : currency + " " + what;
  }

  static String window(CappedInterval interval, String unit) {
    return interval.advice().intervalHours().isEmpty()
        ? Words.NONE
        : interval
            .advice()
            .window()
            .map(w -> Words.ageRange(w.fromHours(), w.toHours(), unit))
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
  @Override
  public String json() {
    return Json.write(document());
  }

  Document document() {
    return new Document(intervals.stream().map(IntervalView::entry).map(Entry::keys).toList());
  }

  private static Entry entry(ServiceInterval one) {
    Optional<CappedInterval> interval = one.costed().map(Costed::interval);
    Optional<Window> window = interval.flatMap(i -> i.advice().window());
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
  @Override
  public String csv() {
    CsvWriter table =
        CsvWriter.forSpreadsheets(
            "product",
            "duty",
            "model",
            "pumps",
            "interval",
            "bound_by",
            "least_cost_interval",
            "cost_rate",
            "run_to_failure_cost_rate",
            "window_from",
            "window_to",
            "planned_share",
            "reason");
    for (Entry e : intervals.stream().map(IntervalView::entry).toList()) {
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

  record Document(List<Map<String, Object>> intervals) {}

  private record Entry(
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
      OptionalDouble plannedShare) {

    /**
     * The entry as it is written: where there is a cost model, {@code interval} and the ends of the
     * window are null when there are none; where there is none, the keys are left out.
     */
    Map<String, Object> keys() {
      Map<String, Object> keys = new LinkedHashMap<>();
      keys.put("product", product);
      keys.put("duty", duty);
      model.ifPresent(m -> keys.put("model", m));
      keys.put("pumps", pumps);
      keys.put("status", status);
      reason.ifPresent(r -> keys.put("reason", r));
      keys.put("policy", policy);
      if (costRate.isPresent()) {
        keys.put("interval", interval.orElse(Double.NaN));
        boundBy.ifPresent(b -> keys.put("bound_by", b));
        keys.put("least_cost_interval", leastCostInterval.orElse(Double.NaN));
        keys.put("cost_rate", costRate.getAsDouble());
        keys.put("run_to_failure_cost_rate", runToFailureCostRate.orElse(Double.NaN));
        Map<String, Object> ends = new LinkedHashMap<>();
        ends.put("from", window.map(Ends::from).orElse(Double.NaN));
        ends.put("to", window.map(Ends::to).orElse(OptionalDouble.empty()).orElse(Double.NaN));
        keys.put("window", ends);
        keys.put("planned_share", plannedShare.orElse(Double.NaN));
      }
      return keys;
    }
  }

  private record Ends(double from, OptionalDouble to) {}
}

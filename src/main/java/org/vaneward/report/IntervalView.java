package org.vaneward.report;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.ToDoubleFunction;
import org.vaneward.chart.Picture;
import org.vaneward.fleet.Service;
import org.vaneward.io.Json;
import org.vaneward.io.Listing;
import org.vaneward.io.TableWriter;
import org.vaneward.policy.CappedInterval;
import org.vaneward.policy.CostModels;
import org.vaneward.policy.NoInterval;
import org.vaneward.policy.PolicyComparison;
import org.vaneward.policy.ShopPractice;
import org.vaneward.policy.UncertainAdvice;
import org.vaneward.policy.Window;
import org.vaneward.report.ServiceInterval.Advised;
import org.vaneward.report.ServiceInterval.Costed;
import org.vaneward.stats.Estimate;

/** The planned interval of each service of a fleet, for people and for programs. */
public final class IntervalView implements View {
  private static final List<String> COLUMNS =
      List.of(
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
          "chance_pays",
          "saving_per_year",
          "saving_per_year_lower",
          "saving_per_year_upper",
          "perfect_information_per_year",
          "reason");

  private final List<ServiceInterval> intervals;
  private final String currency;
  private final String unit;
  private final String asked;
  private final Optional<String> whatIf;
  private final CostCurves curves;

  /** A view of the intervals of an analysed fleet. */
  public IntervalView(FleetAnalysis analysis) {
    this(analysis, ServiceInterval.of(analysis));
  }

  IntervalView(FleetAnalysis analysis, List<ServiceInterval> intervals) {
    this.intervals = intervals;
    this.curves = CostCurves.of(analysis);
    this.currency = analysis.fleetSettings().currency();
    this.unit = Words.unit(analysis.fleetSettings().clock());
    this.asked =
        PlanView.asked(analysis).isEmpty() ? "" : PlanView.asked(analysis).strip() + "\n\n";
    this.whatIf = Optional.of(analysis.whatIf().words()).filter(words -> !words.isEmpty());
  }

  /**
   * Cost against interval in one service, a picture for each model.
   *
   * @return none when no pump in service does this, or costs are not stated
   */
  public List<Picture> curves(Service service) {
    return curves.of(intervals.stream().filter(one -> one.service().equals(service)).toList());
  }

  /** What to do by service and model, and how sure that is. */
  @Override
  public String text() {
    TextTable table = new TextTable(headings(currency, unit).toArray(String[]::new));
    TextTable saved =
        new TextTable(
            "service, model",
            money("a year"),
            "saved a year",
            "best could lie",
            "knowing more is worth");
    for (ServiceInterval one : intervals) {
      table.row(cells(one.group(), one.costed().map(Costed::advised), unit).toArray(String[]::new));
      saved.row(
          one.label(),
          one.yearly(c -> c.perHour()).map(e -> Words.whole(e.estimate())).orElse(Words.NONE),
          one.yearly(c -> c.saving()).map(IntervalView::money).orElse(Words.NONE),
          one.costed().map(c -> Words.age(c.advice().ownBest(), unit)).orElse(Words.NONE),
          one.yearly(c -> new Estimate(c.advice().perfectInformation(), 0, 0))
              .map(e -> Words.whole(e.estimate()))
              .orElse(Words.NONE));
    }
    return asked
        + "Rebuild everything at the interval or at the first failure, whichever comes first\n\n"
        + table
        + "\npays: chance that rebuilding at the interval of least cost is cheaper than running to"
        + " failure\n\n"
        + "All pumps of a service together, limits included\n\n"
        + saved
        + "\nsaved: against running to failure, with limits; below 0, a limit costs more than it"
        + " saves\nbest could lie: where the interval of least cost lies were the lives known\n"
        + "knowing more is worth: most that more records could save a year\n\n"
        + rules()
        + practices()
        + remarks();
  }

  /** Headings of {@link #cells}. */
  static List<String> headings(String currency, String unit) {
    return List.of(
        "service, model",
        "pumps",
        "rebuild every",
        "set by",
        "least cost at",
        "within 2%",
        Headings.per(currency, "1,000 " + unit),
        "to failure",
        "pays");
  }

  /** One service and model: its interval, what sets it, what it costs. */
  static List<String> cells(ServiceInterval.Group group, Optional<Advised> advised, String unit) {
    Optional<CappedInterval> interval = advised.map(Advised::interval);
    return List.of(
        group.label(),
        Words.whole(group.pumps().size()),
        interval.map(i -> Words.age(i.intervalHours(), unit)).orElse(Words.NONE),
        interval.map(i -> i.boundBy().key()).orElse(Words.NONE),
        interval.map(i -> Words.age(i.advice().intervalHours(), unit)).orElse(Words.NONE),
        interval.map(i -> window(i, unit)).orElse(Words.NONE),
        advised.map(a -> Words.whole(1000 * a.perHour().estimate())).orElse(Words.NONE),
        interval
            .map(i -> Words.whole(1000 * i.advice().runToFailure().estimate()))
            .orElse(Words.NONE),
        interval.map(IntervalView::pays).orElse(Words.NONE));
  }

  /** Each rule at its own best setting. */
  private String rules() {
    TextTable table = new TextTable(RuleTable.HEADINGS.toArray(String[]::new));
    new RuleTable(unit).rows(intervals).forEach(row -> table.row(row.toArray(String[]::new)));
    return "Rules compared, each at its best, limits aside: "
        + money("per 1,000 " + unit)
        + "\n\n"
        + table
        + "\n"
        + String.join("\n", RuleTable.EXPLAINED)
        + "\n\n";
  }

  private String practices() {
    TextTable table =
        new TextTable(
            "service, model",
            "records of",
            unit + " seen",
            "planned",
            "stops",
            "full at a stop",
            "planned at (middle half)",
            "never");
    for (ServiceInterval one : intervals) {
      ShopPractice practice = one.practice();
      table.row(
          one.label(),
          one.practiceOf(),
          Words.whole(practice.hours()),
          Words.whole(practice.planned()),
          Words.whole(practice.unplanned()),
          practice.unplanned() == 0 ? Words.NONE : Words.percent(rounded(practice.fullShare())),
          plannedAt(practice),
          Words.percent(rounded(practice.neverShare())));
    }
    return "What the shop does now, from its records\n\n"
        + table
        + "\nplanned at: running since the last full rebuild by which half of all runs would get a"
        + " planned one (a quarter, three quarters)\nnever: share of runs that would get none\n";
  }

  private static double rounded(double share) {
    return Math.rint(100 * share) / 100;
  }

  private String plannedAt(ShopPractice practice) {
    OptionalDouble half = practice.intervalQuantile(0.5);
    if (half.isEmpty()) {
      return "less than half";
    }
    OptionalDouble from = practice.intervalQuantile(0.25);
    return Words.age(half, unit)
        + " ("
        + Words.ageRange(from.orElse(0), practice.intervalQuantile(0.75), unit)
        + ")";
  }

  private String remarks() {
    StringBuilder text = new StringBuilder();
    for (ServiceInterval one : intervals) {
      String remark = remark(one);
      if (!remark.isEmpty()) {
        text.append(Words.wrapped("  " + one.label() + ": " + remark, 6));
      }
    }
    return text.isEmpty() ? "" : "\nRemarks\n" + text;
  }

  static String pays(CappedInterval interval) {
    return interval.advice().intervalHours().isEmpty()
        ? Words.NONE
        : Words.percent(interval.advice().chancePays());
  }

  /** {@code 1,240 (310 to 2,100)}. */
  static String money(Estimate estimate) {
    return Words.whole(estimate.estimate())
        + " ("
        + Words.whole(estimate.lower())
        + " to "
        + Words.whole(estimate.upper())
        + ")";
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

  /** Why there is no interval, and which failures none would prevent. */
  static String remark(ServiceInterval one) {
    if (one.outcome() instanceof CostModels.NotAvailable none) {
      return none.reason();
    }
    Optional<UncertainAdvice> advice = one.costed().map(Costed::advice);
    List<String> clauses = new ArrayList<>();
    advice.flatMap(UncertainAdvice::noInterval).map(NoInterval::words).ifPresent(clauses::add);
    List<String> notPrevented = advice.map(UncertainAdvice::notPrevented).orElse(List.of());
    if (!notPrevented.isEmpty()) {
      clauses.add(
          "no planned interval for "
              + String.join(" and ", notPrevented)
              + " failures, which do not come with age: look for the reason");
    }
    for (UncertainAdvice.Ageing doubtful :
        advice.map(UncertainAdvice::unsettled).orElse(List.of())) {
      clauses.add(
          "it is not settled that "
              + doubtful.component()
              + " failures come with age (chance "
              + Words.percent(rounded(doubtful.chance()))
              + "): look for the reason too");
    }
    return String.join("; ", clauses);
  }

  /** The same, unrounded. */
  @Override
  public String json() {
    return Json.write(document());
  }

  Document document() {
    return new Document(
        whatIf, intervals.stream().map(IntervalView::entry).map(Entry::keys).toList());
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
        Words.optional(one.costed().map(c -> c.perHour().estimate())),
        Words.optional(interval.map(i -> i.advice().runToFailure().estimate())),
        window.map(w -> new Ends(w.fromHours(), w.toHours())),
        Words.optional(interval.map(i -> i.advice().plannedShare())),
        one.costed(),
        one.hoursPerYear(),
        one.practice(),
        one.practiceOf());
  }

  /** One row for each service and model, unrounded. */
  @Override
  public String csv() {
    return listing().csv();
  }

  /** The same for any form. */
  public Listing listing() {
    return new Listing("Intervals", COLUMNS, this::rows);
  }

  private void rows(TableWriter table) {
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
          .cell(Words.optional(e.window().map(Ends::from)))
          .cell(e.window().map(Ends::to).orElse(OptionalDouble.empty()))
          .cell(e.plannedShare())
          .cell(Words.optional(e.costed().map(c -> c.advice().chancePays())))
          .cell(e.perYear(c -> c.saving().estimate()))
          .cell(e.perYear(c -> c.saving().lower()))
          .cell(e.perYear(c -> c.saving().upper()))
          .cell(e.perYear(c -> c.advice().perfectInformation()))
          .cell(e.reason())
          .endRow();
    }
  }

  record Document(Optional<String> whatIf, List<Map<String, Object>> intervals) {}

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
      OptionalDouble plannedShare,
      Optional<Costed> costed,
      OptionalDouble hoursPerYear,
      ShopPractice practice,
      String practiceOf) {

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
        costed.ifPresent(c -> sureness(keys, c));
        keys.put("practice", practice(practice, practiceOf));
      }
      return keys;
    }

    OptionalDouble perYear(ToDoubleFunction<Costed> rate) {
      return costed.isPresent() && hoursPerYear.isPresent()
          ? OptionalDouble.of(hoursPerYear.getAsDouble() * rate.applyAsDouble(costed.get()))
          : OptionalDouble.empty();
    }

    /** How sure it is: rates per hour in the fleet's clock, money a year for all the pumps. */
    private void sureness(Map<String, Object> keys, Costed one) {
      UncertainAdvice advice = one.advice();
      keys.put("cost_rate_limits", limits(one.perHour()));
      keys.put("saving", limits(one.saving()));
      keys.put("chance_pays", advice.chancePays());
      keys.put("chance_any_pays", advice.chanceAnyPays());
      keys.put("own_best", limits(advice.ownBest()));
      keys.put("perfect_information", advice.perfectInformation());
      keys.put("components_not_prevented", advice.notPrevented());
      keys.put("policies", one.rules().rows().stream().map(Entry::rule).toList());
      hoursPerYear.ifPresent(
          hours -> {
            keys.put("cost_per_year", hours * one.perHour().estimate());
            keys.put("saving_per_year", hours * one.saving().estimate());
            keys.put("perfect_information_per_year", hours * advice.perfectInformation());
          });
    }

    private static Map<String, Object> rule(PolicyComparison.Row row) {
      Map<String, Object> keys = new LinkedHashMap<>();
      keys.put("rule", row.rule().key());
      keys.put("words", row.rule().words());
      keys.put("interval", row.intervalHours().orElse(Double.NaN));
      row.thresholdHours().ifPresent(t -> keys.put("threshold", finite(t)));
      keys.put("cost_rate", limits(row.cost()));
      keys.put("more_than_full_rebuild", limits(row.more()));
      keys.put("chance_cheaper", row.chanceCheaper());
      return keys;
    }

    private static Map<String, Object> practice(ShopPractice practice, String of) {
      Map<String, Object> keys = new LinkedHashMap<>();
      keys.put("records_of", of);
      keys.put("hours", practice.hours());
      keys.put("planned", practice.planned());
      keys.put("stops", practice.unplanned());
      keys.put("full_at_a_stop", practice.fullShare());
      keys.put("planned_interval_median", practice.intervalQuantile(0.5).orElse(Double.NaN));
      keys.put("never_planned_share", practice.neverShare());
      return keys;
    }

    /** Limits that do not exist are null. */
    private static Map<String, Object> limits(Estimate estimate) {
      Map<String, Object> keys = new LinkedHashMap<>();
      keys.put("estimate", finite(estimate.estimate()));
      keys.put("lower", finite(estimate.lower()));
      keys.put("upper", finite(estimate.upper()));
      return keys;
    }

    private static double finite(double x) {
      return Double.isInfinite(x) ? Double.NaN : x;
    }
  }

  private record Ends(double from, OptionalDouble to) {}
}

package org.vaneward.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.vaneward.chart.AgeUnit;
import org.vaneward.chart.CostCurve;
import org.vaneward.chart.Picture;
import org.vaneward.fleet.FleetSettings.Clock;
import org.vaneward.policy.CappedInterval;
import org.vaneward.policy.IntervalSearch;
import org.vaneward.policy.Window;
import org.vaneward.report.Page.Grid;
import org.vaneward.report.Page.Kind;
import org.vaneward.report.Page.MoneyPart;
import org.vaneward.report.ServiceInterval.Costed;
import org.vaneward.stats.Estimate;

/** The planned interval of each service and what it saves. */
final class MoneySection {
  private static final double THOUSAND = 1000;
  private static final double WORTH_PLANNING = 0.01;
  private static final int CURVE_POINTS = 80;
  private static final double CURVE_FROM = 0.15;
  private static final double CURVE_TO = 3;

  private final String currency;
  private final Clock clock;
  private final String unit;
  private final List<ServiceInterval> intervals;

  MoneySection(FleetAnalysis analysis, List<ServiceInterval> intervals) {
    this.currency = analysis.fleetSettings().currency();
    this.clock = analysis.fleetSettings().clock();
    this.unit = Words.unit(clock);
    this.intervals = intervals;
  }

  MoneyPart part() {
    return new MoneyPart(summary(), grid(), rules(), RuleTable.EXPLAINED, curves());
  }

  private Grid rules() {
    return new Grid(
        RuleTable.HEADINGS.stream().map(Words::capital).toList(),
        List.of(
            Kind.TEXT,
            Kind.NUMBER,
            Kind.NUMBER,
            Kind.NUMBER,
            Kind.NUMBER,
            Kind.NUMBER,
            Kind.NUMBER,
            Kind.NUMBER),
        new RuleTable(unit).rows(intervals),
        "No service has a cost model.");
  }

  private String summary() {
    if (intervals.isEmpty()) {
      return "";
    }
    if (intervals.stream().allMatch(i -> i.costed().isEmpty())) {
      return "What a planned rebuild saves is not known for any service; the remarks say what is"
          + " missing.";
    }
    long pays =
        intervals.stream()
            .filter(i -> i.costed().filter(MoneySection::worthPlanning).isPresent())
            .count();
    return "In "
        + pays
        + " of "
        + Words.count(intervals.size(), "service", "services")
        + " planned rebuilds save more than 1% against running to failure. The interval is counted"
        + " in "
        + Words.unitWords(clock)
        + " from a full rebuild; each pump's own date, from the ages of its parts, is in"
        + " the plan above. Costs count parts, labour, downtime and clean-up.";
  }

  private static boolean worthPlanning(Costed costed) {
    return costed.interval().advice().intervalHours().isPresent()
        && costed.saving().estimate() > WORTH_PLANNING * costed.advice().runToFailure().estimate();
  }

  private Grid grid() {
    List<List<String>> rows = new ArrayList<>();
    for (ServiceInterval one : intervals) {
      Optional<CappedInterval> interval = one.costed().map(Costed::interval);
      rows.add(
          List.of(
              one.label(),
              Words.whole(one.pumps()),
              interval.map(i -> Words.age(i.intervalHours(), unit)).orElse(Words.NONE),
              months(one, interval),
              interval.map(i -> PlanSection.setBy(i.boundBy())).orElse(Words.NONE),
              interval.map(i -> IntervalView.window(i, unit)).orElse(Words.NONE),
              one.costed()
                  .map(c -> Words.whole(THOUSAND * c.perHour().estimate()))
                  .orElse(Words.NONE),
              interval
                  .map(i -> Words.whole(THOUSAND * i.advice().runToFailure().estimate()))
                  .orElse(Words.NONE),
              one.yearly(Costed::saving).map(IntervalView::money).orElse(Words.NONE),
              one.costed().map(c -> IntervalView.pays(c.interval())).orElse(Words.NONE),
              one.yearly(c -> new Estimate(c.advice().perfectInformation(), 0, 0))
                  .map(e -> Words.whole(e.estimate()))
                  .orElse(Words.NONE),
              IntervalView.remark(one)));
    }
    return new Grid(
            List.of(
                "Service, model",
                "Pumps",
                "Rebuild every",
                "Months at mean use",
                "Set by",
                "Within 2% of least cost",
                Words.capital(Headings.per(currency, "1,000 " + unit)),
                "To failure, " + Headings.per(currency, "1,000 " + unit),
                Words.capital(Headings.per(currency, "year saved")),
                "Chance it pays",
                Words.capital(Headings.per(currency, "year more records could save")),
                "Remark"),
            List.of(
                Kind.TEXT,
                Kind.NUMBER,
                Kind.NUMBER,
                Kind.NUMBER,
                Kind.TEXT,
                Kind.TEXT,
                Kind.NUMBER,
                Kind.NUMBER,
                Kind.NUMBER,
                Kind.NUMBER,
                Kind.NUMBER,
                Kind.TEXT),
            rows,
            "No pump in service has its service on record.")
        .withoutEmptyLast();
  }

  private static String months(ServiceInterval one, Optional<CappedInterval> interval) {
    OptionalDouble hours =
        interval.map(CappedInterval::intervalHours).orElse(OptionalDouble.empty());
    if (hours.isEmpty() || one.agePerWeek().isEmpty()) {
      return Words.NONE;
    }
    double weeks = hours.getAsDouble() / one.agePerWeek().getAsDouble();
    return Words.whole(weeks * 7 / 365.25 * 12);
  }

  private List<Picture> curves() {
    // Each point is a mean over all draws: worth both processors. Pictures are drawn one by one.
    List<List<CostCurve.Point>> points =
        intervals.parallelStream()
            .map(one -> one.costed().map(MoneySection::points).orElse(List.of()))
            .toList();
    List<Picture> curves = new ArrayList<>();
    for (int i = 0; i < points.size(); i++) {
      ServiceInterval one = intervals.get(i);
      List<CostCurve.Point> curve = points.get(i);
      one.costed().ifPresent(costed -> curves.add(curve(one, costed, curve)));
    }
    return curves;
  }

  private static double middle(Costed costed) {
    return costed.advice().intervalHours().orElse(shortestLife(costed));
  }

  private static List<CostCurve.Point> points(Costed costed) {
    double from = CURVE_FROM * middle(costed);
    double to = CURVE_TO * middle(costed);
    List<CostCurve.Point> points = new ArrayList<>();
    for (int i = 0; i < CURVE_POINTS; i++) {
      double hours = from + (to - from) * i / (CURVE_POINTS - 1);
      Estimate perHour = costed.cost().at(hours);
      points.add(
          new CostCurve.Point(
              hours,
              THOUSAND * perHour.estimate(),
              THOUSAND * perHour.lower(),
              THOUSAND * perHour.upper()));
    }
    return points;
  }

  private Picture curve(ServiceInterval one, Costed costed, List<CostCurve.Point> points) {
    CappedInterval interval = costed.interval();
    double to = CURVE_TO * middle(costed);
    List<CostCurve.Limit> limits = new ArrayList<>();
    interval
        .mandatedHours()
        .ifPresent(hours -> addLimit(limits, "mandated, at mean use", hours, to));
    interval
        .ceilingHours()
        .ifPresent(
            hours ->
                addLimit(
                    limits,
                    interval.ceiling().map(c -> "ceiling on " + c.component()).orElse("ceiling"),
                    hours,
                    to));
    return CostCurve.draw(
        one.label() + ": cost against interval",
        new CostCurve.Input(
            currency,
            points,
            optimum(interval),
            THOUSAND * interval.advice().runToFailure().estimate(),
            limits,
            AgeUnit.valueOf(clock.name())));
  }

  /** Where there is no best interval, the curve is drawn about the life that ends first. */
  private static double shortestLife(Costed costed) {
    return costed.available().model().positions().stream()
        .mapToDouble(p -> p.life().quantile(0.5))
        .min()
        .orElseThrow();
  }

  private static void addLimit(
      List<CostCurve.Limit> limits, String label, double hours, double to) {
    if (hours > 0 && hours < to) {
      limits.add(new CostCurve.Limit(label, hours));
    }
  }

  private static Optional<CostCurve.Optimum> optimum(CappedInterval interval) {
    if (interval.advice().intervalHours().isEmpty() || interval.advice().window().isEmpty()) {
      return Optional.empty();
    }
    Window window = interval.advice().window().get();
    return Optional.of(
        new CostCurve.Optimum(
            new CostCurve.Point(
                interval.advice().intervalHours().getAsDouble(),
                THOUSAND * interval.advice().costPerHour()),
            window.fromHours(),
            window.toHours().orElse(Double.POSITIVE_INFINITY),
            IntervalSearch.WINDOW_SHARE));
  }
}

package org.vaneward.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.vaneward.fleet.FleetSettings.Clock;
import org.vaneward.policy.CappedInterval;
import org.vaneward.report.Page.Grid;
import org.vaneward.report.Page.Kind;
import org.vaneward.report.Page.MoneyPart;
import org.vaneward.report.ServiceInterval.Costed;
import org.vaneward.stats.Estimate;

/** The planned interval of each service and what it saves. */
final class MoneySection {
  private static final double THOUSAND = 1000;
  private static final double WORTH_PLANNING = 0.01;

  private final String currency;
  private final Clock clock;
  private final String unit;
  private final List<ServiceInterval> intervals;
  private final CostCurves curves;

  MoneySection(FleetAnalysis analysis, List<ServiceInterval> intervals) {
    this.currency = analysis.fleetSettings().currency();
    this.clock = analysis.fleetSettings().clock();
    this.unit = Words.unit(clock);
    this.intervals = intervals;
    this.curves = CostCurves.of(analysis);
  }

  MoneyPart part() {
    return new MoneyPart(summary(), grid(), rules(), RuleTable.EXPLAINED, curves.of(intervals));
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
}

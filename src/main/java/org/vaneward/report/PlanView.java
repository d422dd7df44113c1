package org.vaneward.report;

import java.time.LocalDate;
import java.time.YearMonth;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import org.vaneward.fleet.Service;
import org.vaneward.io.CsvWriter;
import org.vaneward.io.Json;
import org.vaneward.plan.Calendar;
import org.vaneward.plan.DateRange;
import org.vaneward.plan.FailureProbability;
import org.vaneward.plan.NextRebuild;
import org.vaneward.plan.Plan;
import org.vaneward.plan.PumpPlan;
import org.vaneward.plan.RiskRun;
import org.vaneward.policy.Bound;

/** The plan, for people and for programs. */
public final class PlanView implements View {
  private final FleetAnalysis analysis;
  private final Plan plan;

  /** A view of the plan of an analysed fleet. */
  public PlanView(FleetAnalysis analysis) {
    this.analysis = analysis;
    this.plan = analysis.plan();
  }

  /** Whether a pump stands past its mandated limit, or the calendar cannot keep a limit. */
  public boolean limitBroken() {
    return plan.calendar().notKept().stream().anyMatch(n -> n.what() == Calendar.Kept.LIMIT)
        || plan.pumps().stream().anyMatch(PumpPlan::pastLimit);
  }

  /** Every pump, most urgent first, then the calendar. */
  @Override
  public String text() {
    String currency = analysis.fleetSettings().currency();
    TextTable table =
        new TextTable(
            "pump",
            "site",
            "service",
            "rebuild due",
            "days",
            "from",
            "until",
            "could lie",
            "bound by",
            "stop 90 d",
            currency.isEmpty() ? "cost/week" : currency + "/week",
            "booked");
    for (PumpPlan pump : plan.pumps()) {
      table.row(
          pump.pump(),
          pump.site(),
          service(pump),
          Words.date(pump.nextRebuild().date()),
          pump.overdueDays() > 0 ? Words.whole(pump.overdueDays()) : "",
          Words.date(pump.nextRebuild().from()),
          until(pump.nextRebuild()),
          range(pump),
          boundBy(pump.boundBy()),
          pump.failureProbability().map(p -> Words.percent(p.d90())).orElse(Words.NONE),
          waiting(pump),
          Words.date(pump.scheduled()));
    }
    StringBuilder text = new StringBuilder();
    text.append(analysis.fleetSettings().fleet())
        .append(", as of ")
        .append(analysis.fleetSettings().asOf())
        .append("\n\n")
        .append(table)
        .append(
            "\nfrom, until: days between which a rebuild costs next to nothing more and no limit is"
                + " broken\n")
        .append("bound by: cost, a mandated interval, or the ceiling on the chance of a failure\n")
        .append("could lie: months between which the day best on cost lies, lives and usage being")
        .append(" uncertain\n")
        .append(
            "days: since it was due\nstop 90 d: chance of an unplanned stop within 90 days without a rebuild\n")
        .append(currency.isEmpty() ? "cost/week" : currency + "/week")
        .append(": what the next week of waiting costs; below 0, waiting still saves\n")
        .append("\nWhy\n");
    for (PumpPlan pump : plan.pumps()) {
      text.append(Words.wrapped("  " + pump.pump() + ": " + pump.why(), 6));
    }
    text.append(new CalendarView(analysis).text());
    text.append("\nBefore a pump is opened\n");
    Cautions.openingAFuelPump().forEach(c -> text.append(Words.wrapped("  - " + c, 4)));
    return text.toString();
  }

  /** In a word that leaves room for the rest of the line. */
  private static String boundBy(Bound bound) {
    return bound == Bound.FAILURE_PROBABILITY ? "ceiling" : bound.key();
  }

  /** {@code 2026-09 to 2027-02}. */
  private static String range(PumpPlan pump) {
    return pump.range()
        .map(
            r ->
                YearMonth.from(r.earliest())
                    + r.latest().map(l -> " to " + YearMonth.from(l)).orElse(" on"))
        .orElse(Words.NONE);
  }

  private static String until(NextRebuild next) {
    return next.date().isEmpty() ? Words.NONE : next.to().map(LocalDate::toString).orElse("no end");
  }

  static String service(PumpPlan pump) {
    return pump.service().map(Service::toString).orElse("not on record");
  }

  static String waiting(PumpPlan pump) {
    OptionalDouble cost = pump.costOfWaitingPerWeek();
    return cost.isPresent() ? Words.whole(cost.getAsDouble()) : Words.NONE;
  }

  /** The document {@code plan} promises. */
  @Override
  public String json() {
    return Json.write(document());
  }

  Document document() {
    return new Document(
        analysis.fleetSettings().asOf(),
        analysis.fleetSettings().currency(),
        plan.pumps().stream().map(PlanView::entry).toList(),
        plan.calendar().weeks(),
        plan.calendar().notKept().stream()
            .map(
                n ->
                    new NotKeptEntry(
                        n.pump(),
                        n.what() == Calendar.Kept.LIMIT ? "limit" : "window",
                        n.by(),
                        n.scheduled(),
                        n.daysLate(),
                        n.why()))
            .toList(),
        new CalendarView(analysis).document());
  }

  private static Entry entry(PumpPlan pump) {
    return new Entry(
        pump.pump(),
        pump.site(),
        pump.service().map(Service::toString),
        pump.hoursSinceRebuild(),
        pump.agePerWeek(),
        pump.nextRebuild(),
        pump.range(),
        pump.overdueDays(),
        number(pump.riskRun().map(RiskRun::chance)),
        number(pump.riskRun().map(RiskRun::cost)),
        pump.boundBy().key(),
        pump.mandatedBy(),
        pump.failureProbability(),
        pump.costOfWaitingPerWeek(),
        pump.costOfFirstWeekLate(),
        pump.scheduled(),
        pump.why(),
        pump.assumptions(),
        pump.notKnown());
  }

  /** One row for each pump, most urgent first. */
  @Override
  public String csv() {
    CsvWriter table =
        CsvWriter.forSpreadsheets(
            "pump",
            "site",
            "product",
            "duty",
            "hours_since_rebuild",
            "next_rebuild",
            "from",
            "to",
            "earliest",
            "latest",
            "overdue_days",
            "risk_run",
            "cost_run",
            "bound_by",
            "mandated_by",
            "failure_probability_30_days",
            "failure_probability_90_days",
            "failure_probability_365_days",
            "cost_of_waiting_per_week",
            "currency",
            "scheduled",
            "why");
    for (PumpPlan pump : plan.pumps()) {
      Optional<FailureProbability> chance = pump.failureProbability();
      table
          .cell(pump.pump())
          .cell(pump.site())
          .cell(pump.service().map(Service::product))
          .cell(pump.service().map(Service::duty));
      rounded(table, pump.hoursSinceRebuild(), 0);
      table
          .cell(Words.dateOrEmpty(pump.nextRebuild().date()))
          .cell(Words.dateOrEmpty(pump.nextRebuild().from()))
          .cell(Words.dateOrEmpty(pump.nextRebuild().to()))
          .cell(Words.dateOrEmpty(pump.range().map(DateRange::earliest)))
          .cell(Words.dateOrEmpty(pump.range().flatMap(DateRange::latest)))
          .cell(pump.overdueDays());
      rounded(table, number(pump.riskRun().map(RiskRun::chance)), 4);
      rounded(table, number(pump.riskRun().map(RiskRun::cost)), 2);
      table.cell(pump.boundBy().key()).cell(Words.dateOrEmpty(pump.mandatedBy()));
      rounded(table, number(chance.map(FailureProbability::d30)), 4);
      rounded(table, number(chance.map(FailureProbability::d90)), 4);
      rounded(table, number(chance.map(FailureProbability::d365)), 4);
      rounded(table, pump.costOfWaitingPerWeek(), 2);
      table
          .cell(analysis.fleetSettings().currency())
          .cell(Words.dateOrEmpty(pump.scheduled()))
          .cell(pump.why())
          .endRow();
    }
    return table.text();
  }

  private static void rounded(CsvWriter table, OptionalDouble value, int decimals) {
    if (value.isPresent()) {
      table.rounded(value.getAsDouble(), decimals);
    } else {
      table.empty();
    }
  }

  private static OptionalDouble number(Optional<Double> value) {
    return value.map(OptionalDouble::of).orElse(OptionalDouble.empty());
  }

  record Document(
      LocalDate asOf,
      String currency,
      List<Entry> pumps,
      List<Calendar.Week> calendar,
      List<NotKeptEntry> notKept,
      CalendarView.Sums calendarSums) {}

  record NotKeptEntry(
      String pump,
      String what,
      LocalDate by,
      Optional<LocalDate> scheduled,
      OptionalLong daysLate,
      String why) {}

  record Entry(
      String pump,
      String site,
      Optional<String> service,
      OptionalDouble hoursSinceRebuild,
      OptionalDouble agePerWeek,
      NextRebuild nextRebuild,
      Optional<DateRange> nextRebuildRange,
      long overdueDays,
      OptionalDouble riskRun,
      OptionalDouble costRun,
      String boundBy,
      Optional<LocalDate> mandatedBy,
      Optional<FailureProbability> failureProbability,
      OptionalDouble costOfWaitingPerWeek,
      OptionalDouble costOfFirstWeekLate,
      Optional<LocalDate> scheduled,
      String why,
      List<String> assumptions,
      List<String> notKnown) {}
}

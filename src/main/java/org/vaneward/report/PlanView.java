package org.vaneward.report;

import java.time.LocalDate;
import java.time.YearMonth;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import org.vaneward.chart.Picture;
import org.vaneward.fleet.FleetSettings;
import org.vaneward.fleet.Service;
import org.vaneward.io.Json;
import org.vaneward.io.Listing;
import org.vaneward.io.TableWriter;
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
  private static final List<String> COLUMNS =
      List.of(
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
    List<String> headings = new ArrayList<>(headings(currency));
    headings.add("booked");
    TextTable table = new TextTable(headings.toArray(String[]::new));
    for (PumpPlan pump : plan.pumps()) {
      List<String> cells = new ArrayList<>(cells(pump));
      cells.add(Words.date(pump.scheduled()));
      table.row(cells.toArray(String[]::new));
    }
    StringBuilder text = new StringBuilder();
    text.append(analysis.fleetSettings().fleet())
        .append(", as of ")
        .append(analysis.fleetSettings().asOf())
        .append(asked(analysis))
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
    text.append(dueParts());
    text.append(new CalendarView(analysis).text());
    text.append("\nBefore a pump is opened\n");
    Cautions.openingAFuelPump().forEach(c -> text.append(Words.wrapped("  - " + c, 4)));
    return text.toString();
  }

  /** Headings of {@link #cells}. */
  static List<String> headings(String currency) {
    return List.of(
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
        currency.isEmpty() ? "cost/week" : currency + "/week");
  }

  /** One pump: when it is due, what sets that, what waiting risks and costs. */
  static List<String> cells(PumpPlan pump) {
    return List.of(
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
        waiting(pump));
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

  /**
   * What was asked in place of what is recorded, as a line of its own; nothing when nothing was.
   */
  static String asked(FleetAnalysis analysis) {
    return analysis.whatIf().isAsked()
        ? "\nWhat if " + analysis.whatIf().words() + ". Everything else as recorded."
        : "";
  }

  private String dueParts() {
    FleetSettings settings = analysis.fleetSettings();
    DueParts parts = DueParts.of(settings, analysis.pumps(), plan.pumps());
    if (parts.pumps().isEmpty()) {
      return "";
    }
    TextTable table = new TextTable(partHeadings(settings.currency()).toArray(String[]::new));
    parts.lines(settings).forEach(l -> table.row(partCells(l).toArray(String[]::new)));
    return "\nKits and loose parts for the "
        + Words.count(parts.pumps().size(), "pump", "pumps")
        + " due within "
        + Urgency.SOON_DAYS
        + " days\n\n"
        + table;
  }

  /** Headings of {@link #partCells}. */
  static List<String> partHeadings(String currency) {
    return List.of("kit or part", "number", Headings.priced("together", currency));
  }

  /** One kit or loose part that the pumps due take. */
  static List<String> partCells(DueParts.Line line) {
    return List.of(
        line.name(),
        Words.whole(line.draw().number()),
        line.together().map(Words::whole).orElse(Words.NONE));
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
    FleetSettings settings = analysis.fleetSettings();
    return new Document(
        settings.asOf(),
        Optional.of(analysis.whatIf().words()).filter(words -> !words.isEmpty()),
        settings.currency(),
        plan.pumps().stream().map(PlanView::entry).toList(),
        DueParts.of(settings, analysis.pumps(), plan.pumps()).lines(settings).stream()
            .map(l -> new PartEntry(l.item(), l.kit(), l.draw().number(), l.price()))
            .toList(),
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
        Words.optional(pump.riskRun().map(RiskRun::chance)),
        Words.optional(pump.riskRun().map(RiskRun::cost)),
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
    return listing().csv();
  }

  /** When to rebuild each pump, and the weeks booked. */
  public List<Picture> pictures() {
    return new PlanSection(analysis).pictures();
  }

  /** The same for any form. */
  public Listing listing() {
    return new Listing("Plan", COLUMNS, this::rows);
  }

  private void rows(TableWriter table) {
    for (PumpPlan pump : plan.pumps()) {
      Optional<FailureProbability> chance = pump.failureProbability();
      table
          .cell(pump.pump())
          .cell(pump.site())
          .cell(pump.service().map(Service::product))
          .cell(pump.service().map(Service::duty));
      table.rounded(pump.hoursSinceRebuild(), 0);
      table
          .date(pump.nextRebuild().date())
          .date(pump.nextRebuild().from())
          .date(pump.nextRebuild().to())
          .date(pump.range().map(DateRange::earliest))
          .date(pump.range().flatMap(DateRange::latest))
          .cell(pump.overdueDays());
      table.rounded(Words.optional(pump.riskRun().map(RiskRun::chance)), 4);
      table.rounded(Words.optional(pump.riskRun().map(RiskRun::cost)), 2);
      table.cell(pump.boundBy().key()).date(pump.mandatedBy());
      table.rounded(Words.optional(chance.map(FailureProbability::d30)), 4);
      table.rounded(Words.optional(chance.map(FailureProbability::d90)), 4);
      table.rounded(Words.optional(chance.map(FailureProbability::d365)), 4);
      table.rounded(pump.costOfWaitingPerWeek(), 2);
      table
          .cell(analysis.fleetSettings().currency())
          .date(pump.scheduled())
          .cell(pump.why())
          .endRow();
    }
  }

  record Document(
      LocalDate asOf,
      Optional<String> whatIf,
      String currency,
      List<Entry> pumps,
      List<PartEntry> partsDue,
      List<Calendar.Week> calendar,
      List<NotKeptEntry> notKept,
      CalendarView.Sums calendarSums) {}

  /** A kit or loose part for the pumps due within 90 days. */
  record PartEntry(String item, boolean kit, int number, Optional<Double> price) {}

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

package org.vaneward.report;

import java.time.DayOfWeek;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.vaneward.chart.AgeUnit;
import org.vaneward.chart.CalendarMap;
import org.vaneward.chart.FleetStrip;
import org.vaneward.chart.Picture;
import org.vaneward.plan.Calendar;
import org.vaneward.plan.NextRebuild;
import org.vaneward.plan.Plan;
import org.vaneward.plan.PumpPlan;
import org.vaneward.policy.Bound;
import org.vaneward.report.Page.Grid;
import org.vaneward.report.Page.Kind;
import org.vaneward.report.Page.PlanPart;
import org.vaneward.report.Page.Week;

/** Every pump: pictures, table, calendar. */
final class PlanSection {
  private static final int STRIP_ROWS = 30;
  private static final int STRIP_MONTHS = 24;
  private static final int CALENDAR_WEEKS = 26;

  private final FleetAnalysis analysis;
  private final Plan plan;
  private final LocalDate asOf;

  PlanSection(FleetAnalysis analysis) {
    this.analysis = analysis;
    this.plan = analysis.plan();
    this.asOf = analysis.fleetSettings().asOf();
  }

  PlanPart part() {
    return new PlanPart(summary(), strips(plan.pumps()), pumps(), calendar(), weeks(), remarks());
  }

  private String summary() {
    if (plan.pumps().isEmpty()) {
      return "No pump is in service.";
    }
    long none = plan.pumps().stream().filter(p -> p.nextRebuild().date().isEmpty()).count();
    boolean onCost = plan.pumps().stream().anyMatch(p -> p.costOfWaitingPerWeek().isPresent());
    return Words.count(plan.pumps().size(), "pump", "pumps")
        + " in service. "
        + (onCost
            ? "The window is the time in which a rebuild costs next to nothing more than on"
                + " the best day; inside it, pick the week that suits the site. A pump is late once"
                + " its window is past. A negative cost of waiting means that waiting still pays."
            : none == plan.pumps().size()
                ? "Neither cost nor a limit dates a rebuild."
                : "Only limits set dates: each is the last day allowed, and nothing here says"
                    + " whether an earlier one would cost less.")
        + (none == 0
            ? ""
            : " " + Words.count(none, "pump has", "pumps have") + " no planned rebuild.");
  }

  static String setBy(Bound bound) {
    return switch (bound) {
      case COST -> "cost";
      case FAILURE_PROBABILITY -> "ceiling on failures";
      case MANDATED -> "mandated limit";
      case NONE -> "nothing";
    };
  }

  private List<String> remarks() {
    List<String> remarks = new ArrayList<>();
    List<Calendar.NotKept> limits = notKept(Calendar.Kept.LIMIT);
    List<Calendar.NotKept> past = limits.stream().filter(n -> n.by().isBefore(asOf)).toList();
    List<Calendar.NotKept> toCome = limits.stream().filter(n -> !n.by().isBefore(asOf)).toList();
    if (!past.isEmpty()) {
      remarks.add(
          Words.count(past.size(), "pump was", "pumps were")
              + " past a limit before today and "
              + (past.size() == 1 ? "is" : "are")
              + " booked first, as fast as the workshop can. A pump past a mandated limit stays out"
              + " of service until whoever set the limit allows otherwise.");
    }
    if (!toCome.isEmpty()) {
      remarks.add(
          "Limits yet to come that the workshop cannot keep: "
              + toCome.stream().map(PlanSection::named).collect(Collectors.joining(", "))
              + ". It needs more capacity, or those pumps come out of service in time.");
    }
    int windows = notKept(Calendar.Kept.WINDOW).size();
    if (windows > 0) {
      remarks.add(
          Words.count(windows, "pump is", "pumps are")
              + " booked after the end of the window of least cost: the weeks before it were full,"
              + " or a shared visit saves more than waiting costs.");
    }
    return remarks;
  }

  private List<Calendar.NotKept> notKept(Calendar.Kept what) {
    return plan.calendar().notKept().stream().filter(n -> n.what() == what).toList();
  }

  private static String named(Calendar.NotKept one) {
    return one.pump()
        + " (by "
        + one.by()
        + ", "
        + one.scheduled().map(d -> "booked " + d).orElse("no week free")
        + ")";
  }

  /** When to rebuild each pump, then the weeks ahead. */
  List<Picture> pictures() {
    return Stream.concat(strips(plan.pumps()).stream(), calendar().stream()).toList();
  }

  /** When to rebuild each of {@code plans}, so many to a picture. */
  List<Picture> strips(List<PumpPlan> plans) {
    List<Picture> strips = new ArrayList<>();
    List<PumpPlan> pumps =
        plans.stream()
            .filter(p -> p.nextRebuild().date().isPresent() || p.mandatedBy().isPresent())
            .toList();
    for (int from = 0; from < pumps.size(); from += STRIP_ROWS) {
      List<PumpPlan> some = pumps.subList(from, Math.min(pumps.size(), from + STRIP_ROWS));
      String title =
          pumps.size() <= STRIP_ROWS
              ? "When to rebuild each pump"
              : "When to rebuild each pump, "
                  + (from + 1)
                  + " to "
                  + (from + some.size())
                  + " of "
                  + pumps.size();
      strips.add(
          FleetStrip.draw(
              title,
              some.stream().map(this::stripRow).toList(),
              asOf,
              asOf.plusMonths(STRIP_MONTHS),
              AgeUnit.valueOf(analysis.fleetSettings().clock().name())));
    }
    return strips;
  }

  private FleetStrip.Row stripRow(PumpPlan pump) {
    NextRebuild next = pump.nextRebuild();
    Optional<FleetStrip.Window> window =
        next.from()
            .flatMap(
                from ->
                    Optional.of(next.to().orElse(asOf.plusMonths(STRIP_MONTHS)))
                        .filter(to -> !to.isBefore(from))
                        .map(to -> new FleetStrip.Window(from, to)));
    return new FleetStrip.Row(
        pump.pump(), next.date(), window, pump.mandatedBy(), pump.hoursSinceRebuild());
  }

  private Grid pumps() {
    List<List<String>> rows = new ArrayList<>();
    for (PumpPlan pump : plan.pumps()) {
      rows.add(
          List.of(
              pump.pump(),
              pump.site(),
              PlanView.service(pump),
              Words.age(pump.hoursSinceRebuild(), Words.unit(analysis.fleetSettings().clock())),
              Urgency.of(pump, asOf).words(),
              Words.date(pump.nextRebuild().date()),
              Words.date(pump.nextRebuild().from()),
              Words.date(pump.nextRebuild().to()),
              setBy(pump.boundBy()),
              Words.date(pump.mandatedBy()),
              pump.failureProbability().map(p -> Words.percent(p.d30())).orElse(Words.NONE),
              pump.failureProbability().map(p -> Words.percent(p.d90())).orElse(Words.NONE),
              pump.failureProbability().map(p -> Words.percent(p.d365())).orElse(Words.NONE),
              PlanView.waiting(pump)));
    }
    return new Grid(
        List.of(
            "Pump",
            "Site",
            "Service",
            "Run since rebuild",
            "State",
            "Best day",
            "Window from",
            "to",
            "Set by",
            "Mandated by",
            "Stop in 30 days",
            "in 90",
            "in 365",
            Headings.priced("A week of waiting", analysis.fleetSettings().currency())),
        List.of(
            Kind.TAG,
            Kind.TEXT,
            Kind.TEXT,
            Kind.NUMBER,
            Kind.TAG,
            Kind.DATE,
            Kind.DATE,
            Kind.DATE,
            Kind.TEXT,
            Kind.DATE,
            Kind.NUMBER,
            Kind.NUMBER,
            Kind.NUMBER,
            Kind.NUMBER),
        rows,
        "No pump is in service.");
  }

  /** The weeks ahead by site, so many sites to a picture. */
  private List<Picture> calendar() {
    List<LocalDate> mondays = plan.calendar().mondays().stream().limit(CALENDAR_WEEKS).toList();
    Map<String, int[]> booked = new TreeMap<>();
    for (Calendar.Booking booking : plan.calendar().bookings()) {
      int week = mondays.indexOf(booking.day().with(DayOfWeek.MONDAY));
      if (week >= 0) {
        booked.computeIfAbsent(booking.site(), s -> new int[mondays.size()])[week]++;
      }
    }
    List<CalendarMap.Week> weeks =
        mondays.stream()
            .map(
                monday ->
                    new CalendarMap.Week(
                        monday,
                        analysis.fleetSettings().workshop().rebuildsPerWeek(),
                        plan.calendar().closed().contains(monday)))
            .toList();
    List<CalendarMap.Site> sites = new ArrayList<>();
    booked.forEach(
        (site, counts) ->
            sites.add(new CalendarMap.Site(site, Arrays.stream(counts).boxed().toList())));
    // With more sites than one picture holds the load of a week would be cut in pieces.
    return sites.isEmpty() || sites.size() > CalendarMap.MOST_SITES || weeks.isEmpty()
        ? List.of()
        : List.of(CalendarMap.draw("Rebuilds booked by site and week", weeks, sites));
  }

  private List<Week> weeks() {
    LocalDate end = asOf.plusWeeks(CALENDAR_WEEKS);
    return plan.calendar().weeks().stream()
        .filter(w -> w.monday().isBefore(end))
        .map(w -> new Week(w.week(), w.monday().toString(), String.join(", ", w.pumps())))
        .toList();
  }
}

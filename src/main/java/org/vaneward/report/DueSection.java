package org.vaneward.report;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.vaneward.fleet.FleetSettings;
import org.vaneward.model.LifeModel.Basis;
import org.vaneward.plan.Calendar;
import org.vaneward.plan.FailureProbability;
import org.vaneward.plan.PumpPlan;
import org.vaneward.policy.CostModels;
import org.vaneward.report.Page.Grid;
import org.vaneward.report.Page.Kind;
import org.vaneward.report.Page.Point;

/** The answer: what to open in the next 90 days, what that takes, what waiting costs. */
final class DueSection {
  private static final String NO_NEEDS =
      "fleet.json does not say what a full rebuild consumes (needs).";

  private static final int MONTH_DAYS = 31;
  private static final int MOST_NAMED = 8;

  private final FleetAnalysis analysis;
  private final FleetSettings settings;
  private final LocalDate asOf;
  private final DueParts parts;
  private final List<PumpPlan> due;

  DueSection(FleetAnalysis analysis) {
    this.analysis = analysis;
    this.settings = analysis.fleetSettings();
    this.asOf = settings.asOf();
    this.parts = DueParts.of(settings, analysis.pumps(), analysis.plan().pumps());
    this.due = parts.pumps();
  }

  private long count(Urgency urgency) {
    return due.stream().filter(p -> Urgency.of(p, asOf) == urgency).count();
  }

  private long pastMandate() {
    return analysis.plan().pumps().stream()
        .filter(p -> p.mandatedBy().filter(d -> d.isBefore(asOf)).isPresent())
        .count();
  }

  private static boolean undated(PumpPlan pump) {
    return pump.nextRebuild().date().isEmpty();
  }

  private long withoutCost() {
    return analysis.plan().pumps().stream().filter(p -> !p.priced()).count();
  }

  String headline() {
    if (analysis.pumps().isEmpty()) {
      return "No pump is in service.";
    }
    if (analysis.plan().pumps().stream().allMatch(DueSection::undated) && withoutCost() > 0) {
      return "No rebuild can be dated for any of "
          + Words.count(analysis.pumps().size(), "pump", "pumps")
          + ": cost is not known, and no limit is set or can be applied.";
    }
    if (due.isEmpty() && withoutCost() > 0) {
      return "No limit falls due in the next "
          + Urgency.SOON_DAYS
          + " days; when to rebuild on cost is not known for "
          + withoutCost()
          + " of "
          + Words.count(analysis.pumps().size(), "pump", "pumps")
          + ".";
    }
    if (due.isEmpty() && analysis.pumps().size() == 1) {
      return "The one pump in service needs no planned rebuild in the next "
          + Urgency.SOON_DAYS
          + " days.";
    }
    if (due.isEmpty()) {
      return "No pump of "
          + analysis.pumps().size()
          + " needs a planned rebuild in the next "
          + Urgency.SOON_DAYS
          + " days.";
    }
    List<String> states = new ArrayList<>();
    for (Urgency urgency : List.of(Urgency.PAST_LIMIT, Urgency.LATE, Urgency.DUE_NOW)) {
      long n = count(urgency);
      if (n > 0) {
        states.add(n + " " + urgency.words());
      }
    }
    return "Open "
        + due.size()
        + " of "
        + Words.count(analysis.pumps().size(), "pump", "pumps")
        + " in the next "
        + Urgency.SOON_DAYS
        + " days"
        + (states.isEmpty() ? "." : ": " + String.join(", ", states) + ".");
  }

  List<Point> points() {
    List<Point> points = new ArrayList<>();
    monthPoint().ifPresent(points::add);
    pastMandatePoint().ifPresent(points::add);
    withoutCostPoint().ifPresent(points::add);
    waitingPoint().ifPresent(points::add);
    stopsPoint().ifPresent(points::add);
    if (!due.isEmpty()) {
      points.add(takesPoint());
    }
    if (!analysis.pumps().isEmpty()) {
      points.add(surePoint());
    }
    return points;
  }

  /** The rebuilds booked first, by name. */
  private Optional<Point> monthPoint() {
    LocalDate until = asOf.plusDays(MONTH_DAYS);
    List<String> booked =
        analysis.plan().calendar().bookings().stream()
            .filter(b -> !b.day().isAfter(until))
            .map(Calendar.Booking::pump)
            .toList();
    if (analysis.pumps().isEmpty()) {
      return Optional.empty();
    }
    if (booked.isEmpty()) {
      return Optional.of(new Point("This month", "no rebuild", "is booked up to " + until + "."));
    }
    return Optional.of(
        new Point(
            "This month",
            String.join(", ", booked.subList(0, Math.min(MOST_NAMED, booked.size())))
                + (booked.size() > MOST_NAMED
                    ? " and " + (booked.size() - MOST_NAMED) + " more"
                    : ""),
            (booked.size() == 1 ? "is" : "are") + " booked up to " + until + ", in this order."));
  }

  private Optional<Point> pastMandatePoint() {
    long past = pastMandate();
    if (past == 0) {
      return Optional.empty();
    }
    return Optional.of(
        new Point(
            "Mandated limit",
            Words.count(past, "pump is", "pumps are") + " past the longest interval allowed",
            "Listed first below. No calculation here excuses a day over a mandated limit."));
  }

  private Optional<Point> withoutCostPoint() {
    long n = withoutCost();
    if (n == 0) {
      return Optional.empty();
    }
    return Optional.of(
        new Point(
            "Cost",
            "is not known for " + Words.count(n, "pump", "pumps"),
            "Only limits set dates there; what is missing stands under what the records are not good"
                + " enough to say."));
  }

  private Optional<Point> waitingPoint() {
    List<PumpPlan> pressing =
        due.stream().filter(p -> Urgency.of(p, asOf) != Urgency.SOON).toList();
    List<PumpPlan> priced =
        pressing.stream().filter(p -> p.costOfWaitingPerWeek().isPresent()).toList();
    if (priced.isEmpty()) {
      return Optional.empty();
    }
    double week =
        priced.stream().mapToDouble(p -> Math.max(0, p.costOfWaitingPerWeek().orElse(0))).sum();
    return Optional.of(
        new Point(
            "Waiting",
            money(week) + " a week",
            "is the expected extra cost of leaving the pumps that are late or due now as they are"
                + (priced.size() == pressing.size()
                    ? "."
                    : "; it is known for " + priced.size() + " of " + pressing.size() + ".")));
  }

  private Optional<Point> stopsPoint() {
    if (analysis.pumps().isEmpty()) {
      return Optional.empty();
    }
    List<FailureProbability> known =
        analysis.plan().pumps().stream().flatMap(p -> p.failureProbability().stream()).toList();
    if (known.isEmpty()) {
      return Optional.of(
          new Point(
              "Unplanned stops",
              "cannot be foretold",
              "for any pump; what is missing stands under what the records are not good enough to"
                  + " say."));
    }
    double stops = known.stream().mapToDouble(FailureProbability::d90).sum();
    int all = analysis.pumps().size();
    return Optional.of(
        new Point(
            "Unplanned stops",
            stops < 0.5 ? "fewer than 1 pump" : Words.count(Math.round(stops), "pump", "pumps"),
            "of "
                + (known.size() == all
                    ? Words.whole(all)
                    : "the " + known.size() + " whose chance is known")
                + (stops < 1.5 ? " is" : " are")
                + " expected to be stopped by a failure within "
                + Urgency.SOON_DAYS
                + " days if none is opened."));
  }

  private Point takesPoint() {
    if (settings.needs().isEmpty()) {
      return new Point("To order", "parts that are not known", NO_NEEDS);
    }
    List<String> items =
        parts.lines(settings).stream()
            .map(l -> Words.whole(l.draw().number()) + " " + l.name())
            .toList();
    return new Point(
        "To order", String.join(", ", items), Words.capital(partsMoney() + " for the pumps due."));
  }

  /** What the parts cost, as far as their prices are known. */
  private String partsMoney() {
    if (parts.unpriced().isEmpty()) {
      return money(parts.cost()) + " in parts";
    }
    String without = " without a price: " + String.join(", ", parts.unpriced());
    return parts.cost() > 0
        ? money(parts.cost()) + " in parts, not counting those" + without + ","
        : "parts" + without + ",";
  }

  private String money(double amount) {
    return Words.money(amount, settings.currency());
  }

  private Point surePoint() {
    long firm =
        analysis.models().components().stream()
            .flatMap(c -> c.services().stream())
            .filter(m -> m.basis() == Basis.OWN_FAILURES)
            .count();
    long all = analysis.models().components().stream().mapToLong(c -> c.services().size()).sum();
    if (all == 0) {
      return new Point(
          "How sure",
          "no life model at all",
          "can be had from these records: no failure with a known age is among them.");
    }
    return new Point(
        "How sure",
        firm
            + " of "
            + Words.count(all, "life model stands", "life models stand")
            + (all == 1 ? " on its own failures" : " on their own failures"),
        (firm == all
                ? "each component in each service has enough of them;"
                : "the others, a component in a service each, have few or none and lean on the other"
                    + " services;")
            + " the windows show how little the exact day matters.");
  }

  Grid dueGrid() {
    List<List<String>> rows = new ArrayList<>();
    for (PumpPlan pump : due) {
      rows.add(
          List.of(
              pump.pump(),
              pump.site(),
              PlanView.service(pump),
              Urgency.of(pump, asOf).words(),
              Words.date(pump.nextRebuild().date()),
              Words.date(pump.nextRebuild().to()),
              Words.date(pump.scheduled()),
              pump.failureProbability().map(p -> Words.percent(p.d90())).orElse(Words.NONE),
              PlanView.waiting(pump),
              pump.why()));
    }
    return new Grid(
        List.of(
            "Pump",
            "Site",
            "Service",
            "State",
            "Best day",
            "Window ends",
            "Booked",
            "Chance of a stop in 90 days",
            priced("A week of waiting"),
            "Why"),
        List.of(
            Kind.TAG,
            Kind.TEXT,
            Kind.TEXT,
            Kind.TAG,
            Kind.DATE,
            Kind.DATE,
            Kind.DATE,
            Kind.NUMBER,
            Kind.NUMBER,
            Kind.SENTENCE),
        rows,
        "None.");
  }

  Grid drawGrid() {
    return new Grid(
        List.of(
            "Kit or part",
            "Number",
            "Holds",
            priced("Price each"),
            priced("Together"),
            "Lead time, days",
            "Order by"),
        List.of(Kind.TAG, Kind.NUMBER, Kind.TEXT, Kind.NUMBER, Kind.NUMBER, Kind.NUMBER, Kind.TEXT),
        parts.lines(settings).stream().map(this::row).toList(),
        "Nothing.");
  }

  private List<String> row(DueParts.Line line) {
    return List.of(
        line.name(),
        Words.whole(line.draw().number()),
        line.holds(),
        line.price().map(Words::whole).orElse("no price"),
        line.together().map(Words::whole).orElse(Words.NONE),
        line.leadTimeDays().map(Words::whole).orElse(Words.NONE),
        line.leadTimeDays().map(days -> orderBy(line.draw().first(), days)).orElse(Words.NONE));
  }

  private String orderBy(LocalDate first, int leadDays) {
    LocalDate orderBy = first.minusDays(leadDays);
    return orderBy.isAfter(asOf) ? orderBy.toString() : "now; first needed " + first;
  }

  String drawTotal() {
    if (due.isEmpty()) {
      return "";
    }
    if (settings.needs().isEmpty()) {
      return Words.capital(NO_NEEDS);
    }
    return "For "
        + Words.count(due.size(), "full rebuild", "full rebuilds")
        + ", bought the cheapest way: "
        + partsMoney().replaceAll(",$", "")
        + "."
        + (parts.kits().isEmpty() || parts.loose().isEmpty()
            ? ""
            : " A kit covers less than the pump has; the rest is drawn as loose parts.")
        + (settings.needs().keySet().stream().anyMatch(part -> part.contains("gasket"))
            ? " Gaskets of the covers are thrown away at every opening (common practice, no source)."
            : "")
        + " Unplanned stops come on top.";
  }

  private String priced(String what) {
    return Headings.priced(what, settings.currency());
  }

  /** What the plan could not know, most frequent first, each sentence with its number of pumps. */
  List<String> notKnown(List<ServiceInterval> intervals) {
    Map<String, Integer> counts = new TreeMap<>();
    for (ServiceInterval one : intervals) {
      if (one.outcome() instanceof CostModels.NotAvailable none) {
        counts.merge("no date on cost: " + none.reason(), one.pumps(), Integer::sum);
      }
    }
    for (PumpPlan pump : analysis.plan().pumps()) {
      pump.notKnown().forEach(s -> counts.merge(s, 1, Integer::sum));
    }
    List<String> sentences = new ArrayList<>();
    counts.entrySet().stream()
        .sorted(Comparator.comparingInt((Map.Entry<String, Integer> e) -> -e.getValue()))
        .forEach(
            e ->
                sentences.add(
                    Words.capital(e.getKey())
                        + " ("
                        + Words.count(e.getValue(), "pump", "pumps")
                        + ")."));
    long assumed = analysis.plan().pumps().stream().filter(p -> !p.assumptions().isEmpty()).count();
    if (assumed > 0) {
      sentences.add(
          Words.count(assumed, "pump has", "pumps have")
              + " a part whose fitting is not on record; its age is taken as the running since the"
              + " last full rebuild, or since the records begin, and may be higher.");
    }
    return sentences;
  }
}

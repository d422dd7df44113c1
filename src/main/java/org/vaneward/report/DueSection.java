package org.vaneward.report;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import org.vaneward.fleet.FleetSettings;
import org.vaneward.fleet.FleetSettings.Kit;
import org.vaneward.fleet.FleetSettings.LoosePart;
import org.vaneward.model.LifeModel;
import org.vaneward.plan.PumpNow;
import org.vaneward.plan.PumpPlan;
import org.vaneward.policy.CostModels;
import org.vaneward.policy.PartsCost;
import org.vaneward.report.Page.Grid;
import org.vaneward.report.Page.Kind;
import org.vaneward.report.Page.Point;

/** The answer: what to open in the next 90 days, what that takes, what waiting costs. */
final class DueSection {
  private final FleetAnalysis analysis;
  private final FleetSettings settings;
  private final LocalDate asOf;
  private final List<PumpPlan> due;
  private final SortedMap<String, Draw> kits = new TreeMap<>();
  private final SortedMap<String, Draw> loose = new TreeMap<>();
  private double partsCost;

  /** How many of something, and the first day one is needed. */
  private record Draw(int number, LocalDate first) {
    static Draw merge(Draw a, Draw b) {
      return new Draw(a.number + b.number, a.first.isBefore(b.first) ? a.first : b.first);
    }
  }

  DueSection(FleetAnalysis analysis) {
    this.analysis = analysis;
    this.settings = analysis.fleetSettings();
    this.asOf = settings.asOf();
    this.due = analysis.plan().pumps().stream().filter(p -> Urgency.of(p, asOf).isDue()).toList();
    Map<String, Optional<String>> models = new HashMap<>();
    for (PumpNow pump : analysis.pumps()) {
      models.put(pump.pump(), pump.model());
    }
    due.forEach(p -> draw(p, models.getOrDefault(p.pump(), Optional.empty())));
  }

  private void draw(PumpPlan pump, Optional<String> model) {
    PartsCost parts = PartsCost.of(settings, model);
    LocalDate first = pump.scheduled().orElse(asOf);
    parts.kits().forEach((kit, n) -> kits.merge(kit, new Draw(n, first), Draw::merge));
    parts.looseParts().forEach((part, n) -> loose.merge(part, new Draw(n, first), Draw::merge));
    partsCost += parts.cost();
  }

  private long count(Urgency urgency) {
    return due.stream().filter(p -> Urgency.of(p, asOf) == urgency).count();
  }

  private long pastMandate() {
    return analysis.plan().pumps().stream()
        .filter(p -> p.mandatedBy().filter(d -> d.isBefore(asOf)).isPresent())
        .count();
  }

  private long withoutCost() {
    return analysis.plan().pumps().stream().filter(p -> p.interval().isEmpty()).count();
  }

  String headline() {
    if (due.isEmpty() && withoutCost() > 0) {
      return "No limit falls due in the next "
          + Urgency.SOON_DAYS
          + " days; when to rebuild on cost is not known for "
          + withoutCost()
          + " of "
          + Words.count(analysis.pumps().size(), "pump", "pumps")
          + ".";
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
    pastMandatePoint().ifPresent(points::add);
    withoutCostPoint().ifPresent(points::add);
    if (!due.isEmpty()) {
      points.add(waitingPoint());
    }
    points.add(stopsPoint());
    if (!due.isEmpty()) {
      points.add(takesPoint());
    }
    points.add(surePoint());
    return points;
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

  private Point waitingPoint() {
    double week =
        due.stream()
            .filter(p -> Urgency.of(p, asOf) != Urgency.SOON)
            .mapToDouble(p -> Math.max(0, p.costOfWaitingPerWeek().orElse(0)))
            .sum();
    return new Point(
        "Waiting",
        Words.money(week, settings.currency()) + " a week",
        "is the expected extra cost of leaving the pumps that are late or due now as they are.");
  }

  private Point stopsPoint() {
    double stops =
        analysis.plan().pumps().stream()
            .flatMap(p -> p.failureProbability().stream())
            .mapToDouble(p -> p.d90())
            .sum();
    return new Point(
        "Unplanned stops",
        Words.whole(stops) + " pumps",
        "of "
            + analysis.pumps().size()
            + " are expected to be stopped by a failure within "
            + Urgency.SOON_DAYS
            + " days if none is opened.");
  }

  private Point takesPoint() {
    String kitWords =
        kits.isEmpty()
            ? "no kit"
            : Words.count(kits.values().stream().mapToInt(Draw::number).sum(), "kit", "kits");
    int parts = loose.values().stream().mapToInt(Draw::number).sum();
    return new Point(
        "Takes",
        kitWords + " and " + Words.count(parts, "loose part", "loose parts"),
        Words.money(partsCost, settings.currency()) + " in parts for the pumps due.");
  }

  private Point surePoint() {
    long firm =
        analysis.models().components().stream()
            .flatMap(c -> c.services().stream())
            .filter(m -> m.basis() == LifeModel.Basis.OWN_FAILURES)
            .count();
    long all = analysis.models().components().stream().mapToLong(c -> c.services().size()).sum();
    return new Point(
        "How sure",
        firm + " of " + all + " life models stand on their own failures",
        "the others, a component in a service each, have too few and borrow from the rest of the fleet;"
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
            "A week of waiting, " + settings.currency(),
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
    List<List<String>> rows = new ArrayList<>();
    for (Kit kit : settings.kits()) {
      Optional.ofNullable(kits.get(kit.kit()))
          .ifPresent(
              draw ->
                  rows.add(
                      row(
                          "kit " + kit.kit(),
                          draw,
                          contents(kit),
                          kit.price(),
                          kit.leadTimeDays())));
    }
    Map<String, LoosePart> partsByName = new HashMap<>();
    settings.parts().forEach(p -> partsByName.put(p.part(), p));
    loose.forEach(
        (name, draw) -> {
          LoosePart part = partsByName.get(name);
          if (part == null) {
            rows.add(
                List.of(
                    name,
                    Words.whole(draw.number()),
                    "loose",
                    "no price",
                    Words.NONE,
                    Words.NONE,
                    Words.NONE));
          } else {
            rows.add(row(name, draw, "loose", part.price(), part.leadTimeDays()));
          }
        });
    return new Grid(
        List.of(
            "Kit or part",
            "Number",
            "Holds",
            "Price each, " + settings.currency(),
            "Together, " + settings.currency(),
            "Lead time, days",
            "Order by"),
        List.of(Kind.TAG, Kind.NUMBER, Kind.TEXT, Kind.NUMBER, Kind.NUMBER, Kind.NUMBER, Kind.TEXT),
        rows,
        "Nothing.");
  }

  private List<String> row(String name, Draw draw, String holds, double price, int leadDays) {
    LocalDate orderBy = draw.first().minusDays(leadDays);
    return List.of(
        name,
        Words.whole(draw.number()),
        holds,
        Words.whole(price),
        Words.whole(price * draw.number()),
        Words.whole(leadDays),
        orderBy.isAfter(asOf) ? orderBy.toString() : "now; first needed " + draw.first());
  }

  private static String contents(Kit kit) {
    List<String> words = new ArrayList<>();
    new TreeMap<>(kit.contents()).forEach((part, n) -> words.add(n + " " + part));
    return String.join(", ", words);
  }

  String drawTotal() {
    if (due.isEmpty()) {
      return "";
    }
    return "Parts for "
        + Words.count(due.size(), "full rebuild", "full rebuilds")
        + ", bought the cheapest way: "
        + Words.money(partsCost, settings.currency())
        + ". A kit covers less than the pump has; the rest is drawn as loose parts."
        + " Gaskets of the covers are thrown away at every opening (common practice, no source)."
        + " Unplanned stops come on top.";
  }

  /** What the plan could not know, most frequent first, each sentence with its number of pumps. */
  List<String> notKnown() {
    Map<String, Integer> counts = new TreeMap<>();
    for (ServiceInterval one : ServiceInterval.of(analysis)) {
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

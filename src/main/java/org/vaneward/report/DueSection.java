package org.vaneward.report;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import java.util.SortedSet;
import java.util.TreeMap;
import java.util.TreeSet;
import org.vaneward.fleet.FleetSettings;
import org.vaneward.fleet.FleetSettings.Kit;
import org.vaneward.fleet.FleetSettings.LoosePart;
import org.vaneward.model.LifeModel.Basis;
import org.vaneward.plan.FailureProbability;
import org.vaneward.plan.PumpNow;
import org.vaneward.plan.PumpPlan;
import org.vaneward.policy.CostModels;
import org.vaneward.policy.PartsCost;
import org.vaneward.report.Page.Grid;
import org.vaneward.report.Page.Kind;
import org.vaneward.report.Page.Point;

/** The answer: what to open in the next 90 days, what that takes, what waiting costs. */
final class DueSection {
  private static final String NO_NEEDS =
      "fleet.json does not say what a full rebuild consumes (needs).";

  private final FleetAnalysis analysis;
  private final FleetSettings settings;
  private final LocalDate asOf;
  private final List<PumpPlan> due;
  private final SortedMap<String, Draw> kits = new TreeMap<>();
  private final SortedMap<String, Draw> loose = new TreeMap<>();
  private final SortedSet<String> unpriced = new TreeSet<>();
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
    unpriced.addAll(parts.unpriced());
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
      return new Point("Takes", "parts that are not known", NO_NEEDS);
    }
    String kitWords =
        kits.isEmpty()
            ? "no kit"
            : Words.count(kits.values().stream().mapToInt(Draw::number).sum(), "kit", "kits");
    int parts = loose.values().stream().mapToInt(Draw::number).sum();
    return new Point(
        "Takes",
        kitWords + " and " + Words.count(parts, "loose part", "loose parts"),
        Words.capital(partsMoney() + " for the pumps due."));
  }

  /** What the parts cost, as far as their prices are known. */
  private String partsMoney() {
    if (unpriced.isEmpty()) {
      return money(partsCost) + " in parts";
    }
    String without = " without a price: " + String.join(", ", unpriced);
    return partsCost > 0
        ? money(partsCost) + " in parts, not counting those" + without + ","
        : "parts" + without + ",";
  }

  private String money(double amount) {
    return Words.money(amount, settings.currency());
  }

  private Point surePoint() {
    long firm =
        analysis.models().components().stream()
            .flatMap(c -> c.services().stream())
            .filter(m -> m.basis() == Basis.OWN_FAILURES || m.basis() == Basis.APART)
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
            priced("Price each"),
            priced("Together"),
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
    if (settings.needs().isEmpty()) {
      return Words.capital(NO_NEEDS);
    }
    return "For "
        + Words.count(due.size(), "full rebuild", "full rebuilds")
        + ", bought the cheapest way: "
        + partsMoney().replaceAll(",$", "")
        + "."
        + (kits.isEmpty() || loose.isEmpty()
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

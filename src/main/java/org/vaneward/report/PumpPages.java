package org.vaneward.report;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.ConcurrentHashMap;
import org.vaneward.chart.FleetStrip;
import org.vaneward.chart.Picture;
import org.vaneward.chart.PumpTimeLine;
import org.vaneward.fleet.Finding;
import org.vaneward.fleet.FleetSettings;
import org.vaneward.fleet.FleetSettings.Component;
import org.vaneward.fleet.Opening;
import org.vaneward.fleet.PumpHistory;
import org.vaneward.fleet.ServicePeriod;
import org.vaneward.fleet.Trigger;
import org.vaneward.life.InstalledPart;
import org.vaneward.life.Life;
import org.vaneward.model.LifeDraws;
import org.vaneward.model.LifeModel;
import org.vaneward.plan.PumpNow;
import org.vaneward.plan.PumpPlan;
import org.vaneward.report.Page.Grid;
import org.vaneward.report.Page.Kind;
import org.vaneward.report.Page.Point;

/** A page for each pump: its history, the ages of its parts, its advice and why, its records. */
final class PumpPages {
  static final List<String> FOUND =
      List.of("Position", "As found", "Mode", "Cause", "Done", "Measured, mm", "Lot fitted");

  static final List<Kind> FOUND_KINDS =
      List.of(Kind.TAG, Kind.TEXT, Kind.TEXT, Kind.TEXT, Kind.TEXT, Kind.NUMBER, Kind.TEXT);

  private static final double HALF = 0.5;
  private static final int WINDOW_YEARS = 3;

  private final FleetAnalysis analysis;
  private final FleetSettings settings;
  private final String unit;
  private final String footer;
  private final Map<String, PumpHistory> histories = new HashMap<>();
  private final Map<String, PumpNow> pumps = new HashMap<>();
  private final Map<String, List<Life>> lives = new HashMap<>();
  private final Map<String, List<InstalledPart>> parts = new HashMap<>();
  private final Map<LifeDraws, Double> halfLives = new ConcurrentHashMap<>();

  PumpPages(FleetAnalysis analysis, String footer) {
    this.analysis = analysis;
    this.settings = analysis.fleetSettings();
    this.unit = Words.unit(settings.clock());
    this.footer = footer;
    analysis.fleet().records().fleet().pumps().forEach(h -> histories.put(h.pump().pump(), h));
    analysis.pumps().forEach(p -> pumps.put(p.pump(), p));
    analysis
        .fleet()
        .lives()
        .lives()
        .forEach(l -> lives.computeIfAbsent(l.pump(), p -> new ArrayList<>()).add(l));
    analysis
        .fleet()
        .lives()
        .parts()
        .forEach(p -> parts.computeIfAbsent(p.pump(), x -> new ArrayList<>()).add(p));
  }

  /** The page of a pump in service. */
  PumpPage of(PumpPlan plan, Optional<String> sheet) {
    String pump = plan.pump();
    Optional<PumpHistory> history = history(pump);
    List<Opening> openings = history.map(PumpHistory::openings).orElse(List.of());
    return new PumpPage(
        settings.fleet(),
        settings.asOf().toString(),
        pump,
        about(plan),
        headline(plan),
        points(plan),
        Cautions.openingAFuelPump(),
        picture(plan, history),
        partGrid(plan),
        openingGrid(openings),
        findingGrid(openings),
        serviceGrid(history.map(PumpHistory::services).orElse(List.of())),
        notKnown(plan),
        sheet,
        footer);
  }

  /** What is on record of a pump. */
  Optional<PumpHistory> history(String pump) {
    return Optional.ofNullable(histories.get(pump));
  }

  /** Site, service and model in a line. */
  String about(PumpPlan plan) {
    return plan.site()
        + "; "
        + PlanView.service(plan)
        + Optional.ofNullable(pumps.get(plan.pump()))
            .flatMap(PumpNow::model)
            .map(m -> "; model " + m)
            .orElse("");
  }

  private String headline(PumpPlan plan) {
    Urgency urgency = Urgency.of(plan, settings.asOf());
    return plan.nextRebuild()
        .date()
        .map(day -> "Rebuild by " + day + (urgency.isDue() ? ": " + urgency.words() + "." : "."))
        .orElse("No planned rebuild.");
  }

  private List<Point> points(PumpPlan plan) {
    List<Point> points = new ArrayList<>();
    points.add(new Point("Why", "", plan.why()));
    points.add(
        new Point(
            "Window",
            Words.date(plan.nextRebuild().from()) + " to " + Words.date(plan.nextRebuild().to()),
            "Inside it the exact day hardly matters. Set by "
                + PlanSection.setBy(plan.boundBy())
                + "."));
    points.add(
        new Point(
            "Booked",
            plan.scheduled().map(LocalDate::toString).orElse("not within the calendar"),
            plan.mandatedBy()
                .map(by -> "A mandated limit allows no later day than " + by + ".")
                .orElse("")));
    plan.failureProbability()
        .ifPresent(
            p ->
                points.add(
                    new Point(
                        "Chance of a stop",
                        Words.percent(p.d30())
                            + " in 30 days, "
                            + Words.percent(p.d90())
                            + " in 90, "
                            + Words.percent(p.d365())
                            + " in 365",
                        "Without a rebuild.")));
    points.add(
        new Point(
            "A week of waiting",
            plan.costOfWaitingPerWeek().isPresent()
                ? Words.money(plan.costOfWaitingPerWeek().getAsDouble(), settings.currency())
                : Words.NONE,
            "Expected extra cost of the next week; below 0, waiting still saves."));
    points.add(
        new Point(
            "Running",
            Words.age(plan.agePerWeek(), unit) + " a week",
            Words.age(plan.hoursSinceRebuild(), unit) + " since the last full rebuild on record."));
    return points;
  }

  private static List<String> notKnown(PumpPlan plan) {
    List<String> sentences = new ArrayList<>();
    plan.assumptions().forEach(s -> sentences.add(Words.capital(s) + "."));
    plan.notKnown().forEach(s -> sentences.add(Words.capital(s) + "."));
    return sentences;
  }

  // ---- its history as a picture

  private Optional<Picture> picture(PumpPlan plan, Optional<PumpHistory> history) {
    List<PumpTimeLine.Position> positions = new ArrayList<>();
    List<Life> own = lives.getOrDefault(plan.pump(), List.of());
    for (Component component : settings.components()) {
      for (String position : component.positions()) {
        positions.add(
            new PumpTimeLine.Position(
                position,
                own.stream()
                    .filter(l -> l.position().equals(position))
                    .sorted(Comparator.comparing(Life::fittedOn))
                    .map(
                        l ->
                            new PumpTimeLine.Span(
                                l.fittedOn(), l.endedOn(), end(l, component.announces())))
                    .toList()));
      }
    }
    if (positions.isEmpty() || positions.size() > PumpTimeLine.MOST_POSITIONS) {
      return Optional.empty();
    }
    return Optional.of(
        PumpTimeLine.draw(
            "History of " + plan.pump(),
            new PumpTimeLine.Input(
                plan.pump(),
                settings.asOf(),
                positions,
                history.map(PumpHistory::openings).orElse(List.of()).stream()
                    .map(o -> new PumpTimeLine.Opening(o.date(), isPlanned(o.trigger())))
                    .toList(),
                history.map(PumpHistory::services).orElse(List.of()).stream()
                    .map(s -> new PumpTimeLine.Service(s.from(), s.service().toString()))
                    .toList(),
                next(plan))));
  }

  private PumpTimeLine.Next next(PumpPlan plan) {
    LocalDate furthest = settings.asOf().plusYears(WINDOW_YEARS);
    return new PumpTimeLine.Next(
        plan.nextRebuild().date(),
        plan.nextRebuild()
            .from()
            .flatMap(
                from ->
                    Optional.of(plan.nextRebuild().to().orElse(furthest))
                        .filter(to -> !to.isBefore(from))
                        .map(to -> new FleetStrip.Window(from, to))),
        plan.mandatedBy());
  }

  private static boolean isPlanned(Trigger trigger) {
    return trigger == Trigger.PLANNED || trigger == Trigger.INSPECTION;
  }

  private static PumpTimeLine.End end(Life life, boolean announces) {
    Life.LifeEnd end = life.end();
    if (end instanceof Life.LifeEnd.Failed) {
      return announces ? PumpTimeLine.End.STOPPED : PumpTimeLine.End.FOUND;
    }
    if (end instanceof Life.LifeEnd.FoundFailed) {
      return PumpTimeLine.End.FOUND;
    }
    return end instanceof Life.LifeEnd.StillRunning
        ? PumpTimeLine.End.IN_PLACE
        : PumpTimeLine.End.GOOD;
  }

  // ---- its tables

  /** Pumps of a service share their lives. */
  private double halfLife(LifeDraws life) {
    return halfLives.computeIfAbsent(life, l -> l.quantile(HALF));
  }

  private Grid partGrid(PumpPlan plan) {
    List<List<String>> rows = new ArrayList<>();
    for (InstalledPart part : parts.getOrDefault(plan.pump(), List.of())) {
      Optional<LifeDraws> life =
          analysis.models().find(part.component(), plan.service()).map(LifeModel::draws);
      OptionalDouble age = part.age();
      rows.add(
          List.of(
              part.position(),
              Words.date(part.fittedOn()),
              Words.age(age, unit),
              life.map(l -> Words.age(halfLife(l), unit)).orElse(Words.NONE),
              life.isPresent() && age.isPresent()
                  ? Words.percent(life.get().failed(age.getAsDouble()))
                  : Words.NONE));
    }
    return new Grid(
        List.of("Position", "Fitted", "Age", "Half fail by", "Have failed by this age"),
        List.of(Kind.TAG, Kind.DATE, Kind.NUMBER, Kind.NUMBER, Kind.NUMBER),
        rows,
        "No part is on record.");
  }

  private static Grid openingGrid(List<Opening> openings) {
    List<List<String>> rows = new ArrayList<>();
    for (Opening o : openings) {
      rows.add(
          0,
          List.of(
              o.rebuild(),
              o.date().toString(),
              o.meterHours().isPresent() ? Words.whole(o.meterHours().getAsDouble()) : Words.NONE,
              o.trigger().word(),
              o.crew().orElse(Words.NONE),
              o.kit().orElse(Words.NONE),
              o.endClearanceMm().isPresent()
                  ? Words.number(o.endClearanceMm().getAsDouble())
                  : Words.NONE,
              o.row().file() + ":" + o.row().line(),
              o.note().orElse("")));
    }
    return new Grid(
        List.of(
            "Record",
            "Date",
            "Meter, h",
            "Why opened",
            "Crew",
            "Kit",
            "End clearance, mm",
            "Note",
            "Where"),
        List.of(
            Kind.TAG,
            Kind.DATE,
            Kind.NUMBER,
            Kind.TEXT,
            Kind.TEXT,
            Kind.TEXT,
            Kind.NUMBER,
            Kind.SENTENCE,
            Kind.TEXT),
        rows,
        "It has not been opened since the records begin.");
  }

  private static Grid findingGrid(List<Opening> openings) {
    List<List<String>> rows = new ArrayList<>();
    for (int i = openings.size() - 1; i >= 0; i--) {
      for (Finding f : openings.get(i).findings()) {
        rows.add(row(openings.get(i), f));
      }
    }
    List<String> headings = new ArrayList<>(List.of("Date"));
    List<Kind> kinds = new ArrayList<>(List.of(Kind.DATE));
    headings.addAll(FOUND);
    kinds.addAll(FOUND_KINDS);
    return new Grid(headings, kinds, rows, "Nothing was written down.");
  }

  private static List<String> row(Opening opening, Finding f) {
    List<String> cells = new ArrayList<>(List.of(opening.date().toString()));
    cells.addAll(foundCells(f));
    return cells;
  }

  static List<String> foundCells(Finding f) {
    return List.of(
        f.position(),
        f.asFound().word() + (f.primary() ? ", stopped the pump" : ""),
        f.mode().orElse(""),
        f.cause().orElse(""),
        f.action().word(),
        f.measuredMm().isPresent() ? Words.number(f.measuredMm().getAsDouble()) : "",
        f.lot().orElse(""));
  }

  private static Grid serviceGrid(List<ServicePeriod> services) {
    return new Grid(
        List.of("Since", "Product", "Duty"),
        List.of(Kind.DATE, Kind.TEXT, Kind.TEXT),
        services.stream()
            .map(s -> List.of(s.from().toString(), s.service().product(), s.service().duty()))
            .toList(),
        "What it handles is not on record.");
  }
}

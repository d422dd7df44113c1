package org.vaneward.sample;

import java.time.DayOfWeek;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.vaneward.fleet.AsFound;
import org.vaneward.fleet.PartAction;
import org.vaneward.fleet.Service;
import org.vaneward.fleet.Trigger;
import org.vaneward.sample.PumpRun.Found;
import org.vaneward.sample.PumpRun.Opened;
import org.vaneward.stats.distribution.Weibull;

/**
 * Lives one pump through, day by day: it runs, its parts fail, the shop opens and closes it. A pump
 * that is open does not run.
 */
final class PumpSimulator {
  private final Scenario scenario;
  private final Scenario.Shop shop;
  private final PumpRun.PumpPlan plan;
  private final FleetFile.Kit kit;
  private final Draws draws;
  private final PumpRun.Log log = new PumpRun.Log();
  private final Map<String, Scenario.Component> positions;
  private final Map<String, FittedPart> parts = new LinkedHashMap<>();
  private final boolean plansRebuilds;

  private Service service;
  private LocalDate today;
  private double hours;
  private int fullRebuilds;
  private LocalDate idleUntil;
  private LocalDate nextReading;
  private double monthFactor = 1;
  private double plannedAtHours;
  private LocalDate plannedOn;

  PumpSimulator(Scenario scenario, PumpRun.PumpPlan plan, Draws draws) {
    this.scenario = scenario;
    this.shop = scenario.shop();
    this.plan = plan;
    this.positions = positionsOf(scenario);
    this.draws = draws;
    this.kit = scenario.economics().kitFor(plan.group().model());
    this.plansRebuilds = !draws.chance(shop.runToFailureShare());
    this.service = plan.group().service();
    this.today = plan.commissioned();
    this.idleUntil = today;
    this.nextReading = today.plusDays(26 + draws.below(10));
    log.readings.add(new PumpRun.Reading(today, 0));
    this.plannedOn = today;
    schedulePlanned(1);
    positions.forEach((position, component) -> fit(position, component));
    begin(service);
  }

  PumpRun run() {
    for (; !today.isAfter(plan.lastDay()); today = today.plusDays(1)) {
      changeServiceIfDue();
      if (!today.isBefore(idleUntil)) {
        runToday();
      }
      readMeterIfDue();
    }
    return new PumpRun(plan, log.services, log.readings, log.openings, log.drawnLives);
  }

  private static Map<String, Scenario.Component> positionsOf(Scenario scenario) {
    Map<String, Scenario.Component> all = new LinkedHashMap<>();
    for (Scenario.Component component : scenario.components()) {
      component.positions().forEach(position -> all.put(position, component));
    }
    return all;
  }

  // ---- running

  private void runToday() {
    if (plansRebuilds && isPlannedDue() && openedAsPlanned()) {
      return;
    }
    double target = hours + hoursToday();
    String first = "";
    double stopAt = Double.POSITIVE_INFINITY;
    for (Map.Entry<String, Scenario.Component> entry : positions.entrySet()) {
      double stops = part(entry.getKey()).stopsPumpAt(entry.getValue().announces());
      if (stops < stopAt) {
        first = entry.getKey();
        stopAt = stops;
      }
    }
    if (stopAt <= target) {
      hours = Math.max(hours, stopAt);
      openForFailure(first);
    } else {
      hours = target;
    }
  }

  /** A tenth more in winter than the mean and a tenth less in summer, and months that differ. */
  private double hoursToday() {
    if (today.getDayOfMonth() == 1) {
      monthFactor = draws.lognormal(0.12);
    }
    double season = 1 + 0.1 * StrictMath.cos(2 * Math.PI * today.getDayOfYear() / 365.25);
    return Math.min(24, plan.hoursPerWeek() / 7 * season * monthFactor);
  }

  private void readMeterIfDue() {
    if (today.isBefore(nextReading)) {
      return;
    }
    log.readings.add(new PumpRun.Reading(today, hours));
    nextReading = today.plusDays(26 + draws.below(10) + (draws.chance(0.04) ? 30 : 0));
  }

  private void changeServiceIfDue() {
    for (Scenario.ServiceChange change : scenario.serviceChanges()) {
      if (change.pump().equals(plan.pump()) && change.from().equals(today)) {
        service = change.service();
        begin(service);
        positions.forEach(
            (position, component) -> part(position).changeService(hours, trueLife(component)));
      }
    }
  }

  private void begin(Service begun) {
    double pressure = scenario.duty(begun.duty()).pressureBar() * draws.lognormal(0.12);
    log.services.add(new PumpRun.Period(today, begun, pressure));
  }

  // ---- parts

  private FittedPart part(String position) {
    FittedPart part = parts.get(position);
    if (part == null) {
      throw new IllegalArgumentException("no part at position " + position);
    }
    return part;
  }

  private Weibull trueLife(Scenario.Component component) {
    return scenario.trueLife(component.component(), service);
  }

  private void fit(String position, Scenario.Component component) {
    Optional<Scenario.BadLot> bad = badLotToday(component);
    double factor = bad.map(Scenario.BadLot::scaleFactor).orElse(1.0) * worseningFactor();
    FittedPart part =
        new FittedPart(
            hours,
            trueLife(component),
            factor,
            draws.exponential(),
            component.wearLimitMm().orElse(1),
            draws.chance(component.noticedShare()),
            bad.map(Scenario.BadLot::lot).orElseGet(() -> lotToday(component)));
    parts.put(position, part);
    log.drawnLives.add(
        new SampledFleet.DrawnLife(
            plan.pump(),
            component.component(),
            service.product(),
            service.duty(),
            factor,
            part.failureAgeHours()));
  }

  private Optional<Scenario.BadLot> badLotToday(Scenario.Component component) {
    return scenario
        .practice()
        .flatMap(Scenario.Practice::badLot)
        .filter(lot -> lot.component().equals(component.component()))
        .filter(lot -> lot.fitted().contains(today))
        .filter(lot -> draws.chance(lot.share()));
  }

  /** Lots change twice a year: letter, year, half. */
  private String lotToday(Scenario.Component component) {
    int half = today.getMonthValue() <= 6 ? 1 : 2;
    return component.lotLetter() + today.getYear() + "-" + half;
  }

  private Optional<Scenario.Worsening> worsening() {
    return scenario
        .practice()
        .flatMap(Scenario.Practice::worsening)
        .filter(worsening -> worsening.pump().equals(plan.pump()));
  }

  private double worseningFactor() {
    return worsening()
        .map(
            w ->
                Math.max(w.lowestFactor(), StrictMath.pow(w.scaleFactorPerRebuild(), fullRebuilds)))
        .orElse(1.0);
  }

  // ---- planned work

  private void schedulePlanned(double share) {
    double stretch = share * draws.lognormal(shop.scatter());
    plannedAtHours = hours + shop.plannedIntervalHours() * stretch;
    plannedOn = today.plusDays(Math.round(shop.plannedIntervalMonths() * 30.4375 * stretch));
  }

  private boolean isPlannedDue() {
    boolean workday = today.getDayOfWeek().compareTo(DayOfWeek.FRIDAY) <= 0;
    return workday && (hours >= plannedAtHours || !today.isBefore(plannedOn));
  }

  /** Whether the pump was opened, for its rebuild or for an inspection in its stead. */
  private boolean openedAsPlanned() {
    if (!draws.chance(shop.skipProbability())) {
      rebuild(Trigger.PLANNED, "", Optional.empty());
      return true;
    }
    schedulePlanned(0.5);
    if (draws.chance(shop.inspectionProbability())) {
      inspect();
      return true;
    }
    return false;
  }

  private void inspect() {
    List<Found> found = new ArrayList<>();
    positions.forEach(
        (position, component) -> {
          if (!component.announces()) {
            found.add(lookInside(position, component));
          }
        });
    close(Trigger.INSPECTION, drawCrew(), false, Optional.empty(), found, "");
  }

  // ---- unplanned work

  private void openForFailure(String failed) {
    Scenario.Component component = componentAt(failed);
    Scenario.Stop stop = draws.pick(component.stops(), Scenario.Stop::share);
    if (draws.chance(shop.mendProbability())) {
      mend(failed, component, stop);
    } else {
      rebuild(stop.trigger(), failed, Optional.of(stop));
    }
  }

  private Scenario.Component componentAt(String position) {
    Scenario.Component component = positions.get(position);
    if (component == null) {
      throw new IllegalArgumentException("no position " + position);
    }
    return component;
  }

  /** Everything looked at and renewed, save wear parts that go back at a planned rebuild. */
  private void rebuild(Trigger trigger, String failed, Optional<Scenario.Stop> stop) {
    String crew = drawCrew();
    fullRebuilds++;
    List<Found> found = new ArrayList<>();
    positions.forEach(
        (position, component) -> {
          if (position.equals(failed) && stop.isPresent()) {
            found.add(renewStopper(position, component, stop.get()));
          } else if (component.announces()) {
            found.add(renewWorking(position, component));
          } else if (trigger == Trigger.PLANNED && draws.chance(shop.reuseProbability())) {
            found.add(lookInside(position, component));
          } else {
            found.add(renewAfterLook(position, component));
          }
        });
    close(trigger, crew, false, Optional.of(kit.kit()), found, "");
    schedulePlanned(1);
  }

  /** Only the failed position and what must come out with it; perhaps a look at others. */
  private void mend(String failed, Scenario.Component component, Scenario.Stop stop) {
    String crew = drawCrew();
    List<Found> found = new ArrayList<>();
    positions.forEach(
        (position, other) -> {
          if (position.equals(failed)) {
            found.add(renewStopper(position, component, stop));
          } else if (comesOutWith(component, failed, other, position)) {
            found.add(renewWorking(position, other));
          } else if (!other.announces() && draws.chance(shop.lookInsideProbability())) {
            found.add(lookInside(position, other));
          } else if (other.equals(component) && draws.chance(shop.lookAtMateProbability())) {
            found.add(sawWorking(position, PartAction.REUSED, ""));
          }
        });
    close(stop.trigger(), crew, false, Optional.empty(), found, "");
  }

  private static boolean comesOutWith(
      Scenario.Component mended, String failed, Scenario.Component other, String position) {
    String side = failed.substring(mended.component().length());
    return mended.renewsWith().filter(other.component()::equals).isPresent()
        && position.equals(other.component() + side);
  }

  // ---- findings

  private Found renewStopper(String position, Scenario.Component component, Scenario.Stop stop) {
    OptionalDouble measured = component.announces() ? OptionalDouble.empty() : measure(position);
    boolean primary = !component.announces() || !draws.chance(shop.primaryLeftBlank());
    String cause = drawCause(position, component);
    fit(position, component);
    return new Found(
        position,
        AsFound.FAILED,
        primary,
        stop.mode(),
        cause,
        PartAction.RENEWED,
        measured,
        part(position).lot());
  }

  private Found renewWorking(String position, Scenario.Component component) {
    fit(position, component);
    return sawWorking(position, PartAction.RENEWED, part(position).lot());
  }

  /** What is noted of a part in working order says nothing of its remaining life. */
  private Found sawWorking(String position, PartAction action, String lot) {
    double luck = draws.uniform(0, 1);
    boolean notSeen = luck > 0.92 && action == PartAction.RENEWED;
    AsFound state = notSeen ? AsFound.NOT_SEEN : luck < 0.6 ? AsFound.GOOD : AsFound.WORN;
    return new Found(position, state, false, "", "", action, OptionalDouble.empty(), lot);
  }

  /** A look at a wear part: renewed when over the limit, else put back. */
  private Found lookInside(String position, Scenario.Component component) {
    return part(position).hasFailedBy(hours)
        ? renewAfterLook(position, component)
        : sawWear(position, component, PartAction.REUSED, "");
  }

  private Found renewAfterLook(String position, Scenario.Component component) {
    Found seen = sawWear(position, component, PartAction.RENEWED, "");
    fit(position, component);
    return new Found(
        seen.position(),
        seen.asFound(),
        false,
        seen.mode(),
        seen.cause(),
        PartAction.RENEWED,
        seen.measuredMm(),
        part(position).lot());
  }

  private Found sawWear(
      String position, Scenario.Component component, PartAction action, String lot) {
    boolean failed = part(position).hasFailedBy(hours);
    OptionalDouble wear = measure(position);
    // A set over the limit is as often written down as worn; the measurement tells.
    AsFound state =
        failed && draws.chance(0.6)
            ? AsFound.FAILED
            : wear.orElse(0) < component.wearLimitMm().orElse(0) / 2 ? AsFound.GOOD : AsFound.WORN;
    String cause = failed ? drawCause(position, component) : "";
    String mode = failed ? component.stops().get(0).mode() : "";
    return new Found(position, state, false, mode, cause, action, wear, lot);
  }

  /** Wear to a hundredth, rounded away from the limit so that it is over exactly when failed. */
  private OptionalDouble measure(String position) {
    double limit = componentAt(position).wearLimitMm().orElse(0);
    long hundredths = Math.round(part(position).wearMm(hours) * 100);
    long limitHundredths = Math.round(limit * 100);
    long kept =
        part(position).hasFailedBy(hours)
            ? Math.max(hundredths, limitHundredths)
            : Math.min(hundredths, limitHundredths - 1);
    return OptionalDouble.of(kept / 100.0);
  }

  private String drawCause(String position, Scenario.Component component) {
    Optional<Scenario.Practice> practice = scenario.practice();
    String lot = part(position).lot();
    Optional<String> lotCause =
        practice
            .flatMap(Scenario.Practice::badLot)
            .filter(bad -> bad.component().equals(component.component()))
            .filter(bad -> bad.lot().equals(lot))
            .map(Scenario.BadLot::cause);
    Optional<String> planted =
        lotCause.isPresent() ? lotCause : worsening().map(Scenario.Worsening::cause);
    if (planted.isPresent() && draws.chance(0.5)) {
      return planted.get();
    }
    List<String> words = new ArrayList<>(component.causes());
    words.addAll(
        scenario
            .product(service.product())
            .causes()
            .getOrDefault(component.component(), List.of()));
    return draws.pick(words);
  }

  // ---- closing

  private void close(
      Trigger trigger,
      String crew,
      boolean startUp,
      Optional<String> kitFitted,
      List<Found> found,
      String note) {
    boolean planned = trigger == Trigger.PLANNED || trigger == Trigger.INSPECTION;
    double downtimeHours = planned ? draws.uniform(8, 16) : draws.uniform(12, 72);
    OptionalDouble clearance =
        kitFitted.isPresent()
            ? OptionalDouble.of(Math.round(draws.uniform(10, 25)) / 100.0)
            : OptionalDouble.empty();
    log.openings.add(
        new Opened(
            today,
            hours,
            trigger,
            crew,
            startUp,
            kitFitted,
            Math.round(downtimeHours),
            drawCost(planned, kitFitted.isPresent(), found),
            clearance,
            note,
            found));
    idleUntil = today.plusDays((long) Math.ceil(downtimeHours / 24));
    if (!startUp) {
      startUpTest(crew, found);
    }
  }

  /** Fresh parts that leak on the start-up test: a second opening at the same hours. */
  private void startUpTest(String crew, List<Found> found) {
    double probability = startUpFailureProbability(crew);
    List<Found> leaking = new ArrayList<>();
    for (Found finding : found) {
      Scenario.Component component = componentAt(finding.position());
      if (component.startUpLeaks()
          && finding.action() == PartAction.RENEWED
          && draws.chance(probability)) {
        Scenario.Stop stop = component.stops().get(0);
        fit(finding.position(), component);
        leaking.add(
            new Found(
                finding.position(),
                AsFound.FAILED,
                true,
                stop.mode(),
                "damaged in fitting",
                PartAction.RENEWED,
                OptionalDouble.empty(),
                part(finding.position()).lot()));
      }
    }
    LocalDate stopped = today;
    if (!leaking.isEmpty() && !idleUntil.isAfter(plan.lastDay())) {
      Trigger trigger = componentAt(leaking.get(0).position()).stops().get(0).trigger();
      today = idleUntil;
      close(trigger, crew, true, Optional.empty(), leaking, "leaked on the start-up test");
      today = stopped;
    }
  }

  private double startUpFailureProbability(String crew) {
    return scenario
        .practice()
        .flatMap(Scenario.Practice::crew)
        .filter(effect -> effect.crew().equals(crew))
        .map(Scenario.CrewEffect::startUpFailureProbability)
        .orElse(shop.startUpFailureProbability());
  }

  private String drawCrew() {
    return draws.pick(plan.site().crews(), Scenario.CrewShare::share).crew();
  }

  private double drawCost(boolean planned, boolean kitFitted, List<Found> found) {
    FleetFile.Costs costs = scenario.economics().costs();
    FleetFile.OpeningCost opening = costs.planned();
    double partsCost = 0;
    for (Found finding : found) {
      Scenario.Component component = componentAt(finding.position());
      if (finding.hasFailed() && !planned) {
        opening = costs.unplanned().getOrDefault(component.component(), opening);
      }
      if (finding.action() == PartAction.RENEWED) {
        partsCost +=
            component.partsPerPosition() * scenario.economics().partPrice(component.part());
      }
    }
    double whole = kitFitted ? scenario.economics().fullRebuildParts(kit) : partsCost;
    return 10 * Math.round((opening.total() + whole) * draws.lognormal(shop.costSpread()) / 10);
  }
}

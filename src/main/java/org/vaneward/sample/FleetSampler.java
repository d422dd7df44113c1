package org.vaneward.sample;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.TreeSet;
import org.vaneward.fleet.FleetSettings.Clock;
import org.vaneward.fleet.Service;
import org.vaneward.stats.distribution.Weibull;

/**
 * Draws a fleet from a scenario. The same scenario and seed give the same fleet to the last byte:
 * one child stream per pump, made in order, and one for the flaws.
 */
public final class FleetSampler {
  private FleetSampler() {}

  /**
   * A fleet drawn from {@code scenario}.
   *
   * @throws IllegalArgumentException when the scenario names a pump, part or kit it does not have
   */
  public static SampledFleet draw(Scenario scenario) {
    Draws root = Draws.seeded(scenario.seed());
    List<PumpRun> runs = new ArrayList<>();
    for (Scenario.Site site : scenario.sites()) {
      int number = 0;
      for (Scenario.PumpGroup group : site.pumps()) {
        for (int i = 0; i < group.pumps(); i++) {
          number++;
          Draws draws = root.split();
          runs.add(
              new PumpSimulator(scenario, plan(scenario, site, group, number, draws), draws).run());
        }
      }
    }
    Draws flawDraws = root.split();
    checkNames(scenario, runs);
    Records records = Records.of(scenario, runs);
    List<Truth.PlantedFlaw> flaws =
        scenario
            .flaws()
            .map(f -> new FlawPlanter(scenario, f, records, flawDraws).plant())
            .orElse(List.of());
    return new SampledFleet(
        fleetFile(scenario),
        records.tables(),
        truth(scenario, runs, flaws),
        runs.stream().flatMap(run -> run.drawnLives().stream()).toList());
  }

  private static PumpRun.PumpPlan plan(
      Scenario scenario, Scenario.Site site, Scenario.PumpGroup group, int number, Draws draws) {
    String pump = String.format(Locale.ROOT, "%s-P%02d", site.prefix(), number);
    LocalDate from =
        site.commissioned().map(Scenario.Window::from).orElse(scenario.period().commissionedFrom());
    LocalDate to =
        site.commissioned().map(Scenario.Window::to).orElse(scenario.period().commissionedTo());
    Scenario.Duty duty = scenario.duty(group.duty());
    Optional<LocalDate> retired =
        scenario.retirements().stream()
            .filter(r -> r.pump().equals(pump))
            .map(Scenario.Retirement::on)
            .findFirst();
    return new PumpRun.PumpPlan(
        pump,
        site,
        group,
        draws.day(from, to),
        retired.orElse(scenario.period().asOf()),
        retired,
        Math.min(duty.hoursPerWeek() * draws.lognormal(duty.spread()), 140));
  }

  private static void checkNames(Scenario scenario, List<PumpRun> runs) {
    List<String> named = new ArrayList<>();
    scenario.serviceChanges().forEach(change -> named.add(change.pump()));
    scenario.retirements().forEach(retirement -> named.add(retirement.pump()));
    scenario
        .practice()
        .flatMap(Scenario.Practice::worsening)
        .ifPresent(worsening -> named.add(worsening.pump()));
    for (String pump : named) {
      if (runs.stream().noneMatch(run -> run.plan().pump().equals(pump))) {
        throw new IllegalArgumentException("the scenario names pump " + pump + ", not drawn");
      }
    }
  }

  private static FleetFile fleetFile(Scenario scenario) {
    Scenario.Economics economics = scenario.economics();
    return new FleetFile(
        scenario.name(),
        scenario.currency(),
        scenario.period().asOf(),
        Clock.HOURS,
        scenario.components().stream()
            .map(
                c ->
                    new FleetFile.PartKind(
                        c.component(),
                        c.positions(),
                        c.announces(),
                        c.wearLimitMm(),
                        Optional.empty()))
            .toList(),
        economics.kits(),
        economics.parts(),
        economics.needs(),
        economics.costs(),
        economics.limits(),
        economics.workshop(),
        economics.stock());
  }

  private static Truth truth(Scenario scenario, List<PumpRun> runs, List<Truth.PlantedFlaw> flaws) {
    TreeSet<Service> services = new TreeSet<>();
    runs.forEach(run -> run.services().forEach(period -> services.add(period.service())));
    List<Truth.Lifetime> lifetimes = new ArrayList<>();
    for (Scenario.Component component : scenario.components()) {
      for (Service service : services) {
        Weibull life = scenario.trueLife(component.component(), service);
        lifetimes.add(
            new Truth.Lifetime(
                component.component(),
                service.product(),
                service.duty(),
                life.shape(),
                life.scale()));
      }
    }
    return new Truth(scenario.name(), scenario.seed(), lifetimes, causes(scenario), flaws);
  }

  private static List<Truth.PlantedCause> causes(Scenario scenario) {
    List<Truth.PlantedCause> causes = new ArrayList<>();
    Optional<Scenario.Practice> practice = scenario.practice();
    practice
        .flatMap(Scenario.Practice::crew)
        .ifPresent(
            crew ->
                causes.add(
                    new Truth.PlantedCause(
                        Truth.CauseKind.CREW,
                        crew.crew(),
                        Optional.empty(),
                        OptionalDouble.empty(),
                        OptionalDouble.of(crew.startUpFailureProbability()))));
    practice
        .flatMap(Scenario.Practice::badLot)
        .ifPresent(
            lot ->
                causes.add(
                    new Truth.PlantedCause(
                        Truth.CauseKind.LOT,
                        lot.lot(),
                        Optional.of(lot.component()),
                        OptionalDouble.of(lot.scaleFactor()),
                        OptionalDouble.empty())));
    practice
        .flatMap(Scenario.Practice::worsening)
        .ifPresent(
            worsening ->
                causes.add(
                    new Truth.PlantedCause(
                        Truth.CauseKind.PUMP,
                        worsening.pump(),
                        Optional.empty(),
                        OptionalDouble.of(worsening.scaleFactorPerRebuild()),
                        OptionalDouble.empty())));
    return causes;
  }
}

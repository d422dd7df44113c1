package org.vaneward.life;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.Set;
import org.vaneward.fleet.AsFound;
import org.vaneward.fleet.Finding;
import org.vaneward.fleet.Fleet;
import org.vaneward.fleet.FleetSettings;
import org.vaneward.fleet.FleetSettings.Clock;
import org.vaneward.fleet.FleetSettings.Component;
import org.vaneward.fleet.FleetSettings.Kit;
import org.vaneward.fleet.MeterReading;
import org.vaneward.fleet.Opening;
import org.vaneward.fleet.PartAction;
import org.vaneward.fleet.Pump;
import org.vaneward.fleet.PumpHistory;
import org.vaneward.fleet.RowRef;
import org.vaneward.fleet.Service;
import org.vaneward.fleet.ServicePeriod;
import org.vaneward.fleet.Trigger;

/**
 * The records of pump {@code P1}, written down step by step. Days are counted from commissioning;
 * the records end on day 1000. Calls that describe an opening or a finding speak of the last one.
 */
final class Records {
  static final LocalDate DAY_0 = LocalDate.of(2020, 1, 1);
  static final int END = 1000;

  private Optional<LocalDate> commissioned = Optional.of(DAY_0);
  private Optional<LocalDate> recordsFrom = Optional.empty();
  private Optional<LocalDate> retired = Optional.empty();
  private OptionalDouble hoursPerWeek = OptionalDouble.empty();
  private Clock clock = Clock.HOURS;
  private final List<ServicePeriod> services = new ArrayList<>();
  private final List<MeterReading> readings = new ArrayList<>();
  private final List<Opening> openings = new ArrayList<>();
  private int findingRows = 1;

  static LocalDate day(int n) {
    return DAY_0.plusDays(n);
  }

  /** Ten hours a day, read on the last day: an opening without hours on day n is at 10 n hours. */
  static Records tenHoursADay() {
    return new Records().reading(END, 10.0 * END);
  }

  Records commissionedUnknown() {
    commissioned = Optional.empty();
    return this;
  }

  Records recordsFrom(int day) {
    recordsFrom = Optional.of(day(day));
    return this;
  }

  Records retired(int day) {
    retired = Optional.of(day(day));
    return this;
  }

  Records hoursPerWeek(double hours) {
    hoursPerWeek = OptionalDouble.of(hours);
    return this;
  }

  Records clockInDays() {
    clock = Clock.DAYS;
    return this;
  }

  Records service(int fromDay, String product, double pressureBar) {
    services.add(
        new ServicePeriod(
            "P1",
            day(fromDay),
            new Service(product, "loading"),
            Map.of("pressure_bar", pressureBar),
            Map.of(),
            new RowRef("services.csv", services.size() + 2)));
    return this;
  }

  Records reading(int day, double hours) {
    return reading(day, hours, OptionalDouble.empty());
  }

  Records meterReplaced(int day, double oldHours, double newHours) {
    return reading(day, newHours, OptionalDouble.of(oldHours));
  }

  private Records reading(int day, double hours, OptionalDouble oldHours) {
    RowRef row = new RowRef("readings.csv", readings.size() + 2);
    readings.add(new MeterReading("P1", day(day), hours, oldHours, row));
    return this;
  }

  /** An opening whose meter was not read. */
  Records open(int day, Trigger trigger) {
    return open(day, OptionalDouble.empty(), trigger);
  }

  Records open(int day, double meterHours, Trigger trigger) {
    return open(day, OptionalDouble.of(meterHours), trigger);
  }

  private Records open(int day, OptionalDouble meterHours, Trigger trigger) {
    int n = openings.size() + 1;
    openings.add(
        new Opening(
            "R" + n,
            "P1",
            day(day),
            meterHours,
            trigger,
            Optional.of("crew " + n),
            Optional.empty(),
            OptionalDouble.empty(),
            OptionalDouble.empty(),
            OptionalDouble.of(0.1 * n),
            Optional.empty(),
            Map.of("shift", "night " + n),
            List.of(),
            new RowRef("rebuilds.csv", n + 1)));
    return this;
  }

  Records kit(String kit) {
    Opening o = lastOpening();
    replaceLast(withKit(o, Optional.of(kit), o.findings()));
    return this;
  }

  Records found(String position, AsFound asFound, PartAction action) {
    return found(position, asFound, action, false, OptionalDouble.empty());
  }

  Records primary(String position, AsFound asFound, PartAction action) {
    return found(position, asFound, action, true, OptionalDouble.empty());
  }

  Records measured(String position, AsFound asFound, PartAction action, double mm) {
    return found(position, asFound, action, false, OptionalDouble.of(mm));
  }

  private Records found(
      String position, AsFound asFound, PartAction action, boolean primary, OptionalDouble mm) {
    findingRows++;
    Finding finding =
        new Finding(
            position,
            asFound,
            primary,
            Optional.of("mode " + findingRows),
            Optional.empty(),
            action,
            mm,
            Optional.of("lot " + findingRows),
            Map.of(),
            new RowRef("findings.csv", findingRows));
    Opening o = lastOpening();
    List<Finding> findings = new ArrayList<>(o.findings());
    findings.add(finding);
    replaceLast(withKit(o, o.kit(), findings));
    return this;
  }

  private Opening lastOpening() {
    return openings.get(openings.size() - 1);
  }

  private void replaceLast(Opening opening) {
    openings.set(openings.size() - 1, opening);
  }

  private static Opening withKit(Opening o, Optional<String> kit, List<Finding> findings) {
    return new Opening(
        o.rebuild(),
        o.pump(),
        o.date(),
        o.meterHours(),
        o.trigger(),
        o.crew(),
        kit,
        o.downtimeHours(),
        o.cost(),
        o.endClearanceMm(),
        o.note(),
        o.covariates(),
        findings,
        o.row());
  }

  PumpHistory history() {
    Pump pump =
        new Pump(
            "P1",
            "North",
            Optional.of("M80"),
            commissioned,
            recordsFrom,
            hoursPerWeek,
            retired,
            Map.of("bay", "7"),
            new RowRef("pumps.csv", 2));
    return new PumpHistory(pump, services, readings, openings);
  }

  RunningHours runningHours() {
    return RunningHours.of(history(), day(END));
  }

  Fleet fleet() {
    return new Fleet(settings(clock, Set.of()), List.of(history()));
  }

  Lives lives() {
    return LifeBuilder.build(fleet());
  }

  /** Two seals and two bearings that announce their failure, a vane set that does not. */
  static FleetSettings settings(Clock clock, Set<Trigger> sealTriggers) {
    List<Component> components =
        List.of(
            new Component(
                "seal",
                List.of("seal-inboard", "seal-outboard"),
                true,
                OptionalDouble.empty(),
                sealTriggers),
            new Component(
                "bearing",
                List.of("bearing-inboard", "bearing-outboard"),
                true,
                OptionalDouble.empty(),
                Set.of()),
            new Component("vanes", List.of("vane-set"), false, OptionalDouble.of(1.5), Set.of()));
    List<Kit> kits =
        List.of(
            new Kit("K-SEAL", List.of(), Map.of("seal", 1, "head-o-ring", 1), 100, 10),
            new Kit("K-FULL", List.of(), Map.of("Seal", 1, "bearing", 2, "vane", 6), 400, 10));
    return new FleetSettings(
        "Made up",
        "EUR",
        day(END),
        clock,
        components,
        kits,
        List.of(),
        Map.of(),
        new FleetSettings.Costs(
            new FleetSettings.OpeningCost(0, 0, 0), new HashMap<>(), new HashMap<>()),
        new FleetSettings.Limits(OptionalInt.empty(), Map.of()),
        new FleetSettings.Workshop(OptionalInt.empty(), 0, List.of()),
        FleetSettings.Stock.usual());
  }
}

package org.vaneward.plan;

import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.Set;
import org.vaneward.fleet.FleetSettings;
import org.vaneward.fleet.FleetSettings.Clock;
import org.vaneward.fleet.FleetSettings.ClosedPeriod;
import org.vaneward.fleet.FleetSettings.Component;
import org.vaneward.fleet.FleetSettings.Costs;
import org.vaneward.fleet.FleetSettings.Kit;
import org.vaneward.fleet.FleetSettings.Limits;
import org.vaneward.fleet.FleetSettings.LoosePart;
import org.vaneward.fleet.FleetSettings.OpeningCost;
import org.vaneward.fleet.FleetSettings.Workshop;
import org.vaneward.fleet.Service;
import org.vaneward.model.LifeDraws;
import org.vaneward.model.LifeModel;
import org.vaneward.policy.LifeLookup;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.distribution.Weibull;

/** A small fleet to plan: two seals and a bearing that stop the pump, a vane set that does not. */
final class Fleets {
  static final LocalDate AS_OF = LocalDate.of(2026, 6, 30);
  static final Service PETROL = new Service("petrol", "loading");
  static final Limits NO_LIMITS = new Limits(OptionalInt.empty(), Map.of());
  static final Workshop TWO_A_WEEK = new Workshop(OptionalInt.of(2), 0, List.of());

  private Fleets() {}

  static FleetSettings settings(Limits limits, Workshop workshop) {
    return settings(Clock.HOURS, limits, workshop);
  }

  static FleetSettings settings(Clock clock, Limits limits, Workshop workshop) {
    return new FleetSettings(
        "Depot",
        "EUR",
        AS_OF,
        clock,
        List.of(
            component("seal", true, "seal-inboard", "seal-outboard"),
            component("bearing", true, "bearing-inboard"),
            component("vanes", false, "vane-set")),
        List.<Kit>of(),
        List.of(new LoosePart("seal", 100, 5)),
        Map.of("seal", 2),
        new Costs(
            new OpeningCost(1000, 800, 0),
            Map.of(
                "seal", new OpeningCost(2000, 6000, 1800),
                "bearing", new OpeningCost(2500, 6000, 0)),
            Map.of("vanes", 0.2)),
        limits,
        workshop,
        FleetSettings.Stock.usual());
  }

  static Limits months(int months) {
    return new Limits(OptionalInt.of(months), Map.of());
  }

  static Workshop workshop(int perWeek, ClosedPeriod... closed) {
    return new Workshop(OptionalInt.of(perWeek), 0, List.of(closed));
  }

  /** Lives that wear out. */
  static LifeLookup wearing() {
    return lives(2.5, 3.0);
  }

  static LifeLookup lives(double sealShape, double bearingShape) {
    return (component, service) ->
        Optional.of(
            switch (component) {
              case "seal" -> life(component, service, new Weibull(sealShape, 9000));
              case "bearing" -> life(component, service, new Weibull(bearingShape, 20000));
              default -> life(component, service, new Weibull(3, 30000));
            });
  }

  private static LifeModel life(String component, Optional<Service> service, Weibull weibull) {
    return new LifeModel(
        component,
        service,
        weibull,
        new Estimate(weibull.shape(), weibull.shape(), weibull.shape()),
        new Estimate(weibull.scale(), weibull.scale(), weibull.scale()),
        LifeModel.Basis.OWN_FAILURES,
        0,
        40,
        12,
        LifeDraws.certain(weibull));
  }

  private static Component component(String name, boolean announces, String... positions) {
    return new Component(name, List.of(positions), announces, OptionalDouble.empty(), Set.of());
  }

  /** A pump rebuilt so many hours ago at 50 hours a week, its outboard seal at another age. */
  static PumpNow pump(String name, double hours, double outboardSeal) {
    return new PumpNow(
        name,
        "North",
        Optional.of("VP-2"),
        Optional.of(PETROL),
        OptionalDouble.of(50),
        Optional.empty(),
        Optional.of(AS_OF.minusDays(Math.round(hours / 50 * 7))),
        Optional.of(AS_OF.minusYears(8)),
        OptionalDouble.of(hours),
        List.of(
            part("seal-inboard", "seal", hours),
            part("seal-outboard", "seal", outboardSeal),
            part("bearing-inboard", "bearing", hours),
            part("vane-set", "vanes", hours)));
  }

  static PumpNow pump(String name, double hours) {
    return pump(name, hours, hours);
  }

  static PartNow part(String position, String component, double age) {
    return new PartNow(position, component, OptionalDouble.of(age));
  }

  static PumpNow withUsage(PumpNow p, OptionalDouble perWeek) {
    return new PumpNow(
        p.pump(),
        p.site(),
        p.model(),
        p.service(),
        perWeek,
        Optional.empty(),
        p.lastRebuild(),
        p.inServiceSince(),
        p.hoursSinceRebuild(),
        p.parts());
  }

  /** Nothing known of when its parts were fitted. */
  static PumpNow unknownAges(PumpNow p, Optional<LocalDate> since) {
    return new PumpNow(
        p.pump(),
        p.site(),
        p.model(),
        p.service(),
        p.hoursPerWeek(),
        p.usage(),
        Optional.empty(),
        since,
        OptionalDouble.empty(),
        p.parts().stream()
            .map(x -> new PartNow(x.position(), x.component(), OptionalDouble.empty()))
            .toList());
  }
}

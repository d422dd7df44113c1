package org.vaneward.spares;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.Set;
import java.util.SplittableRandom;
import org.vaneward.fleet.FleetSettings;
import org.vaneward.fleet.FleetSettings.Component;
import org.vaneward.fleet.FleetSettings.OpeningCost;
import org.vaneward.fleet.Service;
import org.vaneward.life.UsageRate;
import org.vaneward.model.LifeDraws;
import org.vaneward.model.LifeModel;
import org.vaneward.plan.Calendar;
import org.vaneward.plan.IntervalAfter;
import org.vaneward.plan.NextRebuild;
import org.vaneward.plan.PartNow;
import org.vaneward.plan.Plan;
import org.vaneward.plan.PumpNow;
import org.vaneward.plan.PumpPlan;
import org.vaneward.policy.Bound;
import org.vaneward.policy.LifeLookup;
import org.vaneward.stats.Estimate;

/** Fleets made to measure: two seals, two bearings and a vane set in every pump. */
public final class MadeFleet {
  public static final LocalDate AS_OF = LocalDate.of(2026, 6, 30);
  static final List<String> PRODUCTS = List.of("petrol", "diesel", "heating oil");

  final List<PumpNow> pumps = new ArrayList<>();
  final List<PumpPlan> plans = new ArrayList<>();
  FleetSettings.Stock stock = FleetSettings.Stock.usual();
  OptionalInt months = OptionalInt.empty();

  /** Spread of usage between quarters as a share of it; 0 for a usage that is known. */
  double usageSpread = 0.1;

  List<FleetSettings.Kit> kits =
      List.of(
          new FleetSettings.Kit(
              "K-1",
              List.of(),
              Map.of("seal", 1, "bearing", 1, "vane", 6, "head-o-ring", 3),
              450,
              35));

  /** Whether due days are booked in the calendar. */
  boolean booked;

  /** Last day any limit allows the next rebuild. */
  OptionalInt latestDay = OptionalInt.empty();

  /** The longest interval the ceilings on failure allow. */
  OptionalDouble mostInterval = OptionalDouble.empty();

  private final SplittableRandom random;

  public MadeFleet(long seed) {
    random = new SplittableRandom(seed);
  }

  /** A fleet of like pumps at sites, with ages and due days drawn. */
  public static MadeFleet drawn(int pumps, int sites, long seed) {
    MadeFleet fleet = new MadeFleet(seed);
    for (int p = 0; p < pumps; p++) {
      double age = 12_000 * fleet.random.nextDouble();
      fleet.add(
          "site " + p % sites,
          PRODUCTS.get(p % 3),
          60,
          age,
          1 + (int) ((12_000 - age) / 60 * 7),
          12_000);
    }
    return fleet;
  }

  /** A pump; a due day below 0 is none, so is an interval of infinity. */
  void add(String site, String product, double perWeek, double age, int dueDay, double interval) {
    String tag = String.format("P-%04d", pumps.size() + 1);
    List<PartNow> parts = new ArrayList<>();
    for (Component component : components()) {
      for (String position : component.positions()) {
        parts.add(new PartNow(position, component.component(), OptionalDouble.of(age)));
      }
    }
    Optional<Service> service = Optional.of(new Service(product, "loading"));
    pumps.add(
        new PumpNow(
            tag,
            site,
            Optional.of("V3"),
            service,
            OptionalDouble.of(perWeek),
            Optional.of(new UsageRate(perWeek, OptionalDouble.of(usageSpread * perWeek), 12)),
            Optional.of(AS_OF.minusDays((long) (age / perWeek * 7))),
            Optional.of(AS_OF.minusYears(10)),
            OptionalDouble.of(age),
            parts));
    plans.add(
        new PumpPlan(
            tag,
            site,
            service,
            OptionalDouble.of(age),
            OptionalDouble.of(perWeek),
            new NextRebuild(
                dueDay < 0 ? Optional.empty() : Optional.of(AS_OF.plusDays(dueDay)),
                Optional.empty(),
                Optional.empty()),
            Optional.empty(),
            new IntervalAfter(
                interval < Double.POSITIVE_INFINITY
                    ? OptionalDouble.of(interval)
                    : OptionalDouble.empty(),
                mostInterval),
            Bound.COST,
            Optional.empty(),
            OptionalDouble.empty(),
            OptionalDouble.empty(),
            Optional.empty(),
            booked ? Optional.of(AS_OF.plusDays(dueDay)) : Optional.empty(),
            "",
            0,
            Optional.empty(),
            latestDay.isPresent()
                ? Optional.of(AS_OF.plusDays(latestDay.getAsInt()))
                : Optional.empty(),
            false,
            true,
            Optional.empty(),
            List.of(),
            List.of()));
  }

  private static List<Component> components() {
    return List.of(
        component("seal", true, "seal-inboard", "seal-outboard"),
        component("bearing", true, "bearing-inboard", "bearing-outboard"),
        component("vanes", false, "vane-set"));
  }

  private static Component component(String name, boolean announces, String... positions) {
    return new Component(name, List.of(positions), announces, OptionalDouble.empty(), Set.of());
  }

  FleetSettings settings() {
    return new FleetSettings(
        "Made up",
        "EUR",
        AS_OF,
        FleetSettings.Clock.HOURS,
        components(),
        kits,
        List.of(
            new FleetSettings.LoosePart("seal", 270, 21),
            new FleetSettings.LoosePart("bearing", 85, 10),
            new FleetSettings.LoosePart("vane", 24, 21),
            new FleetSettings.LoosePart("head-o-ring", 9, 7),
            new FleetSettings.LoosePart("cover-gasket", 12, 7)),
        Map.of("seal", 2, "bearing", 2, "vane", 6, "head-o-ring", 2, "cover-gasket", 2),
        new FleetSettings.Costs(
            new OpeningCost(640, 300, 0),
            Map.of(
                "seal", new OpeningCost(760, 1840, 2600),
                "bearing", new OpeningCost(980, 2600, 300)),
            Map.of()),
        new FleetSettings.Limits(months, Map.of()),
        new FleetSettings.Workshop(OptionalInt.empty(), 450, List.of()),
        stock);
  }

  /** Lives by component, the same in every service. */
  static LifeLookup lives(Map<String, LifeDraws> draws) {
    Map<String, Map<Optional<Service>, LifeModel>> made = new HashMap<>();
    return (component, service) ->
        Optional.ofNullable(draws.get(component))
            .map(
                d ->
                    made.computeIfAbsent(component, c -> new HashMap<>())
                        .computeIfAbsent(service, s -> model(component, s, d)));
  }

  private static LifeModel model(String component, Optional<Service> service, LifeDraws draws) {
    Estimate any = new Estimate(1, 1, 1);
    return new LifeModel(
        component,
        service,
        draws.middle(),
        any,
        any,
        LifeModel.Basis.OWN_FAILURES,
        0,
        40,
        12,
        draws);
  }

  /** A thousand draws about usual lives. */
  public static LifeLookup usualLives(long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    return lives(
        Map.of(
            "seal", draws(1.8, 16_000, random),
            "bearing", draws(2.4, 30_000, random),
            "vanes", draws(3, 26_000, random)));
  }

  static LifeDraws draws(double shape, double scale, SplittableRandom random) {
    double[] shapes = new double[1000];
    double[] scales = new double[1000];
    for (int i = 0; i < 1000; i++) {
      shapes[i] = shape * Math.exp(0.15 * random.nextGaussian());
      scales[i] = scale * Math.exp(0.12 * random.nextGaussian());
    }
    return LifeDraws.of(shapes, scales);
  }

  Plan plan() {
    return new Plan(
        plans,
        new Calendar(
            List.of(),
            Set.of(),
            List.of(),
            List.of(),
            List.of(),
            new Calendar.Balance(true, 0, 0, 0, 0, 0),
            List.of()));
  }

  public FleetAhead ahead(LifeLookup lives, int horizonMonths) {
    return FleetAhead.of(settings(), pumps, plan(), lives, horizonMonths);
  }
}

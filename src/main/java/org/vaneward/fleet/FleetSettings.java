package org.vaneward.fleet;

import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.Set;
import java.util.stream.Stream;

/**
 * What {@code fleet.json} says: the fleet's name and day of record, its components and their
 * positions, kits, prices, costs, limits and workshop.
 *
 * @param fleet name of the fleet
 * @param currency ISO 4217 code
 * @param asOf last day the records speak of
 * @param clock what ages are counted in
 * @param components the components that have lives
 * @param kits kits as sold
 * @param parts loose parts
 * @param needs parts one full rebuild consumes, by part name
 * @param costs cost of planned and unplanned openings
 * @param limits limits no plan may exceed
 * @param workshop what the workshop can do
 * @param stock how the shelf is kept
 */
public record FleetSettings(
    String fleet,
    String currency,
    LocalDate asOf,
    Clock clock,
    List<Component> components,
    List<Kit> kits,
    List<LoosePart> parts,
    Map<String, Integer> needs,
    Costs costs,
    Limits limits,
    Workshop workshop,
    Stock stock) {

  public FleetSettings {
    components = List.copyOf(components);
    kits = List.copyOf(kits);
    parts = List.copyOf(parts);
    needs = Map.copyOf(needs);
  }

  /** The same fleet on another day. */
  public FleetSettings withAsOf(LocalDate day) {
    return new FleetSettings(
        fleet,
        currency,
        day,
        clock,
        components,
        kits,
        parts,
        needs,
        costs,
        limits,
        workshop,
        stock);
  }

  /** The same fleet with other costs. */
  public FleetSettings withCosts(Costs other) {
    return new FleetSettings(
        fleet,
        currency,
        asOf,
        clock,
        components,
        kits,
        parts,
        needs,
        other,
        limits,
        workshop,
        stock);
  }

  /** The same fleet with other limits. */
  public FleetSettings withLimits(Limits other) {
    return new FleetSettings(
        fleet,
        currency,
        asOf,
        clock,
        components,
        kits,
        parts,
        needs,
        costs,
        other,
        workshop,
        stock);
  }

  /** The component that owns {@code position}; empty when none does. */
  public Optional<Component> componentAt(String position) {
    return components.stream().filter(c -> c.positions().contains(position)).findFirst();
  }

  /** What ages are counted in. */
  public enum Clock {
    HOURS,
    DAYS
  }

  /**
   * A kind of part that has a life.
   *
   * @param component its name, such as {@code seal}
   * @param positions where it sits, such as {@code seal-inboard}
   * @param announces whether a failed one stops the pump by itself
   * @param wearLimitMm measured wear at which it counts as failed
   * @param triggers triggers of an opening that point at this component
   * @param part what its part is called in {@code needs}, kits and loose parts; empty when that is
   *     its own name, or its own name without the s at its end
   */
  public record Component(
      String component,
      List<String> positions,
      boolean announces,
      OptionalDouble wearLimitMm,
      Set<Trigger> triggers,
      Optional<String> part) {
    public Component {
      positions = List.copyOf(positions);
      triggers = Set.copyOf(triggers);
    }

    /** A component whose part goes by its name. */
    public Component(
        String component,
        List<String> positions,
        boolean announces,
        OptionalDouble wearLimitMm,
        Set<Trigger> triggers) {
      this(component, positions, announces, wearLimitMm, triggers, Optional.empty());
    }

    /** The name of its part among {@code parts}; empty when none of them is its part. */
    public Optional<String> partAmong(Set<String> parts) {
      if (part.isPresent()) {
        return part.filter(parts::contains);
      }
      return Stream.of(component, component.replaceFirst("s$", ""))
          .filter(parts::contains)
          .findFirst();
    }
  }

  /**
   * A kit as sold.
   *
   * @param kit kit number
   * @param models pump models it fits; empty when it fits all
   * @param contents parts by name
   * @param price in the fleet's currency
   * @param leadTimeDays days from order to shelf
   */
  public record Kit(
      String kit,
      List<String> models,
      Map<String, Integer> contents,
      double price,
      int leadTimeDays) {
    public Kit {
      models = List.copyOf(models);
      contents = Map.copyOf(contents);
    }
  }

  /**
   * A part sold singly.
   *
   * @param part name, as {@code needs} and kits use it
   * @param price in the fleet's currency
   * @param leadTimeDays days from order to shelf
   */
  public record LoosePart(String part, double price, int leadTimeDays) {}

  /**
   * Cost of openings, parts excluded: those are priced from {@code needs}, kits and loose parts. A
   * cost that is not stated is not free: its component is absent, and when no cost is stated at all
   * {@code planned} is 0 and both maps are empty. Whoever needs a component's cost has to refuse
   * when it is absent.
   *
   * @param planned a planned rebuild
   * @param unplanned an unplanned stop, by the component that caused it
   * @param hiddenPerHour cost of each hour run on an unseen failure, by component
   */
  public record Costs(
      OpeningCost planned, Map<String, OpeningCost> unplanned, Map<String, Double> hiddenPerHour) {
    public Costs {
      unplanned = Map.copyOf(unplanned);
      hiddenPerHour = Map.copyOf(hiddenPerHour);
    }
  }

  /**
   * Cost of one opening in the fleet's currency, parts excluded.
   *
   * @param labour work on the pump
   * @param downtime the pump standing
   * @param cleanUp spill, waste and reporting
   */
  public record OpeningCost(double labour, double downtime, double cleanUp) {
    /** Labour, downtime and clean-up together. */
    public double total() {
      return labour + downtime + cleanUp;
    }
  }

  /**
   * Limits that no plan may exceed.
   *
   * @param maxIntervalMonths longest time allowed between rebuilds, months
   * @param maxFailureProbability highest chance allowed that a component fails before the planned
   *     rebuild, by component
   */
  public record Limits(OptionalInt maxIntervalMonths, Map<String, Double> maxFailureProbability) {
    private static final double DAYS_PER_MONTH = 365.25 / 12;

    public Limits {
      maxFailureProbability = Map.copyOf(maxFailureProbability);
    }

    /** The longest time allowed between rebuilds, whole days; infinite without one. */
    public double maxIntervalDays() {
      return maxIntervalMonths.isPresent()
          ? Math.floor(maxIntervalMonths.getAsInt() * DAYS_PER_MONTH)
          : Double.POSITIVE_INFINITY;
    }
  }

  /**
   * What the workshop can do.
   *
   * @param rebuildsPerWeek capacity; empty when unlimited
   * @param siteVisitCost cost of going to a site
   * @param closed periods without work
   */
  public record Workshop(
      OptionalInt rebuildsPerWeek, double siteVisitCost, List<ClosedPeriod> closed) {
    public Workshop {
      closed = List.copyOf(closed);
    }
  }

  /**
   * How the shelf is kept.
   *
   * @param serviceLevel chance wanted that the shelf lasts until what is ordered arrives, above 0
   *     and below 1
   * @param reviewDays days from one look at the shelf to the next, at least 0
   * @param holdingPerYear cost of holding stock for a year as a share of its price; empty when not
   *     stated
   * @param waitingPerDay cost of each day one kit or part is waited for; empty when not stated
   */
  public record Stock(
      double serviceLevel,
      int reviewDays,
      OptionalDouble holdingPerYear,
      OptionalDouble waitingPerDay) {
    /** Service level unless one is stated. */
    public static final double SERVICE_LEVEL = 0.95;

    /** Days between looks at the shelf unless they are stated. */
    public static final int REVIEW_DAYS = 30;

    /** Nothing stated. */
    public static Stock usual() {
      return new Stock(SERVICE_LEVEL, REVIEW_DAYS, OptionalDouble.empty(), OptionalDouble.empty());
    }
  }

  /** A period without work, both days included. */
  public record ClosedPeriod(LocalDate from, LocalDate to) {}
}

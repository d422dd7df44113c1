package org.vaneward.sample;

import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.vaneward.fleet.FleetSettings.Clock;
import org.vaneward.fleet.Trigger;

/**
 * {@code fleet.json} as the record format has it. The nested types serve scenarios too, which state
 * kits, prices, costs, limits and workshop in the same words.
 *
 * @param fleet name of the fleet
 * @param currency ISO 4217 code
 * @param asOf last day the records speak of
 * @param clock what ages are counted in
 * @param components the components that have lives
 * @param kits kits as sold
 * @param parts loose parts
 * @param needs parts one full rebuild consumes, by part
 * @param costs cost of openings, parts excluded
 * @param limits limits no plan may exceed
 * @param workshop what the workshop can do
 * @param stock how the shelf is kept
 */
public record FleetFile(
    String fleet,
    String currency,
    LocalDate asOf,
    Clock clock,
    List<PartKind> components,
    List<Kit> kits,
    List<LoosePart> parts,
    Map<String, Integer> needs,
    Costs costs,
    Limits limits,
    Workshop workshop,
    Optional<Stock> stock) {
  public FleetFile {
    components = List.copyOf(components);
    kits = List.copyOf(kits);
    parts = List.copyOf(parts);
    needs = Map.copyOf(needs);
  }

  /** A component: its positions, and whether a failed one stops the pump by itself. */
  public record PartKind(
      String component,
      List<String> positions,
      boolean announces,
      OptionalDouble wearLimitMm,
      Optional<List<Trigger>> triggers) {
    public PartKind {
      positions = List.copyOf(positions);
      triggers = triggers.map(List::copyOf);
    }
  }

  /** A kit as sold. */
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

  /** A part sold singly. */
  public record LoosePart(String part, double price, int leadTimeDays) {}

  /** Costs in the fleet's currency, parts excluded. */
  public record Costs(
      OpeningCost planned, Map<String, OpeningCost> unplanned, Map<String, HiddenCost> hidden) {
    public Costs {
      unplanned = Map.copyOf(unplanned);
      hidden = Map.copyOf(hidden);
    }
  }

  /** Cost of one opening. */
  public record OpeningCost(double labour, double downtime, OptionalDouble cleanUp) {
    double total() {
      return labour + downtime + cleanUp.orElse(0);
    }
  }

  /** Cost of each hour run on a failure nobody has seen. */
  public record HiddenCost(double perHour) {}

  /** Longest interval and highest chance of failure allowed. */
  public record Limits(OptionalInt maxIntervalMonths, Map<String, Double> maxFailureProbability) {
    public Limits {
      maxFailureProbability = Map.copyOf(maxFailureProbability);
    }
  }

  /** What the workshop can do. */
  public record Workshop(
      OptionalInt rebuildsPerWeek, double siteVisitCost, List<ClosedPeriod> closed) {
    public Workshop {
      closed = List.copyOf(closed);
    }
  }

  /** How the shelf is kept; what is not stated is not known. */
  public record Stock(
      OptionalDouble serviceLevel,
      OptionalInt reviewDays,
      OptionalDouble holdingPerYear,
      OptionalDouble waitingPerDay) {}

  /** A period without work, both days included. */
  public record ClosedPeriod(LocalDate from, LocalDate to) {}
}

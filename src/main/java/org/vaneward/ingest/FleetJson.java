package org.vaneward.ingest;

import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.vaneward.fleet.FleetSettings.Clock;
import org.vaneward.fleet.Trigger;
import org.vaneward.io.Json;

/** The document {@code fleet.json} as written; the reader of settings gives it its meaning. */
public record FleetJson(
    Optional<String> fleet,
    Optional<String> currency,
    LocalDate asOf,
    Optional<Clock> clock,
    List<ComponentJson> components,
    Optional<List<KitJson>> kits,
    Optional<List<PartJson>> parts,
    Optional<Map<String, Integer>> needs,
    Optional<CostsJson> costs,
    Optional<LimitsJson> limits,
    Optional<WorkshopJson> workshop,
    Optional<StockJson> stock,
    Optional<MappingJson> mapping) {

  /** The same document with another mapping. */
  public FleetJson with(Optional<MappingJson> other) {
    return new FleetJson(
        fleet,
        currency,
        asOf,
        clock,
        components,
        kits,
        parts,
        needs,
        costs,
        limits,
        workshop,
        stock,
        other);
  }

  /** A component and where it sits. */
  public record ComponentJson(
      String component,
      List<String> positions,
      boolean announces,
      OptionalDouble wearLimitMm,
      Optional<List<Trigger>> triggers,
      Optional<String> part) {}

  /** A kit as sold. */
  public record KitJson(
      String kit,
      Optional<List<String>> models,
      Map<String, Integer> contents,
      double price,
      int leadTimeDays) {}

  /** A part bought loose. */
  public record PartJson(String part, double price, int leadTimeDays) {}

  /** What openings and hidden failures cost. */
  public record CostsJson(
      Optional<CostJson> planned,
      Optional<Map<String, CostJson>> unplanned,
      Optional<Map<String, HiddenJson>> hidden) {}

  /** What one opening costs. */
  public record CostJson(OptionalDouble labour, OptionalDouble downtime, OptionalDouble cleanUp) {}

  /** What running on with a failure nobody sees costs. */
  public record HiddenJson(OptionalDouble perHour) {}

  /** What no interval may exceed. */
  public record LimitsJson(
      OptionalInt maxIntervalMonths, Optional<Map<String, Double>> maxFailureProbability) {}

  /** What the workshop can do. */
  public record WorkshopJson(
      OptionalInt rebuildsPerWeek,
      OptionalDouble siteVisitCost,
      Optional<List<ClosedJson>> closed) {}

  /** How stock is kept. */
  public record StockJson(
      OptionalDouble serviceLevel,
      OptionalInt reviewDays,
      OptionalDouble holdingPerYear,
      OptionalDouble waitingPerDay) {}

  /** Days on which the workshop is closed. */
  public record ClosedJson(LocalDate from, LocalDate to) {}

  /** How the tables are written; for one of them {@code tables} says what differs. */
  public record MappingJson(
      Optional<String> encoding,
      Optional<String> separator,
      Optional<String> decimal,
      Optional<String> thousands,
      Optional<List<String>> dates,
      Optional<String> language,
      Optional<List<String>> unknown,
      Optional<Map<String, TableJson>> tables,
      Optional<Map<String, String>> unsettled) {
    /** What an empty object says. */
    public static final MappingJson NOTHING = Json.read("nothing", "{}", MappingJson.class);
  }

  /** A further file, or a further sheet, of a table. */
  public record AlsoJson(Optional<String> file, Optional<String> sheet) {}

  /** How one table is written. */
  public record TableJson(
      Optional<String> file,
      Optional<String> sheet,
      Optional<List<AlsoJson>> also,
      OptionalInt headerLine,
      Optional<String> encoding,
      Optional<String> separator,
      Optional<String> decimal,
      Optional<String> thousands,
      Optional<List<String>> dates,
      Optional<String> language,
      Optional<List<String>> unknown,
      Optional<Map<String, String>> columns,
      Optional<Map<String, List<String>>> joined,
      Optional<Map<String, Map<String, String>>> words,
      Optional<Map<String, String>> units,
      Optional<Map<String, String>> always,
      Optional<Map<String, Map<String, String>>> positions) {
    /** What an empty object says. */
    public static final TableJson NOTHING = Json.read("nothing", "{}", TableJson.class);
  }
}

package org.vaneward.ingest;

import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.vaneward.fleet.FleetSettings.Clock;
import org.vaneward.fleet.Trigger;

/** The document {@code fleet.json} as written; {@link SettingsReader} gives it its meaning. */
record FleetJson(
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

  record ComponentJson(
      String component,
      List<String> positions,
      boolean announces,
      OptionalDouble wearLimitMm,
      Optional<List<Trigger>> triggers,
      Optional<String> part) {}

  record KitJson(
      String kit,
      Optional<List<String>> models,
      Map<String, Integer> contents,
      double price,
      int leadTimeDays) {}

  record PartJson(String part, double price, int leadTimeDays) {}

  record CostsJson(
      Optional<CostJson> planned,
      Optional<Map<String, CostJson>> unplanned,
      Optional<Map<String, HiddenJson>> hidden) {}

  record CostJson(OptionalDouble labour, OptionalDouble downtime, OptionalDouble cleanUp) {}

  record HiddenJson(OptionalDouble perHour) {}

  record LimitsJson(
      OptionalInt maxIntervalMonths, Optional<Map<String, Double>> maxFailureProbability) {}

  record WorkshopJson(
      OptionalInt rebuildsPerWeek,
      OptionalDouble siteVisitCost,
      Optional<List<ClosedJson>> closed) {}

  record StockJson(
      OptionalDouble serviceLevel,
      OptionalInt reviewDays,
      OptionalDouble holdingPerYear,
      OptionalDouble waitingPerDay) {}

  record ClosedJson(LocalDate from, LocalDate to) {}

  record MappingJson(
      Optional<String> encoding,
      Optional<String> separator,
      Optional<String> decimal,
      Optional<String> thousands,
      Optional<List<String>> dates,
      Optional<String> language,
      Optional<List<String>> unknown,
      Optional<Map<String, TableJson>> tables) {
    /** What an empty object says. */
    static final MappingJson NOTHING =
        new MappingJson(
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty());
  }

  record TableJson(
      Optional<String> file,
      Optional<String> sheet,
      OptionalInt headerLine,
      Optional<String> encoding,
      Optional<String> separator,
      Optional<String> decimal,
      Optional<String> thousands,
      Optional<List<String>> dates,
      Optional<String> language,
      Optional<List<String>> unknown,
      Optional<Map<String, String>> columns,
      Optional<Map<String, Map<String, String>>> words,
      Optional<Map<String, String>> units,
      Optional<Map<String, String>> always,
      Optional<Map<String, Map<String, String>>> positions) {}
}

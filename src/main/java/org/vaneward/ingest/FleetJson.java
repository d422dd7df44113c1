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
    Optional<Map<String, Object>> mapping) {

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
}

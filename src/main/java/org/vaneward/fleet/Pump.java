package org.vaneward.fleet;

import java.time.LocalDate;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * One pump of the fleet.
 *
 * @param pump asset tag, unique in the fleet
 * @param site where it stands
 * @param model size or model label
 * @param commissioned first day in service
 * @param recordsFrom every opening since this day is on record; empty when that is the day of
 *     commissioning
 * @param hoursPerWeek stated running hours a week
 * @param retired day it left service
 * @param covariates columns the contract does not name, by header
 * @param row where it stands in the records
 */
public record Pump(
    String pump,
    String site,
    Optional<String> model,
    Optional<LocalDate> commissioned,
    Optional<LocalDate> recordsFrom,
    OptionalDouble hoursPerWeek,
    Optional<LocalDate> retired,
    Map<String, String> covariates,
    RowRef row) {
  public Pump {
    covariates = Map.copyOf(covariates);
  }
}

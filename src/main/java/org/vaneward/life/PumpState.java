package org.vaneward.life;

import java.time.LocalDate;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.vaneward.fleet.Service;

/**
 * A pump on the day of record, or on the day it left service if that came first.
 *
 * <p>A full rebuild is an opening that was planned, or at which every position of the pump was
 * renewed or reconditioned (by a finding, or as a kit implies). Where none is on record the pump
 * counts from commissioning or, where the records start later, from the day they start: its hours
 * since are then the least they can be.
 *
 * @param pump asset tag
 * @param site where it stands
 * @param service what it does; empty when the records do not say
 * @param conditions numeric conditions of that service by column name
 * @param retired day it left service; empty when it runs
 * @param hoursPerWeek running hours a week, stated or estimated; empty when unknown
 * @param usage the same with its spread; empty when unknown
 * @param agePerWeek what a part ages in a week in the fleet's clock: running hours, or 7 days
 * @param hours running hours since commissioning; empty when unknown
 * @param lastFullRebuild day of the last full rebuild or, where there is none, the day the count
 *     starts; empty when neither is known
 * @param ageSinceFullRebuild age since then in the fleet's clock; empty when unknown
 * @param countsFromNew whether that is counted from a full rebuild or from new
 * @param openings openings used
 * @param lastOpening day of the last of them
 */
public record PumpState(
    String pump,
    String site,
    Optional<Service> service,
    Map<String, Double> conditions,
    Optional<LocalDate> retired,
    OptionalDouble hoursPerWeek,
    Optional<UsageRate> usage,
    OptionalDouble agePerWeek,
    OptionalDouble hours,
    Optional<LocalDate> lastFullRebuild,
    OptionalDouble ageSinceFullRebuild,
    boolean countsFromNew,
    int openings,
    Optional<LocalDate> lastOpening) {
  public PumpState {
    conditions = Map.copyOf(conditions);
  }
}

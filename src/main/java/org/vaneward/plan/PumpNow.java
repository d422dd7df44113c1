package org.vaneward.plan;

import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.vaneward.fleet.Service;

/**
 * A pump in service on the day of record, as planning sees it. Retired pumps are not given.
 *
 * @param pump asset tag
 * @param site where it stands
 * @param model model label, which picks the kit
 * @param service what it does now
 * @param hoursPerWeek running hours a week; empty when not known
 * @param lastRebuild day of the last full rebuild; empty when none is on record
 * @param inServiceSince first day the records speak of the pump: commissioning, or the start of the
 *     records; empty when not known
 * @param hoursSinceRebuild running since the last full rebuild; empty when not known
 * @param parts the parts in it
 */
public record PumpNow(
    String pump,
    String site,
    Optional<String> model,
    Optional<Service> service,
    OptionalDouble hoursPerWeek,
    Optional<LocalDate> lastRebuild,
    Optional<LocalDate> inServiceSince,
    OptionalDouble hoursSinceRebuild,
    List<PartNow> parts) {
  public PumpNow {
    parts = List.copyOf(parts);
  }
}

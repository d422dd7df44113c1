package org.vaneward.plan;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Stream;
import org.vaneward.fleet.Fleet;
import org.vaneward.fleet.Pump;
import org.vaneward.fleet.Service;
import org.vaneward.life.InstalledPart;
import org.vaneward.life.Lives;
import org.vaneward.life.PumpState;
import org.vaneward.life.UsageRate;

/**
 * A pump in service on the day of record, as planning sees it. Retired pumps are not given.
 *
 * @param pump asset tag
 * @param site where it stands
 * @param model model label, which picks the kit
 * @param service what it does now
 * @param hoursPerWeek running hours a week; empty when not known
 * @param usage the same with its spread; empty when not known
 * @param lastRebuild day of the last full rebuild; empty when none is on record
 * @param inServiceSince first day the records speak of the pump: commissioning, or the start of the
 *     records; empty when not known
 * @param hoursSinceRebuild running since the last full rebuild, since the records speak of the pump
 *     when none is on record; empty when not known
 * @param parts the parts in it
 */
public record PumpNow(
    String pump,
    String site,
    Optional<String> model,
    Optional<Service> service,
    OptionalDouble hoursPerWeek,
    Optional<UsageRate> usage,
    Optional<LocalDate> lastRebuild,
    Optional<LocalDate> inServiceSince,
    OptionalDouble hoursSinceRebuild,
    List<PartNow> parts) {
  public PumpNow {
    parts = List.copyOf(parts);
  }

  /** The pumps in service on the day of record, from the fleet and the lives built from it. */
  public static List<PumpNow> of(Fleet fleet, Lives lives) {
    Map<String, List<PartNow>> parts = new HashMap<>();
    for (InstalledPart part : lives.parts()) {
      parts
          .computeIfAbsent(part.pump(), p -> new ArrayList<>())
          .add(new PartNow(part.position(), part.component(), part.age()));
    }
    Map<String, Pump> pumps = new HashMap<>();
    fleet.pumps().forEach(history -> pumps.put(history.pump().pump(), history.pump()));
    return lives.pumps().stream()
        .filter(state -> state.retired().isEmpty())
        .flatMap(
            state ->
                Optional.ofNullable(pumps.get(state.pump())).stream()
                    .map(pump -> of(pump, state, parts.getOrDefault(state.pump(), List.of()))))
        .toList();
  }

  private static PumpNow of(Pump pump, PumpState state, List<PartNow> parts) {
    Optional<LocalDate> since = since(pump);
    // Without a rebuild on record the state counts from the day the records start.
    Optional<LocalDate> rebuilt =
        state.lastFullRebuild().filter(day -> since.filter(day::equals).isEmpty());
    return new PumpNow(
        pump.pump(),
        pump.site(),
        pump.model(),
        state.service(),
        state.hoursPerWeek(),
        state.usage(),
        rebuilt,
        since,
        state.ageSinceFullRebuild(),
        parts);
  }

  /** The same pump with another usage. */
  PumpNow withUsage(OptionalDouble perWeek, Optional<UsageRate> rate) {
    return new PumpNow(
        pump,
        site,
        model,
        service,
        perWeek,
        rate,
        lastRebuild,
        inServiceSince,
        hoursSinceRebuild,
        parts);
  }

  /** The later of commissioning and the start of the records. */
  private static Optional<LocalDate> since(Pump pump) {
    return Stream.concat(pump.commissioned().stream(), pump.recordsFrom().stream())
        .max(Comparator.naturalOrder());
  }
}

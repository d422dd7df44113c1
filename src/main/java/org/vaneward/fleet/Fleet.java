package org.vaneward.fleet;

import java.util.List;

/**
 * A fleet and its records.
 *
 * @param settings what {@code fleet.json} says
 * @param pumps one history for each pump, in the order of {@code pumps.csv}
 */
public record Fleet(FleetSettings settings, List<PumpHistory> pumps) {
  public Fleet {
    pumps = List.copyOf(pumps);
  }
}

package org.vaneward.fleet;

import java.util.List;

/**
 * Everything on record about one pump, each list in order of date.
 *
 * @param pump the pump
 * @param services what it handled, and since when
 * @param readings its hour-meter readings
 * @param openings the times it was opened
 */
public record PumpHistory(
    Pump pump, List<ServicePeriod> services, List<MeterReading> readings, List<Opening> openings) {
  public PumpHistory {
    services = List.copyOf(services);
    readings = List.copyOf(readings);
    openings = List.copyOf(openings);
  }
}

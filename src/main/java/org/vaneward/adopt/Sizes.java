package org.vaneward.adopt;

import java.util.Optional;
import org.vaneward.ingest.Unit;

/**
 * Sizes that measurements of a sliding-vane pump usually have, and the unit that a number far
 * beyond them is likelier in (common practice, no source).
 */
final class Sizes {
  /** A clearance is a few thousandths of an inch at each end. */
  private static final double CLEARANCE_MM = 1;

  private static final double CLEARANCE_THOUSANDTHS = 40;

  /** Wear of a vane is a few millimetres at most. */
  private static final double WEAR_MM = 20;

  private static final double WEAR_THOUSANDTHS = 400;

  /** Differential pressures of transfer pumps. */
  private static final double PRESSURE_BAR = 17;

  private static final double PRESSURE_PSI = 250;
  private static final double TEMPERATURE_CELSIUS = 60;
  private static final double TEMPERATURE_FAHRENHEIT = 200;

  /** Hours of a week. */
  private static final double HOURS_OF_A_WEEK = 168;

  private Sizes() {}

  /** The unit a column is likelier in whose middle number is {@code median}; empty for its own. */
  static Optional<Unit> likelier(String column, double median) {
    return switch (column) {
      case "end_clearance_mm" ->
          beyond(median, CLEARANCE_MM, Unit.THOUSANDTHS, CLEARANCE_THOUSANDTHS, Unit.MICROMETRES);
      case "measured_mm" ->
          beyond(median, WEAR_MM, Unit.THOUSANDTHS, WEAR_THOUSANDTHS, Unit.MICROMETRES);
      case "pressure_bar" -> beyond(median, PRESSURE_BAR, Unit.PSI, PRESSURE_PSI, Unit.KPA);
      case "temperature_c" ->
          beyond(median, TEMPERATURE_CELSIUS, Unit.FAHRENHEIT, TEMPERATURE_FAHRENHEIT, Unit.KELVIN);
      case "hours_per_week" ->
          median > HOURS_OF_A_WEEK ? Optional.of(Unit.MINUTES) : Optional.empty();
      default -> Optional.empty();
    };
  }

  private static Optional<Unit> beyond(
      double value, double usual, Unit other, double most, Unit third) {
    if (!(value > usual)) {
      return Optional.empty();
    }
    return Optional.of(value > most ? third : other);
  }
}

package org.vaneward.adopt;

import java.util.Optional;

/** What the cells of a column are. */
enum Kind {
  DAY("days"),
  NUMBER("numbers"),
  WORDS("words known for it"),
  POSITION("positions of the pump"),
  /** A name or a number by which something is called. */
  NAME(""),
  TEXT("");

  private final String what;

  Kind(String what) {
    this.what = what;
  }

  /** What its cells are, where that can be told. */
  Optional<String> what() {
    return what.isEmpty() ? Optional.empty() : Optional.of(what);
  }

  /** The kind of a column of the record format. */
  static Kind of(String column) {
    return switch (column) {
      case "commissioned", "records_from", "retired", "from", "date" -> DAY;
      case "hours_per_week",
          "pressure_bar",
          "speed_rpm",
          "temperature_c",
          "viscosity_cst",
          "starts_per_day",
          "hours",
          "old_hours",
          "downtime_hours",
          "cost",
          "end_clearance_mm",
          "measured_mm" ->
          NUMBER;
      case "trigger", "as_found", "action", "primary", "event" -> WORDS;
      case "position" -> POSITION;
      case "pump", "rebuild", "site", "model", "product", "duty", "crew", "kit", "lot" -> NAME;
      default -> TEXT;
    };
  }
}

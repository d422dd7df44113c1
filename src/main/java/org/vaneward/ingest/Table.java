package org.vaneward.ingest;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.vaneward.fleet.Effect;

/** The five tables of a fleet folder and their columns. */
@SuppressWarnings("ImmutableEnumChecker") // both collections are unmodifiable copies
public enum Table {
  PUMPS(
      "pumps",
      "one row for each pump",
      List.of("pump", "site"),
      List.of("model", "commissioned", "records_from", "hours_per_week", "retired")),
  SERVICES(
      "services",
      "one row for each pump and service, and since when",
      List.of("pump", "from", "product", "duty"),
      List.of("pressure_bar", "speed_rpm", "temperature_c", "viscosity_cst", "starts_per_day")),
  READINGS(
      "readings",
      "one row for each reading of an hour meter",
      List.of("pump", "date", "hours"),
      List.of("event", "old_hours")),
  REBUILDS(
      "rebuilds",
      "one row each time a pump is opened",
      List.of("rebuild", "pump", "date", "trigger"),
      List.of("hours", "crew", "kit", "downtime_hours", "cost", "end_clearance_mm", "note")),
  FINDINGS(
      "findings",
      "one row for each position looked at",
      List.of("rebuild", "position", "as_found", "action"),
      List.of("primary", "mode", "cause", "measured_mm", "lot"));

  /** The workbook whose sheets are found by the titles of the tables. */
  public static final String WORKBOOK = "fleet.xlsx";

  private static final List<String> ENDINGS = List.of(".csv", ".csv.gz", ".jsonl", ".jsonl.gz");

  private final String title;
  private final String meaning;
  private final List<String> required;
  private final Set<String> named;

  Table(String title, String meaning, List<String> required, List<String> optional) {
    this.title = title;
    this.meaning = meaning;
    this.required = List.copyOf(required);
    List<String> all = new ArrayList<>(required);
    all.addAll(optional);
    this.named = Set.copyOf(all);
  }

  /** Name without the ending of a file, such as {@code pumps}. */
  public String title() {
    return title;
  }

  /** The files in which it is found without being told. */
  public List<String> files() {
    return ENDINGS.stream().map(ending -> title + ending).toList();
  }

  /** What the table holds, for messages. */
  public String meaning() {
    return meaning;
  }

  /** Columns that must be there. */
  public List<String> required() {
    return required;
  }

  /** All columns the contract names. */
  public Set<String> columns() {
    return named;
  }

  /** What is lost with a row that is set aside. */
  Effect lost() {
    return switch (this) {
      case PUMPS -> Effect.PUMP_LOST;
      case SERVICES -> Effect.SERVICE_LOST;
      case READINGS -> Effect.READING_LOST;
      case REBUILDS -> Effect.OPENING_LOST;
      case FINDINGS -> Effect.FINDING_LOST;
    };
  }

  /** What it changes that a cell is taken as unknown. */
  Effect unknown(String column) {
    return switch (column) {
      case "commissioned", "records_from" -> Effect.AGE_LOST;
      case "retired" -> Effect.STILL_RUNNING;
      case "hours_per_week", "old_hours" -> Effect.USAGE_ESTIMATED;
      case "hours" -> this == REBUILDS ? Effect.AGE_ESTIMATED : Effect.USAGE_ESTIMATED;
      case "primary" -> Effect.FAILURE_BETWEEN_LOOKS;
      case "measured_mm" -> Effect.WEAR_UNSURE;
      default -> Effect.VALUE_LOST;
    };
  }

  /** What a column measures; empty where it is no measurement with a choice of units. */
  public static Optional<Unit.Quantity> quantity(String column) {
    return switch (column) {
      case "hours", "old_hours", "downtime_hours", "hours_per_week" ->
          Optional.of(Unit.Quantity.TIME);
      case "end_clearance_mm", "measured_mm" -> Optional.of(Unit.Quantity.LENGTH);
      case "pressure_bar" -> Optional.of(Unit.Quantity.PRESSURE);
      case "temperature_c" -> Optional.of(Unit.Quantity.TEMPERATURE);
      default -> Optional.empty();
    };
  }

  /** The table of that title. */
  public static Optional<Table> titled(String title) {
    return Arrays.stream(values()).filter(table -> table.title.equals(title)).findFirst();
  }

  /** Whether the contract names this column; any other is a covariate. */
  public boolean names(String column) {
    return named.contains(column);
  }
}

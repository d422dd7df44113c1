package org.vaneward.review;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.vaneward.io.BadInputException;
import org.vaneward.io.Cell;
import org.vaneward.io.CsvTable;
import org.vaneward.io.Numbers;
import org.vaneward.io.TableRow;

/**
 * Reads a table of recurring events: {@code unit}, {@code age} and {@code event}, which is 1 at
 * each event and 0 once for each unit, where its observation ends. A column {@code start} may hold
 * the age from which a unit was watched; blank is 0.
 */
final class EventTable {
  private static final List<String> REQUIRED = List.of("unit", "age", "event");

  private final String name;
  private final Optional<String> by;
  private final Map<String, Unit> units = new LinkedHashMap<>();

  private EventTable(String name, Optional<String> by) {
    this.name = name;
    this.by = by;
  }

  /** The rows of one unit while they are read. */
  private static final class Unit {
    private final String group;
    private final double start;
    private final long line;
    private final List<Double> ages = new ArrayList<>();
    private OptionalDouble end = OptionalDouble.empty();

    Unit(String group, double start, long line) {
      this.group = group;
      this.start = start;
      this.line = line;
    }
  }

  /**
   * The histories in a file, in order of the units' first rows.
   *
   * @param by column that names each unit's group
   * @throws BadInputException when the file cannot be read, lacks a column, or a row or a unit
   *     makes no history
   */
  static List<UnitHistory> read(Path file, Optional<String> by) {
    String name = file.toString();
    List<String> required = new ArrayList<>(REQUIRED);
    by.ifPresent(required::add);
    try (CsvTable csv = CsvTable.open(file, name, required)) {
      EventTable table = new EventTable(name, by);
      for (Optional<TableRow> row = csv.next(); row.isPresent(); row = csv.next()) {
        table.add(row.get());
      }
      return table.histories();
    }
  }

  private void add(TableRow row) {
    if (row.problem().isPresent()) {
      throw bad(row.line(), row.problem().get());
    }
    String id = row.cell("unit").strip();
    if (id.isEmpty()) {
      throw bad(row.line(), "column 'unit' is blank; it names the unit");
    }
    double age = Numbers.of(name, row, "age", Double.NaN);
    if (!(age >= 0)) {
      throw bad(row.line(), "column 'age' is blank or negative; an age of at least 0 is right");
    }
    Unit unit = unit(row, id);
    switch (row.cell("event").strip()) {
      case "1" -> event(row, id, unit, age);
      case "0" -> end(row, id, unit, age);
      default ->
          throw bad(
              row.line(),
              "column 'event' holds "
                  + Cell.quoted(row.cell("event").strip())
                  + "; 1 for an event, 0 where observation ends");
    }
  }

  private Unit unit(TableRow row, String id) {
    double start = Numbers.of(name, row, "start", 0);
    String group = by.map(column -> row.cell(column).strip()).orElse("");
    Unit unit = units.computeIfAbsent(id, key -> new Unit(group, start, row.line()));
    if (!unit.group.equals(group)) {
      throw bad(
          row.line(),
          "unit "
              + Cell.quoted(id)
              + " is in group "
              + Cell.quoted(group)
              + " here and in "
              + Cell.quoted(unit.group)
              + " on line "
              + unit.line
              + "; a unit stays in one");
    }
    if (unit.start != start || !(start >= 0)) {
      throw bad(
          row.line(), "unit " + Cell.quoted(id) + " has one start, at least 0, on all of its rows");
    }
    return unit;
  }

  private void event(TableRow row, String id, Unit unit, double age) {
    if (!(age > unit.start)) {
      throw bad(
          row.line(),
          "unit "
              + Cell.quoted(id)
              + " has an event at age "
              + age
              + ", where its observation starts; an event comes later");
    }
    unit.ages.add(age);
  }

  private void end(TableRow row, String id, Unit unit, double age) {
    if (unit.end.isPresent()) {
      throw bad(
          row.line(), "unit " + Cell.quoted(id) + " ends twice; one row with event 0 is right");
    }
    if (!(age > unit.start)) {
      throw bad(
          row.line(),
          "unit " + Cell.quoted(id) + " ends at age " + age + ", where its observation starts");
    }
    unit.end = OptionalDouble.of(age);
  }

  private List<UnitHistory> histories() {
    if (units.isEmpty()) {
      throw new BadInputException(name + " has no rows; a history needs a row for each event");
    }
    List<UnitHistory> histories = new ArrayList<>(units.size());
    units.forEach((id, unit) -> histories.add(history(id, unit)));
    return List.copyOf(histories);
  }

  private UnitHistory history(String id, Unit unit) {
    double end =
        unit.end.orElseThrow(
            () ->
                bad(
                    unit.line,
                    "unit "
                        + Cell.quoted(id)
                        + " has no row with event 0; one says to what age it was watched"));
    Collections.sort(unit.ages);
    if (!unit.ages.isEmpty() && unit.ages.get(unit.ages.size() - 1) > end) {
      throw bad(
          unit.line,
          "unit "
              + Cell.quoted(id)
              + " has an event at age "
              + unit.ages.get(unit.ages.size() - 1)
              + ", after its observation ends at "
              + end);
    }
    return new UnitHistory(id, unit.group, unit.start, unit.ages, end);
  }

  private BadInputException bad(long line, String what) {
    return new BadInputException(name + ", line " + line + ": " + what);
  }
}

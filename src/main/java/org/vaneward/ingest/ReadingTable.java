package org.vaneward.ingest;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.vaneward.fleet.Effect;
import org.vaneward.fleet.Pump;

/** The rows of {@code readings.csv}, by pump. */
final class ReadingTable {
  private final Map<String, List<ReadingDraft>> byPump = new HashMap<>();

  private ReadingTable() {}

  static ReadingTable read(RowReader rows, PumpTable pumps, LocalDate asOf) {
    ReadingTable table = new ReadingTable();
    rows.forEach(Table.READINGS, cells -> table.add(cells, pumps, asOf));
    return table;
  }

  /** The readings of one pump, in the order of the file. */
  List<ReadingDraft> of(String pump) {
    return byPump.getOrDefault(pump, List.of());
  }

  private void add(Cells cells, PumpTable pumps, LocalDate asOf) {
    Optional<Pump> pump = pumps.named(cells);
    Optional<LocalDate> date = cells.requiredDate("date", asOf);
    boolean replaced = cells.decisiveWord("event", Words.EVENT).isPresent();
    OptionalDouble hours = hours(cells, replaced);
    OptionalDouble oldHours = oldHours(cells, replaced);
    if (!cells.refused()) {
      PumpTable.requireCommissioned(cells, pump.orElseThrow(), date.orElseThrow());
    }
    if (!cells.refused()) {
      String tag = pump.orElseThrow().pump();
      byPump
          .computeIfAbsent(tag, t -> new ArrayList<>())
          .add(
              new ReadingDraft(
                  tag, date.orElseThrow(), hours.orElseThrow(), replaced, oldHours, cells.ref()));
    }
  }

  private static OptionalDouble hours(Cells cells, boolean replaced) {
    if (replaced && !cells.given("hours")) {
      cells.repair(
          "hours", "hours is blank; the new meter is taken to start at 0", Effect.USAGE_ESTIMATED);
      return OptionalDouble.of(0);
    }
    return cells.requiredNumber("hours", Cells.Range.NOT_NEGATIVE);
  }

  private static OptionalDouble oldHours(Cells cells, boolean replaced) {
    if (!replaced && cells.given("old_hours")) {
      cells.readAs("old_hours", "old_hours without the event meter-replaced; not used");
      return OptionalDouble.empty();
    }
    return cells.number("old_hours", Cells.Range.NOT_NEGATIVE);
  }
}

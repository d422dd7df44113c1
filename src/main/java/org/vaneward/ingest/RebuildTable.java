package org.vaneward.ingest;

import static java.util.Objects.requireNonNull;

import java.time.LocalDate;
import java.util.Collection;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;
import org.vaneward.fleet.Opening;
import org.vaneward.fleet.Pump;
import org.vaneward.fleet.RowRef;
import org.vaneward.fleet.Trigger;
import org.vaneward.io.Cell;

/** The openings of {@code rebuilds.csv}, and the look-up of one that a finding names. */
final class RebuildTable {
  private final String file;
  private final PumpTable pumps;
  private final LocalDate asOf;
  private final UnitCheck units;
  private final Map<String, OpeningDraft> openings = new LinkedHashMap<>();
  private final Map<String, RowRef> refused = new HashMap<>();
  private final Nearest nearest = new Nearest(openings.keySet());

  private RebuildTable(String file, PumpTable pumps, LocalDate asOf, UnitCheck units) {
    this.file = file;
    this.pumps = pumps;
    this.asOf = asOf;
    this.units = units;
  }

  static RebuildTable of(String file, PumpTable pumps, LocalDate asOf, UnitCheck units) {
    return new RebuildTable(file, pumps, asOf, units);
  }

  /**
   * Reads the rows.
   *
   * @param findings takes what stands of findings in them
   */
  void read(RowReader rows, Consumer<Cells> findings) {
    Spellings crews = requireNonNull(rows.spellings(Table.REBUILDS, "crew").get("crew"));
    rows.forEachRebuild(
        (cells, within) -> {
          String number =
              cells.hasColumn("rebuild")
                  ? cells.requiredText("rebuild")
                  : numbered(cells.ref(), rows.isInParts(Table.REBUILDS));
          add(number, cells, crews);
          within.of(number).forEach(findings);
        });
  }

  /** What an opening without a number is called. */
  private static String numbered(RowRef row, boolean isInParts) {
    return (isInParts ? row.file() + " " : "") + "line " + row.line();
  }

  /** The openings, in the order of the file. */
  Collection<OpeningDraft> openings() {
    return openings.values();
  }

  /** The opening a finding names; when there is none the row is set aside. */
  Optional<OpeningDraft> named(Cells cells) {
    String number = cells.requiredText("rebuild");
    OpeningDraft opening = openings.get(number);
    if (opening == null && !number.isEmpty()) {
      RowRef row = refused.get(number);
      cells.refuse(
          "rebuild",
          row == null
              ? "rebuild " + Cell.quoted(number) + " is not in " + file + nearest.offer(number)
              : "rebuild " + Cell.quoted(number) + " is set aside (" + Where.of(row) + ")");
    }
    return Optional.ofNullable(opening);
  }

  private void add(String number, Cells cells, Spellings crews) {
    Optional<Pump> pump = pumps.named(cells);
    Optional<LocalDate> date = cells.requiredDate("date", asOf);
    Optional<Trigger> trigger = cells.requiredWord("trigger", Words.TRIGGER);
    if (!cells.refused()) {
      inService(cells, pump.orElseThrow(), date.orElseThrow());
    }
    if (cells.refused()) {
      if (!number.isEmpty()) {
        refused.putIfAbsent(number, cells.ref());
      }
      return;
    }
    Opening opening =
        new Opening(
            number,
            pump.orElseThrow().pump(),
            date.orElseThrow(),
            cells.number("hours", Cells.Range.NOT_NEGATIVE),
            trigger.orElseThrow(),
            cells.spelling("crew", crews),
            cells.text("kit"),
            cells.number("downtime_hours", Cells.Range.NOT_NEGATIVE),
            cells.number("cost", Cells.Range.NOT_NEGATIVE),
            cells.number("end_clearance_mm", Cells.Range.NOT_NEGATIVE),
            cells.verbatim("note"),
            cells.covariates(),
            List.of(),
            cells.ref());
    opening.endClearanceMm().ifPresent(mm -> units.add(cells, "end_clearance_mm", "clearance", mm));
    OpeningDraft before = openings.putIfAbsent(number, new OpeningDraft(opening));
    if (before != null) {
      repeated(cells, before, opening);
    }
  }

  private static void inService(Cells cells, Pump pump, LocalDate date) {
    PumpTable.requireCommissioned(cells, pump, date);
    if (pump.retired().isPresent() && date.isAfter(pump.retired().get())) {
      cells.refuse(
          "date",
          "date "
              + date
              + ": lies after the pump left service, "
              + pump.retired().get()
              + " ("
              + Where.of(pump.row())
              + ")");
    }
  }

  private static void repeated(Cells cells, OpeningDraft before, Opening opening) {
    if (before.pump().equals(opening.pump()) && before.date().equals(opening.date())) {
      cells.readAs(
          "rebuild",
          "same opening as " + Where.beside(before.row(), cells.ref()) + "; counted once");
    } else {
      cells.refuse(
          "rebuild",
          "rebuild "
              + Cell.quoted(opening.rebuild())
              + " stands on "
              + Where.beside(before.row(), cells.ref())
              + " already, for another pump or day; record numbers are unique");
    }
  }
}

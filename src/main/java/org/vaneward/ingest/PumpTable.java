package org.vaneward.ingest;

import static java.util.Objects.requireNonNull;

import java.time.LocalDate;
import java.util.Collection;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import org.vaneward.fleet.Effect;
import org.vaneward.fleet.Pump;
import org.vaneward.fleet.RowRef;
import org.vaneward.io.Cell;

/** The pumps of {@code pumps.csv}, and the look-up of a pump that another row names. */
final class PumpTable {
  private final String file;
  private final LocalDate asOf;
  private final Map<String, Pump> pumps = new LinkedHashMap<>();
  private final Map<String, RowRef> refused = new HashMap<>();
  private final Nearest nearest = new Nearest(pumps.keySet());

  private PumpTable(String file, LocalDate asOf) {
    this.file = file;
    this.asOf = asOf;
  }

  static PumpTable read(RowReader rows, LocalDate asOf) {
    PumpTable table = new PumpTable(rows.fileOf(Table.PUMPS), asOf);
    Spellings sites = requireNonNull(rows.spellings(Table.PUMPS, "site").get("site"));
    rows.forEach(Table.PUMPS, cells -> table.add(cells, sites));
    return table;
  }

  /** The pumps, in the order of the file. */
  Collection<Pump> pumps() {
    return pumps.values();
  }

  /** The pump a row names; when there is none the row is set aside. */
  Optional<Pump> named(Cells cells) {
    String tag = cells.requiredText("pump");
    Pump pump = pumps.get(tag);
    if (pump == null && !tag.isEmpty()) {
      RowRef row = refused.get(tag);
      cells.refuse(
          "pump",
          row == null
              ? "pump " + Cell.quoted(tag) + " is not in " + file + nearest.offer(tag)
              : "pump " + Cell.quoted(tag) + " is set aside (" + Where.of(row) + ")");
    }
    return Optional.ofNullable(pump);
  }

  /** Sets a row aside whose {@code date} lies before its pump was commissioned. */
  static void requireCommissioned(Cells cells, Pump pump, LocalDate date) {
    if (pump.commissioned().isPresent() && date.isBefore(pump.commissioned().get())) {
      cells.refuse(
          "date",
          "date "
              + date
              + ": lies before the pump was commissioned, "
              + pump.commissioned().get()
              + " ("
              + Where.of(pump.row())
              + ")");
    }
  }

  private void add(Cells cells, Spellings sites) {
    String tag = cells.requiredText("pump");
    Pump before = pumps.get(tag);
    if (before != null) {
      cells.refuse(
          "pump",
          "pump "
              + Cell.quoted(tag)
              + " stands on "
              + Where.beside(before.row(), cells.ref())
              + " already; tags are unique");
      return;
    }
    Pump pump = pump(tag, cells, sites);
    if (!cells.refused()) {
      pumps.put(tag, pump);
      refused.remove(tag);
    } else if (!tag.isEmpty()) {
      refused.put(tag, cells.ref());
    }
  }

  private Pump pump(String tag, Cells cells, Spellings sites) {
    Optional<LocalDate> commissioned = commissioned(cells);
    Optional<LocalDate> retired = cells.date("retired", asOf);
    if (commissioned.isPresent()
        && retired.isPresent()
        && retired.get().isBefore(commissioned.get())) {
      cells.repair(
          "commissioned",
          "commissioned "
              + commissioned.get()
              + " lies after retired "
              + retired.get()
              + "; taken as unknown",
          Effect.AGE_LOST);
      commissioned = Optional.empty();
    }
    Optional<LocalDate> recordsFrom = cells.date("records_from", asOf);
    if (cells.given("records_from") && recordsFrom.isEmpty() && commissioned.isPresent()) {
      // Blank would claim that every opening since commissioning is on record.
      cells.repair(
          "commissioned",
          "taken as unknown together with records_from, so that no part is given an age the"
              + " records cannot vouch for",
          Effect.AGE_LOST);
      commissioned = Optional.empty();
    }
    return new Pump(
        tag,
        cells.requiredSpelling("site", sites),
        cells.text("model"),
        commissioned,
        notBefore(commissioned, recordsFrom, cells),
        cells.number("hours_per_week", Cells.Range.HOURS_OF_A_WEEK),
        retired,
        cells.covariates(),
        cells.ref());
  }

  private Optional<LocalDate> commissioned(Cells cells) {
    Optional<LocalDate> commissioned = cells.date("commissioned", LocalDate.MAX);
    if (commissioned.isPresent() && commissioned.get().isAfter(asOf)) {
      cells.refuse(
          "commissioned",
          "commissioned "
              + commissioned.get()
              + ": lies after "
              + asOf
              + ", the last day the records speak of (as_of in fleet.json)");
    }
    return commissioned;
  }

  private static Optional<LocalDate> notBefore(
      Optional<LocalDate> commissioned, Optional<LocalDate> recordsFrom, Cells cells) {
    if (commissioned.isPresent()
        && recordsFrom.isPresent()
        && recordsFrom.get().isBefore(commissioned.get())) {
      cells.readAs(
          "records_from",
          "records_from "
              + recordsFrom.get()
              + " lies before commissioned "
              + commissioned.get()
              + "; taken as that day");
      return commissioned;
    }
    return recordsFrom;
  }
}

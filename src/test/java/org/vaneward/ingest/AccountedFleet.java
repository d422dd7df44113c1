package org.vaneward.ingest;

import static org.vaneward.fuzz.Reading.must;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.vaneward.fleet.Finding;
import org.vaneward.fleet.MeterReading;
import org.vaneward.fleet.Opening;
import org.vaneward.fleet.PumpHistory;
import org.vaneward.fleet.RowAccount;
import org.vaneward.fleet.RowAccount.FileAccount;
import org.vaneward.fleet.RowFate;
import org.vaneward.fleet.RowNote;
import org.vaneward.fleet.RowRef;
import org.vaneward.fleet.ServicePeriod;
import org.vaneward.life.LifeBuilder;

/** Reads a fleet, builds its lives, and holds that every row is accounted for. */
final class AccountedFleet {
  private static final String REPEAT = "counted once";

  private AccountedFleet() {}

  /** The fleet as read; refused as by {@link Ingest#read}. */
  static Ingested read(FleetFolder fleet) {
    Ingested ingested = fleet.read();
    addsUp(RowAccount.of(ingested.rowsRead(), ingested.notes()));
    everyRowIsRecordOrNote(ingested);
    List<RowNote> notes = new ArrayList<>(ingested.notes());
    notes.addAll(LifeBuilder.build(ingested.fleet()).notes());
    addsUp(RowAccount.of(ingested.rowsRead(), notes));
    return ingested;
  }

  private static void addsUp(RowAccount account) {
    for (FileAccount file : account.files()) {
      must(
          file.rows() == file.used() + file.repaired() + file.setAside()
              && file.used() >= 0
              && file.repaired() >= 0
              && file.setAside() >= 0,
          "the account does not add up: " + file);
    }
  }

  /**
   * A row is a record of the fleet, or set aside, or one that stands twice; none is two of these.
   */
  private static void everyRowIsRecordOrNote(Ingested ingested) {
    Set<RowRef> rows = records(ingested);
    for (RowRef row : left(ingested.notes())) {
      must(rows.add(row), "not used, and yet a record: " + row);
    }
    for (Map.Entry<String, Long> file : ingested.rowsRead().entrySet()) {
      long found = rows.stream().filter(row -> row.file().equals(file.getKey())).count();
      must(
          found == file.getValue(),
          file.getKey() + ": " + file.getValue() + " rows read, " + found + " accounted for");
    }
  }

  private static Set<RowRef> left(List<RowNote> notes) {
    Set<RowRef> left = new HashSet<>();
    for (RowNote note : notes) {
      boolean repeat =
          note.fate() instanceof RowFate.Repaired repaired
              && repaired.assumption().endsWith(REPEAT);
      if (repeat || note.fate() instanceof RowFate.SetAside) {
        left.add(note.row());
      }
    }
    return left;
  }

  private static Set<RowRef> records(Ingested ingested) {
    List<RowRef> rows = new ArrayList<>();
    for (PumpHistory history : ingested.fleet().pumps()) {
      rows.add(history.pump().row());
      history.services().stream().map(ServicePeriod::row).forEach(rows::add);
      history.readings().stream().map(MeterReading::row).forEach(rows::add);
      for (Opening opening : history.openings()) {
        rows.add(opening.row());
        opening.findings().stream().map(Finding::row).forEach(rows::add);
      }
    }
    Set<RowRef> distinct = new HashSet<>(rows);
    must(distinct.size() == rows.size(), "a row makes two records");
    return distinct;
  }
}

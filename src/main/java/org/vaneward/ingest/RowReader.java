package org.vaneward.ingest;

import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import java.util.function.BiConsumer;
import java.util.function.Consumer;
import org.vaneward.fleet.Effect;
import org.vaneward.fleet.RowRef;
import org.vaneward.io.Cell;
import org.vaneward.io.TableRow;
import org.vaneward.io.TableRows;

/** Hands out the rows of a table as cells, counting each and setting aside what is no row. */
final class RowReader {
  private final TableSource source;
  private final Ledger ledger;

  RowReader(TableSource source, Ledger ledger) {
    this.source = source;
    this.ledger = ledger;
  }

  /** Whether there is such a table. */
  boolean has(Table table) {
    return source.has(table);
  }

  /** Name of the file that holds {@code table}, for messages. */
  String fileOf(Table table) {
    return source.fileOf(table);
  }

  /** Every row of {@code table} that has cells, in the order of the file. */
  void forEach(Table table, Consumer<Cells> each) {
    for (TableSource.Part part : source.partsOf(table)) {
      String file = part.name();
      ledger.open(file);
      rows(table, part, (columns, row) -> each(cells(file, columns, row), each));
    }
  }

  private Cells cells(String file, Columns columns, TableRow row) {
    ledger.count(file);
    RowRef ref = new RowRef(file, row.line());
    for (String key : row.nestedKeys()) {
      if (!columns.isList(key)) {
        ledger.repair(
            ref,
            key,
            "key "
                + Cell.quoted(key)
                + " holds a list, and nothing is read from it; only rebuilds hold one, their"
                + " findings",
            Effect.VALUE_LOST);
      }
    }
    return new Cells(columns, row, ref, ledger, Map.of());
  }

  private static void each(Cells cells, Consumer<Cells> each) {
    if (!cells.refused()) {
      each.accept(cells);
    }
  }

  /** Whether rows of a table stand in more than one file, so that a line alone tells no row. */
  boolean isInParts(Table table) {
    return source.partsOf(table).size() > 1;
  }

  /** The rows of rebuilds, each followed by the findings that stand in it. */
  void forEachRebuild(BiConsumer<Cells, FindingsWithin> each) {
    for (TableSource.Part part : source.partsOf(Table.REBUILDS)) {
      forEachRebuild(part, each);
    }
  }

  private void forEachRebuild(TableSource.Part part, BiConsumer<Cells, FindingsWithin> each) {
    String file = part.name();
    TableForm form = source.formOf(Table.REBUILDS);
    ledger.open(file);
    try (TableRows rows = part.open()) {
      Columns columns = Columns.of(Table.REBUILDS, form, rows.header(), file);
      FindingsWithin within =
          new FindingsWithin(source.formOf(Table.FINDINGS), form, rows.header(), file, ledger);
      for (Optional<TableRow> row = rows.next(); row.isPresent(); row = rows.next()) {
        Cells cells = cells(file, columns, row.get());
        within.enter(row.get());
        if (!cells.refused()) {
          each.accept(cells, within);
        }
      }
    }
  }

  private void rows(Table table, TableSource.Part part, BiConsumer<Columns, TableRow> each) {
    try (TableRows rows = part.open()) {
      Columns columns = Columns.of(table, source.formOf(table), rows.header(), part.name());
      for (Optional<TableRow> row = rows.next(); row.isPresent(); row = rows.next()) {
        each.accept(columns, row.get());
      }
    }
  }

  /** The spellings in some columns of {@code table}, read ahead of its rows. */
  Map<String, Spellings> spellings(Table table, String... columns) {
    Map<String, Spellings> spellings = new HashMap<>();
    for (String column : columns) {
      spellings.put(column, new Spellings());
    }
    for (TableSource.Part part : source.partsOf(table)) {
      rows(
          table,
          part,
          (own, row) -> spellings.forEach((column, counts) -> counts.add(own.text(row, column))));
    }
    return spellings;
  }
}

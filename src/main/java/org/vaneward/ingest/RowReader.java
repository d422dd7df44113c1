package org.vaneward.ingest;

import java.util.HashMap;
import java.util.Map;
import java.util.function.Consumer;
import org.vaneward.fleet.RowRef;

/** Hands out the rows of a table as cells, counting each and setting aside what is no row. */
final class RowReader {
  private final TableSource source;
  private final Ledger ledger;

  RowReader(TableSource source, Ledger ledger) {
    this.source = source;
    this.ledger = ledger;
  }

  /** Every row of {@code table} that has cells, in the order of the file. */
  void forEach(Table table, Consumer<Cells> each) {
    String file = source.fileOf(table);
    ledger.open(file);
    source.forEachRow(
        table,
        row -> {
          ledger.count(file);
          Cells cells = new Cells(table, row, new RowRef(file, row.line()), ledger);
          if (!cells.refused()) {
            each.accept(cells);
          }
        });
  }

  /** The spellings in some columns of {@code table}, read ahead of its rows. */
  Map<String, Spellings> spellings(Table table, String... columns) {
    Map<String, Spellings> spellings = new HashMap<>();
    for (String column : columns) {
      spellings.put(column, new Spellings());
    }
    source.forEachRow(
        table, row -> spellings.forEach((column, counts) -> counts.add(row.cell(column))));
    return spellings;
  }
}

package org.vaneward.ingest;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.vaneward.fleet.RowRef;
import org.vaneward.io.TableHeader;
import org.vaneward.io.TableRow;

/**
 * Findings that stand in the row of their opening: a group of columns for each position, or a list
 * of objects. Each group, and each place in a list, is counted as a table of its own, so that every
 * finding is accounted for by itself.
 */
final class FindingsWithin {
  private final TableForm form;
  private final String file;
  private final String list;
  private final Ledger ledger;
  private final Map<String, Columns> groups = new LinkedHashMap<>();
  private final Map<TableHeader, Columns> listed = new HashMap<>();
  private TableRow row;

  FindingsWithin(
      TableForm form, TableForm rebuilds, TableHeader header, String file, Ledger ledger) {
    this.form = form.within(rebuilds);
    this.file = file;
    this.list = rebuilds.written(Table.FINDINGS.title()).get(0);
    this.ledger = ledger;
    rebuilds
        .positions()
        .forEach(
            (position, columns) -> {
              groups.put(position, Columns.group(this.form, columns, header, file));
              ledger.open(within(position));
            });
    this.row = TableRow.none(header);
  }

  /** Turns to another row. */
  void enter(TableRow next) {
    row = next;
  }

  /** The findings of the row, all of the opening {@code rebuild}. */
  List<Cells> of(String rebuild) {
    List<Cells> found = new ArrayList<>();
    groups.forEach(
        (position, columns) -> {
          if (columns.anyIn(row)) {
            Map<String, String> fixed = Map.of("rebuild", rebuild, "position", position);
            found.add(cells(within(position), columns, row, fixed));
          }
        });
    List<TableRow> nested = row.nested(list);
    for (int i = 0; i < nested.size(); i++) {
      TableRow finding = nested.get(i);
      String name = within(Table.FINDINGS.title() + " " + (i + 1));
      Columns columns =
          listed.computeIfAbsent(
              finding.header(), header -> Columns.of(Table.FINDINGS, form, header, file));
      found.add(cells(name, columns, finding, Map.of("rebuild", rebuild)));
    }
    return found;
  }

  private Cells cells(String name, Columns columns, TableRow in, Map<String, String> fixed) {
    ledger.open(name);
    ledger.count(name);
    return new Cells(columns, in, new RowRef(name, in.line()), ledger, fixed);
  }

  private String within(String part) {
    return file + " [" + part + "]";
  }
}

package org.vaneward.ingest;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.function.Consumer;
import org.vaneward.io.BadInputException;
import org.vaneward.io.CsvTable;
import org.vaneward.io.TableRow;

/** The tables as CSV files in one folder. */
final class CsvFolder implements TableSource {
  private final Path folder;

  private CsvFolder(Path folder) {
    this.folder = folder;
  }

  /**
   * The tables in {@code folder}.
   *
   * @throws BadInputException when one of them is not there
   */
  static CsvFolder of(Path folder) {
    CsvFolder tables = new CsvFolder(folder);
    for (Table table : Table.values()) {
      if (!Files.isRegularFile(tables.path(table))) {
        throw new BadInputException(
            folder
                + ": no file "
                + tables.fileOf(table)
                + "; it holds "
                + table.meaning()
                + ", with at least the columns "
                + String.join(", ", table.required()));
      }
    }
    return tables;
  }

  @Override
  public String fileOf(Table table) {
    return table.title() + ".csv";
  }

  private Path path(Table table) {
    return folder.resolve(fileOf(table));
  }

  @Override
  public void forEachRow(Table table, Consumer<TableRow> each) {
    try (CsvTable rows = CsvTable.open(path(table), fileOf(table), table.required())) {
      for (Optional<TableRow> row = rows.next(); row.isPresent(); row = rows.next()) {
        each.accept(row.get());
      }
    }
  }
}

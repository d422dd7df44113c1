package org.vaneward.sample;

import java.util.List;
import org.vaneward.io.CsvWriter;

/**
 * A table as it is written.
 *
 * @param file file name, such as {@code pumps.csv}
 * @param header column names
 * @param rows cells, in the order of the header
 */
public record SampleTable(String file, List<String> header, List<List<String>> rows) {
  public SampleTable {
    header = List.copyOf(header);
    rows = rows.stream().map(List::copyOf).toList();
  }

  /** The cell of {@code column} on {@code line} of the file, the header being line 1. */
  public String cell(long line, String column) {
    return rows.get(Math.toIntExact(line - 2)).get(header.indexOf(column));
  }

  String csv() {
    CsvWriter csv = CsvWriter.forMachines(header.toArray(String[]::new));
    for (List<String> row : rows) {
      row.forEach(csv::cell);
      csv.endRow();
    }
    return csv.text();
  }
}

package org.vaneward.fleet;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * What became of every row read: the three fates of each file add up to its rows. A row with
 * several notes is counted once, under the gravest.
 *
 * @param files one entry for each file, in the order it was read
 * @param notes every note, by file, line and column
 */
public record RowAccount(List<FileAccount> files, List<RowNote> notes) {
  public RowAccount {
    files = List.copyOf(files);
    notes = List.copyOf(notes);
  }

  /**
   * The rows of one file.
   *
   * @param file file name inside the fleet folder
   * @param rows rows read; always {@code used + repaired + setAside}
   * @param used rows used as they stand
   * @param repaired rows used with an assumption
   * @param setAside rows not used
   */
  public record FileAccount(String file, long rows, long used, long repaired, long setAside) {}

  /**
   * Accounts for rows.
   *
   * @param rowsRead rows read, by file
   * @param notes notes on these rows from reading them and from everything built out of them
   * @throws IllegalArgumentException when a note names a file or a line that was not read, or more
   *     rows than were read
   */
  public static RowAccount of(Map<String, Long> rowsRead, List<RowNote> notes) {
    Map<String, Map<Long, Boolean>> setAsideByLine = new HashMap<>();
    for (RowNote note : notes) {
      RowRef row = note.row();
      if (!rowsRead.containsKey(row.file()) || row.line() < 1) {
        throw new IllegalArgumentException("a note on a row that was never read: " + note);
      }
      if (!(note.fate() instanceof RowFate.Used)) {
        setAsideByLine
            .computeIfAbsent(row.file(), file -> new HashMap<>())
            .merge(row.line(), note.fate() instanceof RowFate.SetAside, Boolean::logicalOr);
      }
    }
    List<FileAccount> files = new ArrayList<>();
    rowsRead.forEach(
        (file, rows) ->
            files.add(account(file, rows, setAsideByLine.getOrDefault(file, Map.of()))));
    return new RowAccount(
        files,
        notes.stream()
            .sorted(Comparator.comparing(RowNote::row).thenComparing(RowNote::column))
            .toList());
  }

  private static FileAccount account(String file, long rows, Map<Long, Boolean> setAsideByLine) {
    long setAside = setAsideByLine.values().stream().filter(Boolean::booleanValue).count();
    long repaired = setAsideByLine.size() - setAside;
    long used = rows - repaired - setAside;
    if (used < 0) {
      throw new IllegalArgumentException(
          file + ": notes on " + setAsideByLine.size() + " rows where " + rows + " were read");
    }
    return new FileAccount(file, rows, used, repaired, setAside);
  }
}

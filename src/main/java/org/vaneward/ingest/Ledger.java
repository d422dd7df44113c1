package org.vaneward.ingest;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.Consumer;
import org.vaneward.fleet.Effect;
import org.vaneward.fleet.RowNote;
import org.vaneward.fleet.RowRef;

/** Counts the rows read and keeps what became of them. */
final class Ledger {
  private static final long TOLD_EVERY = 1_000_000;

  private final Map<String, Long> rowsRead = new LinkedHashMap<>();
  private final List<RowNote> notes = new ArrayList<>();
  private final Consumer<String> progress;

  /**
   * A ledger without rows.
   *
   * @param progress is told each time another million rows of a file have been read
   */
  Ledger(Consumer<String> progress) {
    this.progress = progress;
  }

  /** A file is about to be read, which may turn out to have no rows. */
  void open(String file) {
    rowsRead.putIfAbsent(file, 0L);
  }

  /** One more row read. */
  void count(String file) {
    long rows = rowsRead.merge(file, 1L, Long::sum);
    if (rows % TOLD_EVERY == 0) {
      progress.accept(String.format(Locale.ROOT, "%s: %,d rows read", file, rows));
    }
  }

  /** The row is used after {@code assumption}. */
  void repair(RowRef row, String column, String assumption, Effect effect) {
    notes.add(RowNote.repaired(row, column, assumption, effect));
  }

  /** The row is not used, for {@code reason}. */
  void setAside(RowRef row, String column, String reason, Effect effect) {
    notes.add(RowNote.setAside(row, column, reason, effect));
  }

  /** Rows read by file, in the order the files were read. */
  Map<String, Long> rowsRead() {
    return Collections.unmodifiableMap(rowsRead);
  }

  List<RowNote> notes() {
    return notes;
  }
}

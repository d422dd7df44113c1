package org.vaneward.ingest;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.vaneward.fleet.Fleet;
import org.vaneward.fleet.RowAccount;
import org.vaneward.fleet.RowNote;

/**
 * A fleet as read, with what became of the rows that are not used as they stand.
 *
 * @param fleet the fleet
 * @param notes what was assumed or refused, row by row; a row without a note is used as it stands
 * @param rowsRead rows read, by file, in the order the files were read
 */
public record Ingested(Fleet fleet, List<RowNote> notes, Map<String, Long> rowsRead) {
  public Ingested {
    notes = List.copyOf(notes);
    rowsRead = Collections.unmodifiableMap(new LinkedHashMap<>(rowsRead));
  }

  /** What became of every row so far; lives add notes of their own to it. */
  public RowAccount account() {
    return RowAccount.of(rowsRead, notes);
  }
}

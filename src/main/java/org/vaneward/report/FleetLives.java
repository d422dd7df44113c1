package org.vaneward.report;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.vaneward.fleet.FleetSettings;
import org.vaneward.fleet.RowAccount;
import org.vaneward.fleet.RowNote;
import org.vaneward.ingest.Ingest;
import org.vaneward.ingest.Ingested;
import org.vaneward.life.LifeBuilder;
import org.vaneward.life.Lives;

/**
 * A fleet's records and the lives built from them: where every fleet command starts.
 *
 * @param records what the files hold
 * @param lives the lives
 * @param account what became of every row, reading and building of lives together
 */
public record FleetLives(Ingested records, Lives lives, RowAccount account) {
  /**
   * Reads a fleet folder and builds its lives.
   *
   * @throws org.vaneward.io.BadInputException when the folder cannot be used at all
   */
  public static FleetLives read(Path folder) {
    Ingested records = Ingest.read(folder);
    Lives lives = LifeBuilder.build(records.fleet());
    List<RowNote> notes = new ArrayList<>(records.notes());
    notes.addAll(lives.notes());
    return new FleetLives(records, lives, RowAccount.of(records.rowsRead(), notes));
  }

  /** What {@code fleet.json} says. */
  public FleetSettings settings() {
    return records.fleet().settings();
  }
}

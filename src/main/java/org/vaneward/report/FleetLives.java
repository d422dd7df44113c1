package org.vaneward.report;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;
import org.vaneward.fleet.Fleet;
import org.vaneward.fleet.FleetSettings;
import org.vaneward.fleet.RowAccount;
import org.vaneward.fleet.RowNote;
import org.vaneward.ingest.Ingest;
import org.vaneward.ingest.Ingested;
import org.vaneward.life.LifeBuilder;
import org.vaneward.life.Lives;
import org.vaneward.plan.WhatIf;

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
    return read(folder, remark -> {});
  }

  /**
   * The same.
   *
   * @param progress is told, in a few words, how far the reading of long files has come
   * @throws org.vaneward.io.BadInputException when the folder cannot be used at all
   */
  public static FleetLives read(Path folder, Consumer<String> progress) {
    Ingested records = Ingest.read(folder, progress);
    Lives lives = LifeBuilder.build(records.fleet());
    List<RowNote> notes = new ArrayList<>(records.notes());
    notes.addAll(lives.notes());
    return new FleetLives(records, lives, RowAccount.of(records.rowsRead(), notes));
  }

  /**
   * The same records under other costs and limits.
   *
   * @throws org.vaneward.io.BadInputException when the question does not fit the fleet
   */
  FleetLives asked(WhatIf question) {
    if (!question.isAsked()) {
      return this;
    }
    Fleet fleet = new Fleet(question.of(settings()), records.fleet().pumps());
    return new FleetLives(new Ingested(fleet, records.notes(), records.rowsRead()), lives, account);
  }

  /** What {@code fleet.json} says, or what a question puts in its place. */
  public FleetSettings settings() {
    return records.fleet().settings();
  }
}

package org.vaneward.api;

import java.time.LocalDate;
import java.util.List;
import java.util.function.Consumer;
import org.vaneward.io.InputFile;
import org.vaneward.life.LivesTable;
import org.vaneward.report.CheckView;
import org.vaneward.report.FleetAnalysis;
import org.vaneward.report.FleetLives;
import org.vaneward.stats.fit.FitSettings;
import tech.tablesaw.api.Table;

/**
 * The records of a fleet, each row accounted for.
 *
 * <pre>{@code
 * String which = records.name() + ", up to " + records.asOf();
 * Table files = records.files();
 * PartLives lives = records.lives();
 * }</pre>
 */
public final class FleetRecords {
  private static final long SEED = 1;

  private final FleetLives fleet;
  private final List<InputFile> files;
  private final double confidence;
  private final Consumer<String> progress;

  FleetRecords(
      FleetLives fleet, List<InputFile> files, double confidence, Consumer<String> progress) {
    this.fleet = fleet;
    this.files = files;
    this.confidence = confidence;
    this.progress = progress;
  }

  /**
   * The same with limits of another confidence; 0.90 unless told otherwise.
   *
   * <pre>{@code
   * FleetRecords wider = records.withConfidence(0.95);
   * }</pre>
   *
   * @throws IllegalArgumentException when it is not between 0 and 1
   */
  public FleetRecords withConfidence(double newConfidence) {
    return new FleetRecords(fleet, files, PartLives.checked(newConfidence), progress);
  }

  /** What {@code fleet.json} calls the fleet. */
  public String name() {
    return fleet.settings().fleet();
  }

  /** The day up to which the records go. */
  public LocalDate asOf() {
    return fleet.settings().asOf();
  }

  /**
   * What became of the rows of each file: columns {@code file}, {@code rows}, {@code used}, {@code
   * repaired}, {@code set_aside}. Each row is one of three: used as it is, used after a repair, or
   * set aside.
   *
   * <pre>{@code
   * Table files = records.files();
   * double setAside = files.doubleColumn("set_aside").sum();
   * }</pre>
   */
  public Table files() {
    return Tables.of(new CheckView(fleet).files());
  }

  /**
   * Each row that was repaired or set aside, and what that changes: columns {@code file}, {@code
   * line}, {@code column}, {@code fate}, {@code reason}, {@code changes}.
   *
   * <pre>{@code
   * Table remarks = records.remarks();
   * }</pre>
   */
  public Table remarks() {
    return Tables.of(new CheckView(fleet).listing());
  }

  /**
   * The life of every part.
   *
   * <pre>{@code
   * PartLives lives = records.lives();
   * }</pre>
   */
  public PartLives lives() {
    return new PartLives(LivesTable.of(fleet.lives()), confidence, fleet.settings().clock());
  }

  /**
   * Fits every component in every service, services leaning on one another where they have few
   * failures, and works out intervals and dates. Takes some seconds for a hundred pumps.
   *
   * <pre>{@code
   * Decisions advised = records.decide();
   * }</pre>
   */
  public Decisions decide() {
    FitSettings settings = FitSettings.defaults().withConfidence(confidence);
    return new Decisions(FleetAnalysis.of(fleet, files, settings, SEED, progress), progress);
  }

  /** In a line: the fleet, its last day, its lives. */
  @Override
  public String toString() {
    return name() + ", records up to " + asOf() + ", " + lives();
  }
}

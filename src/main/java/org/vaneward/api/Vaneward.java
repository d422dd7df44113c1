package org.vaneward.api;

import java.nio.file.Path;
import java.util.function.Consumer;
import org.vaneward.fleet.FleetSettings.Clock;
import org.vaneward.ingest.Ingest;
import org.vaneward.life.LivesTable;
import org.vaneward.report.FleetLives;
import tech.tablesaw.api.Table;

/**
 * Where to begin.
 *
 * <pre>{@code
 * FleetRecords records = Vaneward.read(Path.of("sample-fleet"));
 * System.out.println(records.remarks().rowCount() + " remarks on " + records.name());
 * }</pre>
 */
public final class Vaneward {
  /** Confidence of limits unless another is asked for. */
  static final double CONFIDENCE = 0.90;

  private Vaneward() {}

  /**
   * Reads a fleet's records and builds the life of every part.
   *
   * <pre>{@code
   * FleetRecords records = Vaneward.read(Path.of("sample-fleet"));
   * }</pre>
   *
   * @param folder with {@code fleet.json} and the tables it names
   * @throws org.vaneward.io.BadInputException when the folder cannot be used at all; a row that
   *     cannot is set aside and told by {@link FleetRecords#remarks}
   */
  public static FleetRecords read(Path folder) {
    return read(folder, remark -> {});
  }

  /**
   * The same, with a word now and then on how far it has come.
   *
   * <pre>{@code
   * FleetRecords records = Vaneward.read(Path.of("sample-fleet"), System.err::println);
   * }</pre>
   *
   * @param progress is told, in a few words, what is being done
   * @throws org.vaneward.io.BadInputException when the folder cannot be used at all
   */
  public static FleetRecords read(Path folder, Consumer<String> progress) {
    return new FleetRecords(
        FleetLives.read(folder, progress), Ingest.files(folder), CONFIDENCE, progress);
  }

  /**
   * Reads a table of lives somebody brings: a CSV file with the columns {@code lower} and {@code
   * upper}, if need be {@code entry} and {@code count}, and any others to choose or group by. A
   * life failed at {@code lower} when {@code upper} is the same, had not failed by {@code lower}
   * when {@code upper} is blank, and otherwise failed between the two.
   *
   * <pre>{@code
   * PartLives lives = Vaneward.lives(Path.of("src/test/resources/reference/data/genfan.csv"));
   * }</pre>
   *
   * @throws org.vaneward.io.BadInputException when the file cannot be read or a row is no life
   */
  public static PartLives lives(Path csv) {
    return new PartLives(LivesTable.read(csv), CONFIDENCE, Clock.HOURS);
  }

  /**
   * A table as HTML, for a page or a notebook: texts escaped, numbers set right.
   *
   * <pre>{@code
   * String html = Vaneward.html(records.files());
   * }</pre>
   */
  public static String html(Table table) {
    return Tables.html(table);
  }
}

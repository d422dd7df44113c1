package org.vaneward.api;

import java.util.List;
import java.util.stream.IntStream;
import org.vaneward.fleet.FleetSettings.Clock;
import org.vaneward.io.BadInputException;
import org.vaneward.life.LivesTable;
import org.vaneward.model.FamilyFits;
import org.vaneward.model.FitQuestion;
import org.vaneward.report.FitView;
import org.vaneward.report.Words;
import org.vaneward.stats.distribution.Family;
import org.vaneward.stats.fit.FitSettings;
import tech.tablesaw.api.Table;

/**
 * Lives of parts: how long each ran, and whether it failed.
 *
 * <pre>{@code
 * Table bySite = seals.fits("site");
 * long suspended = seals.count() - seals.failures();
 * List<String> toChooseBy = seals.columns();
 * }</pre>
 */
public final class PartLives {
  private final LivesTable table;
  private final double confidence;
  private final Clock clock;

  PartLives(LivesTable table, double confidence, Clock clock) {
    this.table = table;
    this.confidence = confidence;
    this.clock = clock;
  }

  static double checked(double confidence) {
    if (!(confidence > 0 && confidence < 1)) {
      throw new IllegalArgumentException(
          "a confidence is between 0 and 1, such as 0.90, not " + confidence);
    }
    return confidence;
  }

  /**
   * The same with limits of another confidence; 0.90 unless told otherwise.
   *
   * <pre>{@code
   * PartLives wider = records.lives().withConfidence(0.95);
   * }</pre>
   *
   * @throws IllegalArgumentException when it is not between 0 and 1
   */
  public PartLives withConfidence(double newConfidence) {
    return new PartLives(table, checked(newConfidence), clock);
  }

  /** Columns to choose and group by, such as {@code component}, {@code product}, {@code crew}. */
  public List<String> columns() {
    return table.columns();
  }

  /**
   * What stands in a column, each text once, in order.
   *
   * <pre>{@code
   * List<String> products = records.lives().values("product");
   * }</pre>
   *
   * @throws BadInputException when there is no such column
   */
  public List<String> values(String column) {
    return IntStream.range(0, table.rows())
        .mapToObj(i -> table.text(column, i))
        .distinct()
        .sorted()
        .toList();
  }

  /**
   * The lives with a text in a column.
   *
   * <pre>{@code
   * PartLives onPetrol = seals.where("product", "petrol");
   * }</pre>
   *
   * @throws BadInputException when there is no such column, or no life has that text in it
   */
  public PartLives where(String column, String text) {
    LivesTable chosen = table.where(i -> table.text(column, i).equals(text));
    if (chosen.rows() == 0) {
      throw new BadInputException(
          "no life has '"
              + text
              + "' in column '"
              + column
              + "'; there are: "
              + String.join(", ", values(column)));
    }
    return new PartLives(chosen, confidence, clock);
  }

  /** How many lives; one that lived through several services counts once. */
  public long count() {
    return Math.round(table.lives());
  }

  /** How many of them ended in a failure. */
  public long failures() {
    return Math.round(table.failures());
  }

  /**
   * A row for each stretch of a life in one service: what is known of it, {@code entry} (age at
   * which it came under observation), {@code lower}, {@code upper} (both the age of failure, or the
   * ages between which it failed; missing where it had not), {@code count}.
   *
   * <pre>{@code
   * Table lives = records.lives().table();
   * }</pre>
   */
  public Table table() {
    return Tables.printed(table.toTable());
  }

  /**
   * A Weibull for all of them together, by maximum likelihood, with profile-likelihood limits.
   *
   * <pre>{@code
   * PartFit ofSeals = seals.fit();
   * }</pre>
   */
  public PartFit fit() {
    return new PartFit(table, settings(), clock);
  }

  /**
   * A Weibull for each group, on its own: a row for each with its columns, {@code lives}, {@code
   * failures}, {@code shape}, {@code scale} and their limits; {@code status} and {@code reason} say
   * where none can be fitted.
   *
   * <pre>{@code
   * Table byProduct = seals.fits("product");
   * }</pre>
   *
   * @param by columns that make a group
   * @throws BadInputException when there is no such column
   */
  public Table fits(String... by) {
    return table(FitQuestion.weibull(List.of(by), settings()));
  }

  /**
   * Every distribution the program knows, fitted to all of them together; the lower {@code aicc},
   * the better it describes them for its number of parameters.
   *
   * <pre>{@code
   * Table families = seals.families();
   * }</pre>
   */
  public Table families() {
    return table(FitQuestion.weibull(List.of(), settings()).withFamilies(List.of(Family.values())));
  }

  private Table table(FitQuestion question) {
    return Tables.of(new FitView(FamilyFits.of(table, question), question).listing());
  }

  private FitSettings settings() {
    return FitSettings.defaults().withConfidence(confidence);
  }

  /** In words: how many, and how many failed. */
  @Override
  public String toString() {
    return Words.count(count(), "life", "lives")
        + ", "
        + Words.count(failures(), "failure", "failures");
  }
}

package org.vaneward.report;

import java.nio.file.Path;
import java.util.List;
import java.util.function.Consumer;
import org.vaneward.fleet.FleetSettings;
import org.vaneward.ingest.Ingest;
import org.vaneward.io.InputFile;
import org.vaneward.life.LivesTable;
import org.vaneward.model.GroupFit;
import org.vaneward.model.GroupFits;
import org.vaneward.model.ServiceModels;
import org.vaneward.plan.CalendarRequest;
import org.vaneward.plan.Plan;
import org.vaneward.plan.PumpNow;
import org.vaneward.plan.WhatIf;
import org.vaneward.review.failure.FailureReview;
import org.vaneward.review.failure.ReviewQuestion;
import org.vaneward.stats.fit.FitSettings;
import org.vaneward.stats.pooling.PoolingSettings;

/**
 * Everything the report rests on: records, lives, fits, models, plan.
 *
 * @param fleet records and lives
 * @param table the lives table
 * @param fits each component and service on its own
 * @param models what decisions believe of lives
 * @param pumps the pumps in service on the day of record
 * @param plan their plan
 * @param settings of the fits
 * @param whatIf what was asked in place of what {@code fleet.json} and the records say
 * @param seed of the posterior draws the models are made of
 * @param files what was read
 */
public record FleetAnalysis(
    FleetLives fleet,
    LivesTable table,
    List<GroupFit> fits,
    ServiceModels models,
    List<PumpNow> pumps,
    Plan plan,
    FitSettings settings,
    WhatIf whatIf,
    long seed,
    List<InputFile> files) {
  public FleetAnalysis {
    files = List.copyOf(files);
  }

  static final List<String> BY_SERVICE = List.of("component", "product", "duty");

  /**
   * Reads a fleet folder and works out everything.
   *
   * @param seed of the posterior draws the models are made of
   * @param progress is told, in a few words, what is being done
   * @throws org.vaneward.io.BadInputException when the folder cannot be used
   */
  public static FleetAnalysis of(
      Path folder, FitSettings settings, long seed, Consumer<String> progress) {
    return of(folder, settings, seed, CalendarOptions.plain(), WhatIf.asRecorded(), progress);
  }

  /**
   * The same with a calendar of one's own, or under other costs, limits and usage.
   *
   * @param calendar weeks it covers and rebuilds committed
   * @param whatIf what is asked
   * @throws org.vaneward.io.BadInputException when the folder or the file of committed rebuilds
   *     cannot be used, or the question does not fit the fleet
   */
  public static FleetAnalysis of(
      Path folder,
      FitSettings settings,
      long seed,
      CalendarOptions calendar,
      WhatIf whatIf,
      Consumer<String> progress) {
    return known(folder, settings, seed, whatIf, progress).planned(calendar, progress);
  }

  /**
   * The same of a fleet already read, as recorded.
   *
   * @param files that it was read from
   */
  public static FleetAnalysis of(
      FleetLives fleet,
      List<InputFile> files,
      FitSettings settings,
      long seed,
      Consumer<String> progress) {
    return known(fleet, files, settings, seed, WhatIf.asRecorded(), progress)
        .planned(CalendarOptions.plain(), progress);
  }

  /** An analysis, and the review of its failures. */
  public record Reviewed(FleetAnalysis analysis, FailureReview review) {}

  /**
   * The analysis and the review of failures, which needs no plan: they are worked out side by side.
   *
   * @throws org.vaneward.io.BadInputException when the folder cannot be used
   */
  public static Reviewed reviewed(
      Path folder,
      FitSettings settings,
      long seed,
      ReviewQuestion question,
      Consumer<String> progress) {
    Known known = known(folder, settings, seed, WhatIf.asRecorded(), progress);
    progress.accept("reviewing failures");
    SideBySide<FleetAnalysis, FailureReview> both =
        SideBySide.of(
            () -> known.planned(CalendarOptions.plain(), progress), () -> known.failures(question));
    return new Reviewed(both.here(), both.there());
  }

  private static Known known(
      Path folder, FitSettings settings, long seed, WhatIf whatIf, Consumer<String> progress) {
    progress.accept("reading " + folder);
    FleetLives fleet = FleetLives.read(folder, progress).asked(whatIf);
    return known(fleet, Ingest.files(folder), settings, seed, whatIf, progress);
  }

  private static Known known(
      FleetLives fleet,
      List<InputFile> files,
      FitSettings settings,
      long seed,
      WhatIf whatIf,
      Consumer<String> progress) {
    LivesTable table = LivesTable.of(fleet.lives());
    progress.accept("fitting " + Words.count(fleet.lives().lives().size(), "life", "lives"));
    List<GroupFit> fits = GroupFits.of(table, BY_SERVICE, settings);
    ServiceModels models =
        ServiceModels.of(
            table,
            PoolingSettings.defaults()
                .withConfidence(settings.confidence())
                .withDraws(ServiceModels.DRAWS)
                .withSeed(seed));
    return new Known(fleet, table, fits, models, settings, whatIf, seed, files);
  }

  /** What is known before anything is planned. */
  private record Known(
      FleetLives fleet,
      LivesTable table,
      List<GroupFit> fits,
      ServiceModels models,
      FitSettings settings,
      WhatIf whatIf,
      long seed,
      List<InputFile> files) {

    FleetAnalysis planned(CalendarOptions calendar, Consumer<String> progress) {
      List<PumpNow> pumps = whatIf.of(PumpNow.of(fleet.records().fleet(), fleet.lives()));
      progress.accept("planning " + Words.count(pumps.size(), "pump", "pumps"));
      CalendarRequest request = calendar.request(fleet.settings().asOf(), pumps);
      Plan plan =
          Plan.of(fleet.settings(), pumps, models::find, settings.confidence(), request, progress);
      return new FleetAnalysis(
          fleet, table, fits, models, pumps, plan, settings, whatIf, seed, calendar.files(files));
    }

    FailureReview failures(ReviewQuestion question) {
      return FailureReview.of(fleet.lives(), table, models, question);
    }
  }

  /** What fails again, and what lies behind it. */
  public FailureReview failures(ReviewQuestion question) {
    return FailureReview.of(fleet.lives(), table, models, question);
  }

  /** What {@code fleet.json} says. */
  public FleetSettings fleetSettings() {
    return fleet.settings();
  }
}

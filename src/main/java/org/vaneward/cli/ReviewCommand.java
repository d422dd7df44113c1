package org.vaneward.cli;

import java.nio.file.Path;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.vaneward.io.BadInputException;
import org.vaneward.life.LivesTable;
import org.vaneward.model.ServiceModels;
import org.vaneward.report.ColumnReviewView;
import org.vaneward.report.CountReviewView;
import org.vaneward.report.EventReviewView;
import org.vaneward.report.FailureReviewView;
import org.vaneward.report.FleetLives;
import org.vaneward.report.View;
import org.vaneward.review.CountReview;
import org.vaneward.review.EventQuestion;
import org.vaneward.review.EventReview;
import org.vaneward.review.failure.ColumnReview;
import org.vaneward.review.failure.FailureReview;
import org.vaneward.review.failure.ReviewQuestion;
import org.vaneward.stats.pooling.PoolingSettings;
import org.vaneward.stats.recurrence.EventHistories.Truncation;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Reviews recurring failures. */
@Command(
    name = "review",
    description = {
      "Reviews recurring failures: of a fleet, or of a table of events or of counts.",
      "A fleet: what fails again, on which product, in which pumps, after whose work and from which"
          + " lot, as ranked findings with the records behind them; with --by, one column of the"
          + " records in detail.",
      "A table of events has the columns unit, age and event: 1 at each event and 0 once for each"
          + " unit, where its observation ends; if need be start, from which age it was watched.",
      "A table of counts has the columns unit, count and exposure, one row for each unit."
    })
final class ReviewCommand implements Callable<Integer> {
  @Parameters(index = "0", arity = "0..1", paramLabel = "FLEET", description = "fleet folder")
  private @Nullable Path fleet;

  @Option(names = "--events", paramLabel = "FILE", description = "a CSV table of events")
  private @Nullable Path events;

  @Option(names = "--counts", paramLabel = "FILE", description = "a CSV table of counts")
  private @Nullable Path counts;

  @Option(
      names = "--by",
      paramLabel = "COLUMN",
      description =
          "fleet: a column of the lives table, such as crew, lot, site, kit_or_loose or"
              + " pressure_bar; numbers are fitted and shown in bands. Events: column that names"
              + " each unit's group; groups are compared")
  private @Nullable String by;

  @Option(
      names = "--component",
      paramLabel = "NAME",
      description = "fleet with --by: one component instead of all")
  private @Nullable String component;

  @Option(
      names = "--false-share",
      paramLabel = "Q",
      description = "fleet: share of false findings the list may hold on average (default 0.10)")
  private @Nullable Double falseShare;

  @Option(
      names = "--repeat-within",
      paramLabel = "F",
      description =
          "fleet: a part failed again when it did so within this share of the life expected there"
              + " (default 0.5)")
  private @Nullable Double repeatWithin;

  @Option(
      names = "--ages",
      split = ",",
      paramLabel = "AGE",
      description = "events: ages at which groups are compared (default: at every event)")
  private @Nullable List<Double> ages;

  @Option(
      names = "--truncation",
      paramLabel = "time|failure",
      description =
          "events: what ended observation (default: failure for one unit that ends with its last"
              + " event, otherwise time)")
  private @Nullable Truncation truncation;

  @Mixin private Common common = new Common();

  @Override
  public Integer call() {
    long sources = Stream.of(fleet, events, counts).filter(Objects::nonNull).count();
    if (sources != 1) {
      throw new BadInputException(
          "review takes one of a fleet folder, --events FILE and --counts FILE, not "
              + (sources == 0 ? "none" : "several"));
    }
    common.deliver(
        Optional.ofNullable(fleet)
            .map(this::ofFleet)
            .or(() -> Optional.ofNullable(events).map(this::ofEvents))
            .or(() -> Optional.ofNullable(counts).map(this::ofCounts))
            .orElseThrow());
    return 0;
  }

  private View ofFleet(Path folder) {
    refuse("--ages and --truncation go with --events", ages, truncation);
    Optional<String> column = Optional.ofNullable(by);
    if (column.isPresent()) {
      refuse("--false-share and --repeat-within go without --by", falseShare, repeatWithin);
    } else {
      refuse("--component goes with --by", component);
    }
    ReviewQuestion question = question();
    common.say("reading " + folder);
    FleetLives records = FleetLives.read(folder, common::say);
    LivesTable table = LivesTable.of(records.lives());
    common.say("fitting");
    ServiceModels models =
        ServiceModels.of(
            table,
            PoolingSettings.defaults()
                .withConfidence(common.confidence())
                .withDraws(ServiceModels.DRAWS)
                .withSeed(common.seed()));
    if (column.isEmpty()) {
      common.say("asking");
      return new FailureReviewView(
          records.settings(), FailureReview.of(records.lives(), table, models, question));
    }
    return new ColumnReviewView(
        records.settings(),
        ColumnReview.of(
            records.lives(), table, models, column.get(), Optional.ofNullable(component), question),
        common.confidence());
  }

  private ReviewQuestion question() {
    ReviewQuestion plain =
        ReviewQuestion.defaults().withConfidence(common.confidence()).withSeed(common.seed());
    ReviewQuestion strict =
        Optional.ofNullable(falseShare)
            .map(q -> plain.withFalseShare(share("--false-share", q)))
            .orElse(plain);
    return Optional.ofNullable(repeatWithin)
        .map(f -> strict.withRepeat(share("--repeat-within", f)))
        .orElse(strict);
  }

  private static double share(String option, double value) {
    if (!(value > 0 && value < 1)) {
      throw new BadInputException(option + " " + value + ": a share is between 0 and 1");
    }
    return value;
  }

  private View ofEvents(Path file) {
    refuseFleetOptions();
    EventQuestion question =
        new EventQuestion(
            Optional.ofNullable(by),
            Ages.checked(Optional.ofNullable(ages)),
            Optional.ofNullable(truncation),
            common.confidence());
    return new EventReviewView(EventReview.of(file, question), question);
  }

  private View ofCounts(Path file) {
    refuseFleetOptions();
    refuse(
        "--by, --ages and --truncation go with --events; counts have neither groups nor ages",
        by,
        ages,
        truncation);
    double confidence = common.confidence();
    return new CountReviewView(CountReview.of(file, confidence), confidence);
  }

  private void refuseFleetOptions() {
    refuse(
        "--component, --false-share and --repeat-within go with a fleet",
        component,
        falseShare,
        repeatWithin);
  }

  private static void refuse(String why, @Nullable Object... options) {
    if (Stream.of(options).anyMatch(Objects::nonNull)) {
      throw new BadInputException(why);
    }
  }
}

package org.vaneward.cli;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.vaneward.io.BadInputException;
import org.vaneward.report.CountReviewView;
import org.vaneward.report.EventReviewView;
import org.vaneward.review.CountReview;
import org.vaneward.review.EventQuestion;
import org.vaneward.review.EventReview;
import org.vaneward.stats.recurrence.EventHistories.Truncation;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** Reviews recurring failures. */
@Command(
    name = "review",
    description = {
      "Reviews recurring failures from a table of events or of counts.",
      "A table of events has the columns unit, age and event: 1 at each event and 0 once for each"
          + " unit, where its observation ends; if need be start, from which age it was watched.",
      "A table of counts has the columns unit, count and exposure, one row for each unit."
    })
final class ReviewCommand implements Callable<Integer> {
  @Option(names = "--events", paramLabel = "FILE", description = "a CSV table of events")
  private @Nullable Path events;

  @Option(names = "--counts", paramLabel = "FILE", description = "a CSV table of counts")
  private @Nullable Path counts;

  @Option(
      names = "--by",
      paramLabel = "COLUMN",
      description = "events: column that names each unit's group; groups are compared")
  private @Nullable String by;

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
    Optional<Path> eventFile = Optional.ofNullable(events);
    Optional<Path> countFile = Optional.ofNullable(counts);
    if (eventFile.isPresent() == countFile.isPresent()) {
      throw new BadInputException(
          "review takes either --events FILE or --counts FILE, not both and not neither");
    }
    if (eventFile.isPresent()) {
      EventQuestion question =
          new EventQuestion(
              Optional.ofNullable(by),
              Ages.checked(Optional.ofNullable(ages)),
              Optional.ofNullable(truncation),
              common.confidence());
      common.deliver(new EventReviewView(EventReview.of(eventFile.get(), question), question));
    } else {
      refuseForCounts();
      double confidence = common.confidence();
      common.deliver(
          new CountReviewView(CountReview.of(countFile.orElseThrow(), confidence), confidence));
    }
    return 0;
  }

  private void refuseForCounts() {
    if (by != null || ages != null || truncation != null) {
      throw new BadInputException(
          "--by, --ages and --truncation go with --events; counts have neither groups nor ages");
    }
  }
}

package org.vaneward.study;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.stream.IntStream;
import org.vaneward.life.LivesTable;
import org.vaneward.model.ServiceModels;
import org.vaneward.report.FleetLives;
import org.vaneward.review.failure.FailureReview;
import org.vaneward.review.failure.Finding;
import org.vaneward.review.failure.ReviewQuestion;
import org.vaneward.review.failure.Topic;
import org.vaneward.sample.Truth;
import org.vaneward.stats.pooling.PoolingSettings;

/**
 * How often a review finds something where there is nothing, and how often it finds what is there.
 * In the fleets of {@code depots-alike} no product, duty, crew, lot, pump or position differs:
 * every finding is false. In those of {@code depots-six} a lot, a crew and a pump are at fault and
 * seals last less on some products.
 *
 * <p>Run as a program, it prints the tables; progress goes to standard error.
 */
public final class FalseFindings {
  private static final long FIRST_SEED = 7001;
  private static final int POOL_DRAWS = 200;

  private FalseFindings() {}

  /**
   * What one fleet's review came to.
   *
   * @param seed it was drawn with
   * @param questions how many were put
   * @param findings what was found
   * @param truth what is true of it
   */
  record Case(long seed, int questions, List<Finding> findings, Truth truth) {
    boolean finds(Topic topic, String subject) {
      return findings.stream().anyMatch(f -> f.topic() == topic && f.subject().contains(subject));
    }
  }

  static Case review(Path scenario, long seed) {
    return DrawnFleet.look(scenario, seed, FalseFindings::review);
  }

  private static Case review(Path folder, Truth truth) {
    FleetLives fleet = FleetLives.read(folder);
    LivesTable table = LivesTable.of(fleet.lives());
    ServiceModels models =
        ServiceModels.of(
            table, PoolingSettings.defaults().withDraws(POOL_DRAWS).withSeed(truth.seed()));
    FailureReview review =
        FailureReview.of(
            fleet.lives(), table, models, ReviewQuestion.defaults().withSeed(truth.seed()));
    return new Case(truth.seed(), review.questions(), review.findings(), truth);
  }

  static List<Case> review(Path scenario, long firstSeed, int fleets) {
    AtomicInteger done = new AtomicInteger();
    return IntStream.range(0, fleets)
        .parallel()
        .mapToObj(
            i -> {
              Case one = review(scenario, firstSeed + i);
              int now = done.incrementAndGet();
              if (now % 20 == 0) {
                System.err.println(now + " of " + fleets + " fleets");
              }
              return one;
            })
        .toList();
  }

  /** Share of the fleets in which anything is found. */
  static double anyFinding(List<Case> cases) {
    return cases.stream().filter(c -> !c.findings().isEmpty()).count() / (double) cases.size();
  }

  /** Prints the tables; fleets of each scenario, 200 unless given. */
  public static void main(String[] args) {
    int fleets = args.length > 0 ? Integer.parseInt(args[0]) : 200;
    List<Case> alike = review(Path.of("seeds/depots-alike.json"), FIRST_SEED, fleets);
    System.out.println("| nothing planted | fleets | questions each | with any finding |");
    System.out.println("| --- | ---: | ---: | ---: |");
    System.out.printf(
        Locale.ROOT,
        "| depots-alike | %d | %.0f | %.1f%% |%n",
        fleets,
        alike.stream().mapToInt(Case::questions).average().orElse(0),
        100 * anyFinding(alike));
    System.out.println();
    System.out.println("| false finding about | fleets |");
    System.out.println("| --- | ---: |");
    for (Topic topic : Topic.values()) {
      long with =
          alike.stream()
              .filter(c -> c.findings().stream().anyMatch(f -> f.topic() == topic))
              .count();
      if (with > 0) {
        System.out.println("| " + topic.key() + " | " + with + " |");
      }
    }
    System.out.println();
    printFound(review(Path.of("seeds/depots-six.json"), FIRST_SEED, fleets));
  }

  private static void printFound(List<Case> cases) {
    System.out.println("| planted in depots-six | found in |");
    System.out.println("| --- | ---: |");
    for (Truth.PlantedCause cause : cases.get(0).truth().causes()) {
      Topic topic = Topic.valueOf(cause.kind().name());
      row(
          cases,
          cause.kind().name().toLowerCase(Locale.ROOT) + " " + cause.name(),
          topic,
          cause.name());
    }
    row(cases, "FW-P07 getting worse", Topic.TREND, "FW-P07");
    row(cases, "seals on urea solution", Topic.PRODUCT, "urea solution");
    row(cases, "seals on ethanol blend", Topic.PRODUCT, "ethanol blend");
    row(cases, "seals on LPG", Topic.PRODUCT, "LPG");
    List<Finding> leading = new ArrayList<>();
    cases.forEach(
        c -> c.findings().stream().filter(f -> f.partOf().isEmpty()).forEach(leading::add));
    long unplanted = leading.stream().filter(FalseFindings::isUnplanted).count();
    System.out.printf(
        Locale.ROOT,
        "%nLeading findings: %d; about nothing that was planted: %d (%.1f%%).%n",
        leading.size(),
        unplanted,
        100.0 * unplanted / Math.max(1, leading.size()));
    System.out.println();
    System.out.println("| leading, about nothing planted | number |");
    System.out.println("| --- | ---: |");
    for (Topic topic : Topic.values()) {
      long number =
          leading.stream()
              .filter(FalseFindings::isUnplanted)
              .filter(f -> f.topic() == topic)
              .count();
      if (number > 0) {
        System.out.println("| " + topic.key() + " | " + number + " |");
      }
    }
  }

  private static void row(List<Case> cases, String name, Topic topic, String subject) {
    double share =
        cases.stream().filter(c -> c.finds(topic, subject)).count() / (double) cases.size();
    System.out.printf(Locale.ROOT, "| %s | %.0f%% |%n", name, 100 * share);
  }

  /**
   * True of a finding that nothing in the scenario accounts for, directly or as what goes with it.
   */
  private static boolean isUnplanted(Finding finding) {
    return Optional.of(finding)
        .filter(f -> !(f.topic() == Topic.LOT && f.subject().equals("S2021-1R")))
        .filter(f -> !(f.topic() == Topic.CREW && f.subject().equals("contract crew")))
        .filter(f -> !f.pump().equals("FW-P07"))
        .filter(f -> f.topic() != Topic.PRODUCT && f.topic() != Topic.DUTY)
        .isPresent();
  }
}

package org.vaneward.review.failure;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.vaneward.life.Lives;
import org.vaneward.life.LivesTable;
import org.vaneward.model.ServiceModels;

/**
 * What fails again in a fleet, and what lies behind it.
 *
 * @param question how it was asked
 * @param failures failures at any age on record
 * @param startUps failures on the start-up test on record
 * @param asked how many questions were put, by topic
 * @param findings what chance does not account for: the one with the most failures beyond the
 *     expected first, each followed by its other views
 * @param clearest where there is no finding, the question that came nearest to being one
 * @param products each component by product, the component most often failed first
 * @param pumps every pump, the surest to be worse than its like first
 * @param chains early failures one after the other
 * @param early failures early in life and on the start-up test, by who fitted what where
 * @param restored what earlier rebuilds, position, reconditioning and kits have to do with failures
 */
public record FailureReview(
    ReviewQuestion question,
    double failures,
    int startUps,
    Map<Topic, Integer> asked,
    List<Finding> findings,
    Optional<Finding> clearest,
    List<ComponentByProduct> products,
    List<PumpRate> pumps,
    Chains chains,
    List<Comparison> early,
    List<Comparison> restored) {
  public FailureReview {
    asked = Map.copyOf(asked);
    findings = List.copyOf(findings);
    products = List.copyOf(products);
    pumps = List.copyOf(pumps);
    early = List.copyOf(early);
    restored = List.copyOf(restored);
  }

  /** Reviews the failures behind a lives table. */
  public static FailureReview of(
      Lives lives, LivesTable table, ServiceModels models, ReviewQuestion question) {
    return new Reviewer(new Parts(lives, table, models, question.early()), question).review();
  }

  /** Number of questions put. */
  public int questions() {
    return asked.values().stream().mapToInt(n -> n).sum();
  }

  /** Findings that are not another view of an earlier one. */
  public List<Finding> leading() {
    return findings.stream().filter(f -> f.partOf().isEmpty()).toList();
  }

  /** Other views of a finding. */
  public List<Finding> viewsOf(Finding finding) {
    return findings.stream()
        .filter(f -> f.partOf().isPresent() && f.partOf().getAsInt() == finding.rank())
        .toList();
  }
}

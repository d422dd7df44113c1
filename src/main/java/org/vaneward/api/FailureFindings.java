package org.vaneward.api;

import java.util.List;
import org.vaneward.fleet.FleetSettings;
import org.vaneward.io.BadInputException;
import org.vaneward.report.FailureReviewView;
import org.vaneward.review.failure.ComponentByProduct;
import org.vaneward.review.failure.FailureReview;
import tech.tablesaw.api.Table;

/**
 * What fails again, and what lies behind it, as far as records can tell.
 *
 * <pre>{@code
 * FailureFindings failures = decisions.failures();
 * List<String> toLookInto = failures.sentences();
 * List<Chart> bySeal = failures.charts("seal");
 * Table numbers = failures.table();
 * String howMuch = failures.summary();
 * }</pre>
 */
public final class FailureFindings {
  private final FailureReview review;
  private final FailureReviewView view;

  FailureFindings(FleetSettings settings, FailureReview review) {
    this.review = review;
    this.view = new FailureReviewView(settings, review);
  }

  /** How much was looked at, how many questions were asked of it, and what came of them. */
  public String summary() {
    return view.summary();
  }

  /** The findings in plain words, the one with the most failures beyond the expected first. */
  public List<String> sentences() {
    return view.sentences();
  }

  /** The findings with their numbers and records; the columns of {@code failures.csv}. */
  public Table table() {
    return Tables.of(view.listing());
  }

  /**
   * Failures of a component by product, over time and by what was written of them.
   *
   * @throws BadInputException when the fleet has no such component
   */
  public List<Chart> charts(String component) {
    List<String> known = review.products().stream().map(ComponentByProduct::component).toList();
    if (!known.contains(component)) {
      throw new BadInputException(
          "no component '" + component + "'; there are: " + String.join(", ", known));
    }
    return Decisions.charts(view.pictures(component));
  }
}

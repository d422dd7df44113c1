package org.vaneward.report;

import java.util.List;
import java.util.Optional;
import org.vaneward.fleet.FleetSettings;
import org.vaneward.report.Page.FailingComponent;
import org.vaneward.report.Page.FailurePart;
import org.vaneward.report.Page.Point;
import org.vaneward.review.failure.ComponentByProduct;
import org.vaneward.review.failure.FailureReview;

/** What fails again, and what lies behind it. */
final class FailureSection {
  private static final int MOST_PUMPS = 20;

  private final FailureReviewView view;
  private final FailureReview review;
  private final FailurePictures pictures;

  FailureSection(FleetSettings settings, FailureReview review) {
    view = new FailureReviewView(settings, review);
    this.review = review;
    pictures = FailurePictures.of(settings, review);
  }

  FailurePart part() {
    FailureTables tables = view.tables();
    return new FailurePart(
        view.summary(),
        view.parts(),
        review.products().stream().map(this::component).toList(),
        tables.pumps(review, MOST_PUMPS),
        FailureReviewView.pumpWords(),
        tables.chains(review),
        FailureTables.chainWords(review),
        tables.comparisons(review.early()),
        view.earlyWords(),
        tables.comparisons(review.restored()),
        FailureReviewView.restoredWords(),
        FailureTables.shopChecks());
  }

  /** What to look into in the shop, as sentences. */
  List<String> lookInto() {
    return view.sentences();
  }

  /** The leading finding, for the first screen. */
  Optional<Point> point() {
    List<String> sentences = view.sentences();
    if (sentences.isEmpty()) {
      return Optional.empty();
    }
    String first = sentences.get(0);
    int more = sentences.size() - 1;
    return Optional.of(
        new Point(
            "Failing again",
            first.replaceFirst("\\.$", ""),
            more == 0
                ? "What to check stands further down."
                : "is one of "
                    + (more + 1)
                    + " findings; the others stand under Worth looking into."));
  }

  private FailingComponent component(ComponentByProduct component) {
    FailureTables tables = view.tables();
    return new FailingComponent(
        Words.capital(FindingWords.plural(component.component())),
        pictures.of(component),
        tables.products(component),
        FailureReviewView.productWords(component),
        tables.means(component),
        tables.modesAndCauses(component));
  }
}

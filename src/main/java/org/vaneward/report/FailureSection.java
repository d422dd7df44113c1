package org.vaneward.report;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.function.Function;
import org.vaneward.chart.AgeUnit;
import org.vaneward.chart.FailureBars;
import org.vaneward.chart.MeanFailures;
import org.vaneward.chart.Pareto;
import org.vaneward.chart.Picture;
import org.vaneward.fleet.FleetSettings;
import org.vaneward.fleet.FleetSettings.Clock;
import org.vaneward.report.Page.FailingComponent;
import org.vaneward.report.Page.FailurePart;
import org.vaneward.report.Page.Point;
import org.vaneward.review.failure.ComponentByProduct;
import org.vaneward.review.failure.ComponentByProduct.OnProduct;
import org.vaneward.review.failure.ComponentByProduct.Tally;
import org.vaneward.review.failure.FailureReview;
import org.vaneward.stats.recurrence.MeanCumulativeFunction;

/** What fails again, and what lies behind it. */
final class FailureSection {
  private static final double THOUSAND = 1000;
  private static final int MOST_PUMPS = 20;

  /** A mean over fewer pumps is a history of one or two, and is not drawn. */
  private static final int LEAST_AT_RISK = 3;

  private final FailureReviewView view;
  private final FailureReview review;
  private final Clock clock;

  FailureSection(FleetSettings settings, FailureReview review) {
    view = new FailureReviewView(settings, review);
    this.review = review;
    clock = settings.clock();
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
    List<Picture> pictures = new ArrayList<>();
    bars(component).ifPresent(pictures::add);
    means(component).ifPresent(pictures::add);
    pareto(component, "mode", OnProduct::modes).ifPresent(pictures::add);
    pareto(component, "cause", OnProduct::causes).ifPresent(pictures::add);
    FailureTables tables = view.tables();
    return new FailingComponent(
        Words.capital(FindingWords.plural(component.component())),
        pictures,
        tables.products(component),
        FailureReviewView.productWords(component),
        tables.means(component),
        tables.modesAndCauses(component));
  }

  private Optional<Picture> bars(ComponentByProduct component) {
    List<FailureBars.Bar> bars =
        component.products().stream()
            .filter(p -> p.rate().isPresent())
            .limit(FailureBars.MOST_BARS)
            .map(this::bar)
            .toList();
    return bars.isEmpty()
        ? Optional.empty()
        : Optional.of(
            FailureBars.draw(
                Words.capital(component.component()) + ": failures by product",
                component.component(),
                bars,
                review.question().confidence()));
  }

  private FailureBars.Bar bar(OnProduct p) {
    return new FailureBars.Bar(
        FailureTables.named(p.product()),
        (int) Math.round(p.failures()),
        p.running(),
        THOUSAND * p.rate().orElseThrow().estimate(),
        THOUSAND * p.rate().orElseThrow().lower(),
        THOUSAND * p.rate().orElseThrow().upper(),
        AgeUnit.valueOf(clock.name()));
  }

  /** Which modes or causes make up most of the failures, all products together. */
  private static Optional<Picture> pareto(
      ComponentByProduct component, String by, Function<OnProduct, List<Tally>> tallies) {
    Map<String, Integer> counts = new TreeMap<>();
    for (OnProduct product : component.products()) {
      for (Tally tally : tallies.apply(product)) {
        counts.merge(
            tally.word().isEmpty() ? "nothing written" : tally.word(),
            tally.number(),
            Integer::sum);
      }
    }
    List<Pareto.Bar> bars =
        counts.entrySet().stream().map(e -> new Pareto.Bar(e.getKey(), e.getValue())).toList();
    return bars.size() < 2
        ? Optional.empty()
        : Optional.of(
            Pareto.draw(
                Words.capital(component.component()) + ": failures by " + by + " as written",
                "failures",
                by,
                bars));
  }

  private Optional<Picture> means(ComponentByProduct component) {
    List<MeanFailures.Line> lines = new ArrayList<>();
    for (OnProduct p : component.products()) {
      p.cumulative().flatMap(m -> line(FailureTables.named(p.product()), m)).ifPresent(lines::add);
    }
    lines.sort(
        Comparator.comparingDouble(
            line -> {
              MeanFailures.Point last = line.points().get(line.points().size() - 1);
              return -last.mean() / Math.max(1, last.hours());
            }));
    return lines.isEmpty()
        ? Optional.empty()
        : Optional.of(
            MeanFailures.draw(
                Words.capital(component.component()) + ": failures per pump by product",
                component.component(),
                lines,
                review.question().confidence(),
                AgeUnit.valueOf(clock.name())));
  }

  private static Optional<MeanFailures.Line> line(String name, MeanCumulativeFunction mean) {
    List<MeanFailures.Point> points = new ArrayList<>();
    int pumps = 0;
    for (MeanCumulativeFunction.Point p : mean.points()) {
      if (p.atRisk() >= LEAST_AT_RISK) {
        pumps = Math.max(pumps, p.atRisk());
        double upper = Double.isFinite(p.upper()) ? p.upper() : p.mean();
        double lower = Double.isFinite(p.upper()) ? p.lower() : p.mean();
        points.add(new MeanFailures.Point(p.age(), p.mean(), lower, upper));
      }
    }
    return points.isEmpty()
        ? Optional.empty()
        : Optional.of(new MeanFailures.Line(name, points, pumps));
  }
}

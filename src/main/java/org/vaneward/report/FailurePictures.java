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
import org.vaneward.review.failure.ComponentByProduct;
import org.vaneward.review.failure.ComponentByProduct.OnProduct;
import org.vaneward.review.failure.ComponentByProduct.Tally;
import org.vaneward.review.failure.FailureReview;
import org.vaneward.stats.recurrence.MeanCumulativeFunction;

/**
 * Draws the failures of a component, product by product.
 *
 * @param confidence of the limits drawn
 * @param unit of the ages
 */
record FailurePictures(double confidence, AgeUnit unit) {
  private static final double THOUSAND = 1000;

  /** A mean over fewer pumps is a history of one or two, and is not drawn. */
  private static final int LEAST_AT_RISK = 3;

  static FailurePictures of(FleetSettings settings, FailureReview review) {
    return new FailurePictures(
        review.question().confidence(), AgeUnit.valueOf(settings.clock().name()));
  }

  /** How often they come on each product, how they add up, and what was written of them. */
  List<Picture> of(ComponentByProduct component) {
    List<Picture> pictures = new ArrayList<>();
    bars(component).ifPresent(pictures::add);
    means(component).ifPresent(pictures::add);
    pareto(component, "mode", OnProduct::modes).ifPresent(pictures::add);
    pareto(component, "cause", OnProduct::causes).ifPresent(pictures::add);
    return pictures;
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
                confidence));
  }

  private FailureBars.Bar bar(OnProduct p) {
    return new FailureBars.Bar(
        FailureTables.named(p.product()),
        (int) Math.round(p.failures()),
        p.running(),
        THOUSAND * p.rate().orElseThrow().estimate(),
        THOUSAND * p.rate().orElseThrow().lower(),
        THOUSAND * p.rate().orElseThrow().upper(),
        unit);
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
                confidence,
                unit));
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

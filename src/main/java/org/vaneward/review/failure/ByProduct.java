package org.vaneward.review.failure;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Function;
import java.util.stream.IntStream;
import org.vaneward.review.failure.ComponentByProduct.Beside;
import org.vaneward.review.failure.ComponentByProduct.OnProduct;
import org.vaneward.review.failure.ComponentByProduct.Tally;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.comparison.RateRatio;
import org.vaneward.stats.nonparametric.FailureRate;
import org.vaneward.stats.recurrence.EventHistories;
import org.vaneward.stats.recurrence.MeanCumulativeDifference;
import org.vaneward.stats.recurrence.MeanCumulativeFunction;

/** Puts the failures of a component side by side by product. */
final class ByProduct {
  /** Pumps that must have run as long as the running at which means are compared. */
  private static final int LEAST_PUMPS = 3;

  private final Parts parts;
  private final double confidence;

  ByProduct(Parts parts, double confidence) {
    this.parts = parts;
    this.confidence = confidence;
  }

  ComponentByProduct of(String component) {
    Sample sample = parts.life(component, Strata.DUTY);
    RunOnProducts runs = new RunOnProducts(parts.lives().lives(), component);
    ProductLifeRatios ratios = new ProductLifeRatios(parts, component, confidence);
    List<OnProduct> products = new ArrayList<>();
    for (Group group : groups(sample)) {
      products.add(product(sample, group, runs, ratios));
    }
    products.sort(
        Comparator.comparingDouble((OnProduct p) -> -p.rate().map(Estimate::estimate).orElse(0.0)));
    return new ComponentByProduct(component, products, ratios.adjustedFor());
  }

  private static List<Group> groups(Sample sample) {
    List<Group> groups = new ArrayList<>(Group.of(sample, "product"));
    int[] unknown =
        IntStream.range(0, sample.size())
            .filter(i -> sample.text("product", i).isEmpty())
            .toArray();
    if (unknown.length > 0) {
      groups.add(new Group("", unknown));
    }
    return groups;
  }

  private OnProduct product(
      Sample sample, Group group, RunOnProducts runs, ProductLifeRatios ratios) {
    double running = 0;
    for (int i : group.rows()) {
      running += sample.running(i);
    }
    double failures = group.observed(sample);
    RateRatio ratio = group.against(sample).confidence(confidence).compare();
    EventHistories here = runs.on(group.name());
    List<FailureRecord> records = sample.records(group.rows());
    return new OnProduct(
        group.name(),
        group.lives(sample).size(),
        failures,
        running,
        running > 0 ? Optional.of(FailureRate.of(failures, running, confidence)) : Optional.empty(),
        ratio instanceof RateRatio.Compared c ? Optional.of(c.ratio()) : Optional.empty(),
        ratio instanceof RateRatio.Compared c ? OptionalDouble.of(c.p()) : OptionalDouble.empty(),
        Optional.ofNullable(ratios.byProduct().get(ProductLifeRatios.nameOf(group.name()))),
        here.size() > 0
            ? Optional.of(MeanCumulativeFunction.of(here, confidence))
            : Optional.empty(),
        beside(here, runs.elsewhere(group.name())),
        tally(records, FailureRecord::mode),
        tally(records, FailureRecord::cause));
  }

  private Optional<Beside> beside(EventHistories here, EventHistories elsewhere) {
    double most = Math.min(reached(here), reached(elsewhere));
    if (!(most >= 1)) {
      return Optional.empty();
    }
    double age = round(most);
    List<MeanCumulativeDifference.Point> points =
        MeanCumulativeDifference.of(here, elsewhere, confidence, age).points();
    Optional<Estimate> one = MeanCumulativeFunction.of(here, confidence).at(age);
    Optional<Estimate> other = MeanCumulativeFunction.of(elsewhere, confidence).at(age);
    if (points.isEmpty() || one.isEmpty() || other.isEmpty()) {
      return Optional.empty();
    }
    MeanCumulativeDifference.Point p = points.get(0);
    // Where the pumps of one side had all the same, nothing is known of how they differ: no test.
    boolean tested = Double.isFinite(one.get().upper()) && Double.isFinite(other.get().upper());
    return Optional.of(
        new Beside(
            age,
            one.get(),
            other.get(),
            tested
                ? new Estimate(p.difference(), p.lower(), p.upper())
                : new Estimate(p.difference(), Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY),
            tested ? OptionalDouble.of(p.p()) : OptionalDouble.empty()));
  }

  /** The running that so many pumps have reached; 0 when there are not so many. */
  private static double reached(EventHistories histories) {
    double[] ends =
        IntStream.range(0, histories.size()).mapToDouble(histories::end).sorted().toArray();
    return ends.length < LEAST_PUMPS ? 0 : ends[ends.length - LEAST_PUMPS];
  }

  /** The greatest of 1, 2 and 5 times a power of ten that is no greater. */
  private static double round(double most) {
    double power = Math.pow(10, Math.floor(Math.log10(most)));
    return most >= 5 * power ? 5 * power : most >= 2 * power ? 2 * power : power;
  }

  private static List<Tally> tally(
      List<FailureRecord> records, Function<FailureRecord, String> word) {
    Map<String, Integer> counts = new HashMap<>();
    records.forEach(r -> counts.merge(word.apply(r), 1, Integer::sum));
    return counts.entrySet().stream()
        .map(e -> new Tally(e.getKey(), e.getValue()))
        .sorted(Comparator.comparing((Tally t) -> -t.number()).thenComparing(Tally::word))
        .toList();
  }
}

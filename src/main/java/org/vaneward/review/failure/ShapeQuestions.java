package org.vaneward.review.failure;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.stream.IntStream;
import org.vaneward.fleet.Service;
import org.vaneward.life.LivesTable;
import org.vaneward.model.LifeModel;
import org.vaneward.review.failure.Evidence.Measure;
import org.vaneward.stats.LikelihoodRatio;
import org.vaneward.stats.Observations;
import org.vaneward.stats.fit.FitSettings;
import org.vaneward.stats.fit.LifeFits;
import org.vaneward.stats.fit.WeibullFit;
import org.vaneward.stats.fit.WeibullFitter;

/** Do failures of a component in a service thin out with age: a shape below one? */
final class ShapeQuestions {
  /** Fewer failures say next to nothing of the shape. */
  private static final double LEAST_FAILURES = 5;

  private final Parts parts;
  private final FitSettings settings;

  ShapeQuestions(Parts parts, double confidence) {
    this.parts = parts;
    settings = FitSettings.defaults().withConfidence(confidence);
  }

  List<Asked> all() {
    List<Asked> asked = new ArrayList<>();
    List<String> known = parts.components();
    parts
        .rows()
        .groupBy(List.of("component", "product", "duty"))
        .forEach(
            (names, rows) -> {
              if (known.contains(names.get(0)) && rows.failures() >= LEAST_FAILURES) {
                question(names, rows).ifPresent(asked::add);
              }
            });
    return asked;
  }

  private Optional<Asked> question(List<String> names, LivesTable rows) {
    Observations observations = rows.observations();
    Optional<LikelihoodRatio> test = LifeFits.exponentialInsideWeibull(observations);
    if (test.isEmpty()
        || !(WeibullFitter.fit(observations, settings) instanceof WeibullFit.Fitted fit)) {
      return Optional.empty();
    }
    double half = test.get().p() / 2;
    String subject = names.get(1) + ", " + names.get(2);
    return Optional.of(
        new Asked(
            Topic.SHAPE,
            Outcome.LIFE,
            names.get(0),
            subject,
            "",
            fit.shape().estimate() < 1 ? half : 1 - half,
            () -> evidence(names, rows, fit),
            () -> Set.of(),
            lives -> OptionalDouble.empty()));
  }

  private Evidence evidence(List<String> names, LivesTable rows, WeibullFit.Fitted fit) {
    Optional<Service> service =
        names.get(1).isEmpty() && names.get(2).isEmpty()
            ? Optional.empty()
            : Optional.of(new Service(names.get(1), names.get(2)));
    OptionalDouble below =
        parts.model(names.get(0), service).stream().mapToDouble(ShapeQuestions::below).findFirst();
    List<FailureRecord> failures =
        IntStream.range(0, parts.rows().rows())
            .filter(i -> parts.rows().failed(i))
            .filter(i -> parts.rows().text("component", i).equals(names.get(0)))
            .filter(i -> parts.service(i).equals(service))
            .mapToObj(parts::record)
            .sorted(Comparator.comparing(FailureRecord::date))
            .toList();
    return new Evidence(
        rows.failures(),
        rows.failures(),
        Measure.SHAPE,
        fit.shape(),
        Optional.empty(),
        below,
        "",
        failures);
  }

  private static double below(LifeModel model) {
    int below = 0;
    for (int d = 0; d < model.draws().size(); d++) {
      below += model.draws().shape(d) < 1 ? 1 : 0;
    }
    return (double) below / model.draws().size();
  }
}

package org.vaneward.docs;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.vaneward.stats.Observations;
import org.vaneward.stats.pooling.PartialPooling;
import org.vaneward.stats.pooling.PooledFit;
import org.vaneward.stats.pooling.ReferencePooling;
import org.vaneward.stats.pooling.ReferencePooling.Figure;
import org.vaneward.stats.pooling.ReferencePooling.Model;

/** Pooled fits beside the posterior integrated by brute force. */
final class PoolingChecks {
  private PoolingChecks() {}

  static ValidationSection section() {
    Map<String, PooledFit.Fitted> fits = new LinkedHashMap<>();
    List<ValidationRow> rows = new ArrayList<>();
    for (Figure figure : ReferencePooling.figures()) {
      Map<String, Observations> lives = ReferencePooling.lives(figure.caseName());
      PooledFit.Fitted fit =
          fits.computeIfAbsent(
              figure.model() + figure.caseName(), c -> fitted(figure, List.copyOf(lives.values())));
      if (!figure.quantity().startsWith("below")) {
        rows.add(row(figure, fit, List.copyOf(lives.keySet())));
      }
    }
    return new ValidationSection(
        "Partial pooling",
        "pooling",
        "Posterior means and standard deviations of log shapes, log scales and their standard"
            + " deviations between groups, from 40,000 draws, and the log marginal likelihood, which"
            + " needs none.",
        rows,
        Map.of(
            "brute force",
            "the model's formula on equally spaced nodes in R, scripts, lives and figures in"
                + " `src/test/resources/reference-own/pooling`; tolerance: the figure's own error and"
                + " four standard deviations of the draws' Monte Carlo error"));
  }

  private static PooledFit.Fitted fitted(Figure figure, List<Observations> groups) {
    if (PartialPooling.fit(groups, figure.model().settings()) instanceof PooledFit.Fitted fit) {
      return fit;
    }
    throw new IllegalStateException("a reference sample is not fitted");
  }

  private static ValidationRow row(Figure figure, PooledFit.Fitted fit, List<String> groups) {
    double slack = figure.trusted() + 4 * ReferencePooling.noise(fit, groups, figure.quantity());
    return ValidationRow.of(
        figure.caseName() + (figure.model() == Model.SHAPES ? ", shapes differ" : ", one shape"),
        figure.quantity().replace('_', ' ').replace(":", ", group "),
        "brute force",
        figure.value(),
        ReferencePooling.got(fit, groups, figure.quantity()),
        slack,
        String.format(Locale.ROOT, "abs. %.0e", slack));
  }
}

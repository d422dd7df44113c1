package org.vaneward.stats.regression;

import static org.junit.jupiter.api.Assertions.assertInstanceOf;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.vaneward.stats.Observations;
import org.vaneward.stats.Reference;
import org.vaneward.stats.Reference.Case;
import org.vaneward.stats.regression.RegressionFit.Fitted;
import org.vaneward.stats.regression.RegressionFit.NotEstimable;

/** What the tests of regressions share. */
final class Samples {
  private Samples() {}

  static Case reference(String name) {
    return Reference.cases("regression").stream()
        .filter(c -> c.name().equals(name))
        .findFirst()
        .orElseThrow();
  }

  /** The case's covariates: numbers where its coefficients go by the column's own name. */
  static Covariates covariates(Case c) {
    List<Map<String, String>> rows = c.rows();
    Covariates.Builder builder = Covariates.builder(rows.size());
    for (JsonNode name : c.node().get("covariates")) {
      List<String> cells =
          rows.stream().map(row -> Objects.requireNonNull(row.get(name.asText()))).toList();
      boolean numeric = false;
      for (JsonNode coefficient : c.expected().get("coefficients")) {
        numeric |= coefficient.get("term").equals(name);
      }
      if (numeric) {
        builder.numeric(name.asText(), cells.stream().mapToDouble(Double::parseDouble).toArray());
      } else {
        builder.categorical(name.asText(), cells);
      }
    }
    return builder.build();
  }

  static Fitted fitted(Case c, double confidence) {
    return fitted(
        c.lives(), covariates(c), RegressionSettings.defaults().withConfidence(confidence));
  }

  static Fitted fitted(Observations lives, Covariates covariates) {
    return fitted(lives, covariates, RegressionSettings.defaults());
  }

  static Fitted fitted(Observations lives, Covariates covariates, RegressionSettings settings) {
    return assertInstanceOf(Fitted.class, WeibullRegression.fit(lives, covariates, settings));
  }

  static NotEstimable refused(Observations lives, Covariates covariates) {
    return assertInstanceOf(
        NotEstimable.class,
        WeibullRegression.fit(lives, covariates, RegressionSettings.defaults()));
  }
}

package org.vaneward.docs;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.vaneward.docs.FitChecks.Rows;
import org.vaneward.stats.Reference;
import org.vaneward.stats.Reference.Case;
import org.vaneward.stats.regression.Covariates;
import org.vaneward.stats.regression.RegressionFit;
import org.vaneward.stats.regression.RegressionFit.Coefficient;
import org.vaneward.stats.regression.RegressionFit.Fitted;
import org.vaneward.stats.regression.RegressionFit.TermTest;
import org.vaneward.stats.regression.RegressionSettings;
import org.vaneward.stats.regression.WeibullRegression;

/** Weibull regressions beside those of general-purpose statistics software. */
final class RegressionChecks {
  private RegressionChecks() {}

  static ValidationSection regressions() {
    List<Case> cases = Reference.cases("regression");
    Rows rows = new Rows(cases.get(0));
    for (Case c : cases) {
      rows.next(c);
      JsonNode e = c.expected();
      Fitted fit = fitted(c);
      for (int i = 0; i < fit.coefficients().size(); i++) {
        coefficient(rows, e.get("coefficients").get(i), fit.coefficients().get(i));
      }
      rows.add("shape", e.get("shape"), fit.shape().estimate());
      rows.add("shape, lower limit", e.get("shape_wald_90").get(0), fit.shape().lower());
      rows.add("shape, upper limit", e.get("shape_wald_90").get(1), fit.shape().upper());
      rows.add("log-likelihood", e.get("log_likelihood"), fit.logLikelihood());
      rows.add(
          "log-likelihood, intercept alone",
          e.get("null_log_likelihood"),
          fit.nullLogLikelihood().orElse(Double.NaN));
      for (int i = 0; i < fit.termTests().size(); i++) {
        test(rows, e.get("term_tests").get(i), fit.termTests().get(i));
      }
    }
    return new ValidationSection(
        "Regression",
        "regression",
        "Weibull regressions of log scale on covariates, with symmetric limits at 90% and a"
            + "\nlikelihood-ratio test of each covariate.",
        rows.rows,
        rows.citations);
  }

  private static void coefficient(Rows rows, JsonNode e, Coefficient got) {
    String term = got.term();
    rows.add(term, e.get("estimate"), got.value().estimate());
    rows.add(term + ", standard error", e.get("std_error"), got.stdError());
    rows.add(term + ", lower limit", e.get("lower_90"), got.value().lower());
    rows.add(term + ", upper limit", e.get("upper_90"), got.value().upper());
    got.lifeRatio()
        .ifPresent(r -> rows.add(term + ", life ratio", e.get("life_ratio"), r.estimate()));
    got.hazardRatio()
        .ifPresent(r -> rows.add(term + ", hazard ratio", e.get("hazard_ratio"), r.estimate()));
  }

  private static void test(Rows rows, JsonNode e, TermTest got) {
    rows.add(got.term() + ", likelihood-ratio statistic", e.get("statistic"), got.statistic());
    rows.add(got.term() + ", p", e.get("p"), got.p());
    rows.add(got.term() + ", p after Holm", e.get("p_holm"), got.pHolm());
  }

  private static Fitted fitted(Case c) {
    RegressionSettings settings = RegressionSettings.defaults().withConfidence(0.90);
    RegressionFit fit = WeibullRegression.fit(c.lives(), covariates(c), settings);
    if (fit instanceof Fitted fitted) {
      return fitted;
    }
    throw new IllegalStateException(c.name() + " is not fitted");
  }

  /** The case's covariates: numbers where its coefficients go by the column's own name. */
  private static Covariates covariates(Case c) {
    List<Map<String, String>> rows = c.rows();
    Covariates.Builder builder = Covariates.builder(rows.size());
    for (JsonNode name : c.node().get("covariates")) {
      List<String> cells =
          rows.stream().map(row -> Objects.requireNonNull(row.get(name.asText()))).toList();
      if (isNumeric(c, name)) {
        builder.numeric(name.asText(), cells.stream().mapToDouble(Double::parseDouble).toArray());
      } else {
        builder.categorical(name.asText(), cells);
      }
    }
    return builder.build();
  }

  private static boolean isNumeric(Case c, JsonNode name) {
    for (JsonNode coefficient : c.expected().get("coefficients")) {
      if (coefficient.get("term").equals(name)) {
        return true;
      }
    }
    return false;
  }
}

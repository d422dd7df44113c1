package org.vaneward.docs;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.LikelihoodRatio;
import org.vaneward.stats.Observations;
import org.vaneward.stats.Reference;
import org.vaneward.stats.Reference.Case;
import org.vaneward.stats.fit.CommonShape;
import org.vaneward.stats.fit.CommonShapeFit;
import org.vaneward.stats.fit.FitSettings;
import org.vaneward.stats.fit.WeibullFit;
import org.vaneward.stats.fit.WeibullFit.Fitted;
import org.vaneward.stats.fit.WeibullFitter;

/** Weibull fits beside those of general-purpose statistics software. */
final class FitChecks {
  private FitChecks() {}

  /** Rows of one section while they are collected. */
  static final class Rows {
    final List<ValidationRow> rows = new ArrayList<>();
    final Map<String, String> citations = new LinkedHashMap<>();
    private Case current;

    Rows(Case first) {
      current = first;
    }

    void next(Case c) {
      current = c;
      citations.putAll(ValidationTable.citation(c.node()));
    }

    /** A number held to the expected one within the case's tolerance. */
    void add(String quantity, JsonNode expected, double got) {
      double wanted = expected.isNull() ? Double.POSITIVE_INFINITY : expected.asDouble();
      // a limit of the reference that does not exist may be infinite or 0 here
      double shown = expected.isNull() && got == 0 ? Double.POSITIVE_INFINITY : got;
      rows.add(
          ValidationRow.of(
              current.name(), quantity, source(), wanted, shown, slack(wanted), tolerance()));
    }

    void addWords(String quantity, String expected, String got, boolean same) {
      rows.add(ValidationRow.ofWords(current.name(), quantity, source(), expected, got, same));
    }

    double slack(double wanted) {
      double relative = current.node().get("tolerance").asDouble();
      return Math.max(
          current.node().get("absolute_tolerance").asDouble(), relative * Math.abs(wanted));
    }

    String source() {
      return "computed in R: " + current.node().get("dataset").asText();
    }

    String tolerance() {
      return String.format(Locale.ROOT, "rel. %.0e", current.node().get("tolerance").asDouble());
    }
  }

  static ValidationSection fits(String title, String topic) {
    List<Case> cases = Reference.cases(topic);
    Rows rows = new Rows(cases.get(0));
    for (Case c : cases) {
      rows.next(c);
      JsonNode w = c.expected().get("weibull");
      Fitted fit = fitted(c.lives(), FitSettings.defaults().withConfidence(0.90));
      rows.add("shape", w.get("shape"), fit.weibull().shape());
      limits(rows, "shape", w.get("profile_90").get("shape"), fit.shape());
      rows.add("scale", w.get("scale"), fit.weibull().scale());
      limits(rows, "scale", w.get("profile_90").get("scale"), fit.scale());
      rows.add("log-likelihood", w.get("log_likelihood"), fit.logLikelihood());
    }
    return new ValidationSection(
        title,
        topic,
        "Weibull fits by maximum likelihood with profile limits at 90%.",
        rows.rows,
        rows.citations);
  }

  private static void limits(Rows rows, String what, JsonNode expected, Estimate got) {
    rows.add(what + ", lower limit", expected.get(0), got.lower());
    rows.add(what + ", upper limit", expected.get(1), got.upper());
  }

  static ValidationSection notEstimable() {
    List<Case> cases = Reference.cases("not_estimable");
    Rows rows = new Rows(cases.get(0));
    for (Case c : cases) {
      rows.next(c);
      JsonNode expected = c.expected();
      Observations lives = c.lives();
      existence(rows, expected, WeibullFitter.fit(lives, FitSettings.defaults()));
      for (JsonNode limit : expected.path("lower_limits")) {
        double shape = limit.get("shape").asDouble();
        double confidence = limit.get("confidence").asDouble();
        rows.add(
            String.format(
                Locale.ROOT, "lower limit of scale, shape %.1f, %.0f%%", shape, 100 * confidence),
            limit.get("scale_lower"),
            WeibullFitter.scaleLowerLimit(lives, shape, confidence));
      }
      for (JsonNode fixed : expected.path("fixed_shape")) {
        double shape = fixed.get("shape").asDouble();
        Fitted at = fitted(lives, FitSettings.defaults().withFixedShape(shape));
        rows.add(
            String.format(Locale.ROOT, "scale at shape %.1f", shape),
            fixed.get("scale"),
            at.weibull().scale());
      }
    }
    return new ValidationSection(
        "Not estimable",
        "not_estimable",
        "Samples without a finite maximum must be refused, those with one must not, and what can"
            + "\nstill be said must be right.",
        rows.rows,
        rows.citations);
  }

  private static void existence(Rows rows, JsonNode expected, WeibullFit fit) {
    boolean exists = expected.get("finite_maximum").asBoolean();
    boolean found = fit instanceof Fitted;
    rows.addWords(
        "is there a maximum", exists ? "yes" : "no", found ? "yes" : "no", exists == found);
    if (expected.has("shape") && fit instanceof Fitted fitted) {
      rows.add("shape", expected.get("shape"), fitted.weibull().shape());
      rows.add("scale", expected.get("scale"), fitted.weibull().scale());
      rows.add("log-likelihood", expected.get("log_likelihood"), fitted.logLikelihood());
    }
  }

  static ValidationSection commonShape() {
    List<Case> cases = Reference.cases("common_shape");
    Rows rows = new Rows(cases.get(0));
    for (Case c : cases) {
      rows.next(c);
      JsonNode e = c.expected();
      Map<String, Observations> groups = c.groups();
      List<Observations> inOrder = new ArrayList<>();
      e.get("groups")
          .forEach(g -> inOrder.add(Objects.requireNonNull(groups.get(g.asText()), g.asText())));
      if (!(CommonShapeFit.fit(inOrder, FitSettings.defaults())
          instanceof CommonShape.Fitted fit)) {
        throw new IllegalStateException(c.name() + " is not fitted");
      }
      LikelihoodRatio test = fit.equalShapes().orElseThrow();
      rows.add("common shape", e.get("common_shape"), fit.shape().estimate());
      rows.add("log-likelihood, one shape", e.get("log_likelihood_common"), fit.logLikelihood());
      rows.add(
          "log-likelihood, own shapes",
          e.get("log_likelihood_separate"),
          fit.logLikelihoodSeparate().orElseThrow());
      rows.add("likelihood-ratio statistic", e.get("statistic"), test.statistic());
      rows.add("p", e.get("p"), test.p());
    }
    return new ValidationSection(
        "Common shape",
        "common_shape",
        "One shape for all groups, each with its own scale, and the test against a shape for each.",
        rows.rows,
        rows.citations);
  }

  static Fitted fitted(Observations lives, FitSettings settings) {
    if (WeibullFitter.fit(lives, settings) instanceof Fitted fit) {
      return fit;
    }
    throw new IllegalStateException("a reference sample is not fitted");
  }
}

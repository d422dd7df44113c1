package org.vaneward.stats.regression;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.LikelihoodRatio;
import org.vaneward.stats.Reference;
import org.vaneward.stats.Reference.Case;
import org.vaneward.stats.regression.RegressionFit.Coefficient;
import org.vaneward.stats.regression.RegressionFit.Fitted;
import org.vaneward.stats.regression.RegressionFit.TermTest;

/** Every figure of every reference regression. */
class ReferenceRegressionTest {
  static List<Case> cases() {
    return Reference.cases("regression");
  }

  @ParameterizedTest
  @MethodSource("cases")
  void agrees(Case c) {
    JsonNode e = c.expected();
    Fitted fit = Samples.fitted(c, 0.90);
    Fitted wide = Samples.fitted(c, 0.95);
    assertEquals(c.node().get("n").asDouble(), fit.lives());
    assertEquals(c.node().get("n_events").asDouble(), fit.failures());
    assertEquals(e.get("coefficients").size(), fit.coefficients().size());
    for (int i = 0; i < fit.coefficients().size(); i++) {
      coefficient(c, e.get("coefficients").get(i), fit.coefficients().get(i));
      Estimate at95 = wide.coefficients().get(i).value();
      c.holds("lower 95", e.get("coefficients").get(i).get("lower_95"), at95.lower());
      c.holds("upper 95", e.get("coefficients").get(i).get("upper_95"), at95.upper());
    }
    c.holds("shape", e.get("shape"), fit.shape().estimate());
    limits(c, "shape 90", e.get("shape_wald_90"), fit.shape());
    limits(c, "shape 95", e.get("shape_wald_95"), wide.shape());
    c.holds("aic", e.get("aic"), fit.aic());
    c.holds("aicc", e.get("aicc"), fit.aicc().orElseThrow());
    c.holds("bic", e.get("bic"), fit.bic());
    covariance(c, e, fit);
    tests(c, e, fit);
    assertTrue(fit.proof().gradientNorm() <= WeibullRegression.STEEPEST);
    assertTrue(fit.proof().smallestCurvature() >= WeibullRegression.FLATTEST);
  }

  private static void coefficient(Case c, JsonNode e, Coefficient got) {
    String term = e.get("term").asText();
    assertEquals(term, got.term());
    c.holds(term, e.get("estimate"), got.value().estimate());
    c.holds(term + " std error", e.get("std_error"), got.stdError());
    c.holds(term + " lower 90", e.get("lower_90"), got.value().lower());
    c.holds(term + " upper 90", e.get("upper_90"), got.value().upper());
    c.holds(term + " z", e.get("z"), got.z());
    c.holds(term + " p", e.get("p"), got.p());
    assertEquals(e.get("life_ratio").isNull(), got.lifeRatio().isEmpty());
    assertEquals(e.get("hazard_ratio").isNull(), got.hazardRatio().isEmpty());
    if (got.lifeRatio().isPresent()) {
      Estimate life = got.lifeRatio().get();
      c.holds(term + " life ratio", e.get("life_ratio"), life.estimate());
      assertEquals(Math.exp(got.value().lower()), life.lower());
      assertEquals(Math.exp(got.value().upper()), life.upper());
    }
    if (got.hazardRatio().isPresent()) {
      c.holds(term + " hazard ratio", e.get("hazard_ratio"), got.hazardRatio().get().estimate());
    }
  }

  private static void limits(Case c, String what, JsonNode e, Estimate got) {
    c.holds(what + " lower", e.get(0), got.lower());
    c.holds(what + " upper", e.get(1), got.upper());
  }

  private static void covariance(Case c, JsonNode e, Fitted fit) {
    JsonNode order = e.get("covariance_order");
    assertEquals(order.size(), fit.covarianceOrder().size());
    for (int i = 0; i < order.size(); i++) {
      assertEquals(order.get(i).asText(), fit.covarianceOrder().get(i));
      for (int j = 0; j < order.size(); j++) {
        c.holds(
            "covariance " + i + " " + j,
            e.get("covariance").get(i).get(j),
            fit.covariance().get(i).get(j));
      }
    }
  }

  private static void tests(Case c, JsonNode e, Fitted fit) {
    c.holds("log-likelihood", e.get("log_likelihood"), fit.logLikelihood());
    c.holds("null", e.get("null_log_likelihood"), fit.nullLogLikelihood().orElseThrow());
    LikelihoodRatio overall = fit.overall().orElseThrow();
    JsonNode ratio = e.get("likelihood_ratio");
    c.holds("overall", ratio.get("statistic"), overall.statistic());
    assertEquals(ratio.get("df").asInt(), overall.degreesOfFreedom());
    c.holds("overall p", ratio.get("p"), overall.p());
    assertTrue(fit.untested().isEmpty());
    assertEquals(e.get("term_tests").size(), fit.termTests().size());
    for (int i = 0; i < fit.termTests().size(); i++) {
      JsonNode expected = e.get("term_tests").get(i);
      TermTest got = fit.termTests().get(i);
      assertEquals(expected.get("term").asText(), got.term());
      c.holds(got.term() + " statistic", expected.get("statistic"), got.statistic());
      assertEquals(expected.get("df").asInt(), got.degreesOfFreedom());
      c.holds(got.term() + " p", expected.get("p"), got.p());
      c.holds(got.term() + " p, Holm", expected.get("p_holm"), got.pHolm());
    }
  }
}

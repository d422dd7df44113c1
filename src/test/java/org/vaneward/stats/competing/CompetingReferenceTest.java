package org.vaneward.stats.competing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.vaneward.stats.Observations;
import org.vaneward.stats.Reference;
import org.vaneward.stats.Reference.Case;
import org.vaneward.stats.competing.CumulativeIncidence.Incidence;
import org.vaneward.stats.fit.FitSettings;
import org.vaneward.stats.fit.WeibullFit.Fitted;
import org.vaneward.stats.nonparametric.ProductLimit;

class CompetingReferenceTest {
  static Stream<Case> cases() {
    return Reference.cases("competing_risks").stream();
  }

  @Test
  void allCasesAreRead() {
    assertEquals(1, cases().count());
  }

  static CauseLives lives(Case c) {
    List<String> names = new ArrayList<>();
    c.expected().get("causes").forEach(name -> names.add(name.asText()));
    int[] cause = c.rows().stream().mapToInt(r -> names.indexOf(r.get("cause"))).toArray();
    return CauseLives.of(c.lives(), cause, names);
  }

  @ParameterizedTest
  @MethodSource("cases")
  void curvesAgreeWithReference(Case c) {
    JsonNode e = c.expected();
    CauseLives lives = lives(c);
    CumulativeIncidence curves = CumulativeIncidence.of(lives, 0.90);
    assertEquals(c.node().get("n").asDouble(), curves.lives());
    assertEquals(c.node().get("n_events").asDouble(), lives.lives().failures());
    JsonNode ages = e.get("age");
    assertEquals(7, ages.size());
    for (int i = 0; i < ages.size(); i++) {
      double age = ages.get(i).asDouble();
      c.holds("event free", e.get("event_free").get(i), curves.eventFreeAt(age).orElseThrow());
      for (int k = 0; k < lives.causes(); k++) {
        JsonNode expected = e.get("aalen_johansen").get(lives.names().get(k));
        Incidence got = curves.incidenceAt(age, k).orElseThrow();
        c.holds("incidence", expected.get("incidence").get(i), got.share().estimate());
        c.holds("std error", expected.get("std_error").get(i), got.stdError());
      }
    }
  }

  @ParameterizedTest
  @MethodSource("cases")
  void fitsAgreeWithReference(Case c) {
    JsonNode e = c.expected();
    CauseLives lives = lives(c);
    CauseSpecificFits fits = CauseSpecificFits.fit(lives, FitSettings.defaults());
    for (int k = 0; k < lives.causes(); k++) {
      JsonNode w = e.get("weibull").get(lives.names().get(k));
      Fitted fit = assertInstanceOf(Fitted.class, fits.causes().get(k).fit());
      c.holds("events", w.get("events"), fit.failures());
      c.holds("events", w.get("events"), lives.failures(k));
      c.holds("shape", w.get("shape"), fit.weibull().shape());
      c.holds("scale", w.get("scale"), fit.weibull().scale());
      c.holds("log-likelihood", w.get("log_likelihood"), fit.logLikelihood());
      JsonNode v = w.get("covariance_log_scale_log_shape");
      c.holds("covariance", v.get(0).get(0), fit.covariance().scaleScale());
      c.holds("covariance", v.get(0).get(1), fit.covariance().scaleShape());
      c.holds("covariance", v.get(1).get(0), fit.covariance().scaleShape());
      c.holds("covariance", v.get(1).get(1), fit.covariance().shapeShape());
    }
    FittedIncidence fitted = fits.incidence().orElseThrow();
    assertEquals(List.of(0, 1), fits.fitted());
    for (int i = 0; i < e.get("age").size(); i++) {
      for (int k = 0; k < lives.causes(); k++) {
        JsonNode expected = e.get("fitted_incidence").get(lives.names().get(k)).get(i);
        c.holds("fitted", expected, fitted.incidence(k, e.get("age").get(i).asDouble()));
      }
    }
  }

  /** One minus the product limit is what the reference has for it, and is not the incidence. */
  @ParameterizedTest
  @MethodSource("cases")
  void theNaiveCurveIsNotTheIncidence(Case c) {
    JsonNode e = c.expected();
    CauseLives lives = lives(c);
    CumulativeIncidence curves = CumulativeIncidence.of(lives, 0.90);
    for (int k = 0; k < lives.causes(); k++) {
      Observations own = lives.forCause(k);
      ProductLimit naive = ProductLimit.of(own, 0.90);
      for (int i = 0; i < e.get("age").size(); i++) {
        double age = e.get("age").get(i).asDouble();
        double one = 1 - naive.survivalAt(age).orElseThrow();
        c.holds(
            "naive", e.get("naive_one_minus_kaplan_meier").get(lives.names().get(k)).get(i), one);
        double incidence = curves.incidenceAt(age, k).orElseThrow().share().estimate();
        assertTrue(one > incidence * 1.001, () -> lives.names() + " at " + age);
      }
    }
  }
}

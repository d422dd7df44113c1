package org.vaneward.stats.fit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.Observations;
import org.vaneward.stats.Reference;
import org.vaneward.stats.Reference.Case;
import org.vaneward.stats.fit.WeibullFit.Fitted;
import org.vaneward.stats.fit.WeibullFit.LimitMethod;
import org.vaneward.stats.fit.WeibullFit.NotEstimable;

/**
 * Weibull fits against general-purpose statistics software: files in {@code reference/expected}.
 */
class ReferenceFitsTest {
  static Stream<Case> fits() {
    return Stream.of("right_censored_fits", "interval_censored_fits", "delayed_entry_fits")
        .flatMap(topic -> Reference.cases(topic).stream());
  }

  static Stream<Case> notEstimable() {
    return Reference.cases("not_estimable").stream();
  }

  @Test
  void allCasesAreRead() {
    assertEquals(18 + 4 + 3, fits().count());
    assertEquals(8, notEstimable().count());
  }

  @ParameterizedTest
  @MethodSource("fits")
  void estimates(Case c) {
    JsonNode w = c.expected().get("weibull");
    Observations lives = c.lives();
    Fitted fit = fitted(lives, settings());
    assertEquals(c.node().get("n").asDouble(), fit.lives());
    assertEquals(c.node().get("n_events").asDouble(), fit.failures());
    c.holds("shape", w.get("shape"), fit.weibull().shape());
    c.holds("scale", w.get("scale"), fit.weibull().scale());
    c.holds("log-likelihood", w.get("log_likelihood"), fit.logLikelihood());
    JsonNode covariance = w.get("covariance_log_scale_log_shape");
    c.holds("var log scale", covariance.get(0).get(0), fit.covariance().scaleScale());
    c.holds("cov", covariance.get(0).get(1), fit.covariance().scaleShape());
    c.holds("var log shape", covariance.get(1).get(1), fit.covariance().shapeShape());
    c.holds("quantile", w.get("quantile_10"), fit.weibull().quantile(0.1));
    JsonNode survival = w.get("survival");
    c.holds(
        "survival",
        survival.get("estimate"),
        fit.weibull().survival(survival.get("age").asDouble()));
    c.holds("aic", w.get("aic"), fit.aic());
    c.holds("bic", w.get("bic"), fit.bic());
    if (w.get("aicc").isNull()) {
      assertTrue(fit.aicc().isEmpty());
    } else {
      c.holds("aicc", w.get("aicc"), fit.aicc().orElseThrow());
    }
  }

  @ParameterizedTest
  @MethodSource("fits")
  void limits(Case c) {
    JsonNode w = c.expected().get("weibull");
    Observations lives = c.lives();
    int blocks = 0;
    for (LimitMethod method : List.of(LimitMethod.PROFILE, LimitMethod.WALD)) {
      for (int percent : new int[] {90, 95}) {
        String block = (method == LimitMethod.WALD ? "wald_" : "profile_") + percent;
        JsonNode expected = w.get(block);
        Fitted fit = fitted(lives, settings().withLimits(method).withConfidence(percent / 100.0));
        limits(c, block + " shape", expected.get("shape"), fit.shape());
        limits(c, block + " scale", expected.get("scale"), fit.scale());
        limits(c, block + " quantile", expected.get("quantile_10"), fit.quantiles().get(0).age());
        double age = w.get("survival").get("age").asDouble();
        limits(
            c,
            block + " survival",
            expected.get("survival"),
            WeibullFitter.survival(lives, fit, age).get(0));
        blocks++;
      }
    }
    assertEquals(4, blocks);
  }

  private static void limits(Case c, String what, JsonNode expected, Estimate got) {
    c.holds(what + " lower", expected.get(0), got.lower());
    c.holds(what + " upper", expected.get(1), got.upper());
  }

  /** A stated shape of 1 is the exponential distribution. */
  @ParameterizedTest
  @MethodSource("fits")
  void exponential(Case c) {
    JsonNode e = c.expected().get("exponential");
    Fitted fit = fitted(c.lives(), settings().withFixedShape(1).withLimits(LimitMethod.WALD));
    c.holds("scale", e.get("scale"), fit.weibull().scale());
    c.holds("log-likelihood", e.get("log_likelihood"), fit.logLikelihood());
    c.holds("variance", e.get("variance_log_scale"), fit.covariance().scaleScale());
    limits(c, "wald_90", e.get("wald_90").get("scale"), fit.scale());
    c.holds("aic", e.get("aic"), fit.aic());
    c.holds("bic", e.get("bic"), fit.bic());
  }

  @ParameterizedTest
  @MethodSource("notEstimable")
  void refusesOnlyWhereThereIsNoMaximum(Case c) {
    JsonNode expected = c.expected();
    Observations lives = c.lives();
    WeibullFit fit = WeibullFitter.fit(lives, settings());
    if (!expected.get("finite_maximum").asBoolean()) {
      NotEstimable none = assertInstanceOf(NotEstimable.class, fit, c::name);
      assertTrue(none.reason().length() > 10, none::reason);
    } else {
      Fitted fitted = assertInstanceOf(Fitted.class, fit, c::name);
      if (expected.has("shape")) {
        c.holds("shape", expected.get("shape"), fitted.weibull().shape());
        c.holds("scale", expected.get("scale"), fitted.weibull().scale());
        c.holds("log-likelihood", expected.get("log_likelihood"), fitted.logLikelihood());
      }
    }
    for (JsonNode limit : expected.path("lower_limits")) {
      double shape = limit.get("shape").asDouble();
      double confidence = limit.get("confidence").asDouble();
      c.holds(
          "lower limit",
          limit.get("scale_lower"),
          WeibullFitter.scaleLowerLimit(lives, shape, confidence));
    }
    for (JsonNode fixed : expected.path("fixed_shape")) {
      Fitted at = fitted(lives, settings().withFixedShape(fixed.get("shape").asDouble()));
      c.holds("scale", fixed.get("scale"), at.weibull().scale());
      c.holds("log-likelihood", fixed.get("log_likelihood"), at.logLikelihood());
    }
  }

  private static FitSettings settings() {
    return FitSettings.defaults().withShares(List.of(0.1));
  }

  private static Fitted fitted(Observations lives, FitSettings settings) {
    return assertInstanceOf(Fitted.class, WeibullFitter.fit(lives, settings));
  }
}

package org.vaneward.stats.mixture;

import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.vaneward.stats.Reference;
import org.vaneward.stats.Reference.Case;
import org.vaneward.stats.mixture.MixtureFit.Fitted;

/** Mixtures against those of general-purpose statistics software: every case, every figure. */
class MixtureReferenceTest {
  static Stream<Case> cases() {
    return Reference.cases("mixture").stream();
  }

  @ParameterizedTest
  @MethodSource("cases")
  void agrees(Case c) {
    JsonNode e = c.expected();
    Fitted fit =
        assertInstanceOf(
            Fitted.class, WeibullMixture.fit(c.lives(), MixtureSettings.defaults()), c.name());
    c.holds("n", c.node().get("n"), fit.lives());
    c.holds("failures", c.node().get("n_events"), fit.failures());
    c.holds("share", e.get("share"), fit.law().share());
    c.holds("shape 1", e.get("shapes").get(0), fit.law().first().shape());
    c.holds("shape 2", e.get("shapes").get(1), fit.law().second().shape());
    c.holds("scale 1", e.get("scales").get(0), fit.law().first().scale());
    c.holds("scale 2", e.get("scales").get(1), fit.law().second().scale());
    c.holds("log-likelihood", e.get("log_likelihood"), fit.logLikelihood());
    c.holds("aic", e.get("aic"), fit.aic());
    c.holds("bic", e.get("bic"), fit.bic());
    c.holds(
        "log-likelihood, one Weibull",
        e.get("single_weibull_log_likelihood"),
        fit.single().logLikelihood());
    c.holds("aic, one Weibull", e.get("single_weibull_aic"), fit.single().aic());
    assertTrue(fit.starts().reachedBest() >= 2, () -> fit.starts().toString());
    assertTrue(fit.ratio().aicGain() > 90 && fit.ratio().bicGain() > 80);
  }
}

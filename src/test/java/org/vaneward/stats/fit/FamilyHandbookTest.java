package org.vaneward.stats.fit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.vaneward.stats.Reference.example;
import static org.vaneward.stats.Reference.holds;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.Observation.Interval;
import org.vaneward.stats.Observations;
import org.vaneward.stats.distribution.Family;
import org.vaneward.stats.distribution.Lognormal;
import org.vaneward.stats.distribution.Weibull;
import org.vaneward.stats.fit.LifeFit.Fitted;
import org.vaneward.stats.nonparametric.FailureRate;
import org.vaneward.stats.numeric.Integral;
import org.vaneward.stats.numeric.Minimum;

/** Published worked examples of single fits, and what must hold between numbers of one fit. */
class FamilyHandbookTest {
  private static Observations.Builder failures(JsonNode ages) {
    Observations.Builder lives = Observations.builder();
    ages.forEach(t -> lives.addFailure(0, t.asDouble(), 1));
    return lives;
  }

  private static Fitted fitted(Family family, Observations lives) {
    return assertInstanceOf(
        Fitted.class, LifeFits.fit(family, lives, FitSettings.defaults()), family::word);
  }

  @Test
  void timeCensoredCriteriaAndMean() {
    JsonNode one = example("nist-apr413-weibull-mle");
    Observations.Builder builder = failures(one.get("inputs").get("failures_h"));
    one.get("inputs").get("censored_h").forEach(t -> builder.addRightCensored(0, t.asDouble(), 1));
    Observations lives = builder.build();
    Fitted weibull = fitted(Family.WEIBULL, lives);
    holds(one, "beta", weibull.parameter("shape").estimate());
    holds(one, "eta", weibull.parameter("scale").estimate());
    holds(one, "loglik", weibull.logLikelihood());
    holds(one, "aic_weibull", weibull.aic());
    holds(one, "mean_h", weibull.mean().estimate());
    holds(one, "sd_h", ((Weibull) weibull.distribution()).standardDeviation());
    holds(one, "aic_lognormal", fitted(Family.LOGNORMAL, lives).aic());
  }

  /** The book's spread has divisor n - 1, and its quantile z rounded to 1.28. */
  @Test
  void bearingsAsLognormal() {
    JsonNode one = example("degroot-bearing-lognormal");
    Observations lives = failures(one.get("inputs").get("life_million_revs")).build();
    Lognormal law = (Lognormal) fitted(Family.LOGNORMAL, lives).distribution();
    double n = lives.lives();
    double spread = law.spread() * Math.sqrt(n / (n - 1));
    holds(one, "mu", law.location());
    holds(one, "sigma", spread);
    holds(one, "q90", Math.exp(law.location() + 1.28 * spread));
  }

  @Test
  void locomotiveControls() {
    JsonNode one = example("nelson-locomotive");
    JsonNode in = one.get("inputs");
    Observations lives =
        failures(in.get("failures_kmiles"))
            .addRightCensored(
                0, in.get("censored_kmiles").asDouble(), in.get("n_censored").asDouble())
            .build();
    Lognormal law = (Lognormal) fitted(Family.LOGNORMAL, lives).distribution();
    holds(one, "mu_ln", law.location());
    holds(one, "sigma_ln", law.spread());
    holds(one, "mu_log10", law.location() / Math.log(10));
    holds(one, "sigma_log10", law.spread() / Math.log(10));
  }

  /** Printed as the location and spread of log age: log scale and 1 / shape. */
  @Test
  void shockAbsorbers() {
    JsonNode one = example("shock-absorber-all");
    JsonNode in = one.get("inputs");
    Set<Double> failed = new HashSet<>();
    in.get("mode1_failures_km").forEach(t -> failed.add(t.asDouble()));
    in.get("mode2_failures_km").forEach(t -> failed.add(t.asDouble()));
    Observations.Builder builder = Observations.builder();
    // an age that occurs twice is one failure and one survivor: its failure is taken once
    for (JsonNode t : in.get("times_km")) {
      if (failed.remove(t.asDouble())) {
        builder.addFailure(0, t.asDouble(), 1);
      } else {
        builder.addRightCensored(0, t.asDouble(), 1);
      }
    }
    Observations lives = builder.build();
    holds(one, "n", lives.lives());
    holds(one, "failures", lives.failures());
    Fitted fit = fitted(Family.WEIBULL, lives);
    holds(one, "mu", Math.log(fit.parameter("scale").estimate()));
    holds(one, "sigma", 1 / fit.parameter("shape").estimate());
  }

  /** At the printed threshold the lives beyond it are two-parameter Weibull lives. */
  @Test
  void lifeBeyondAThreshold() {
    JsonNode one = example("scipy-days-weibull3");
    double threshold = one.get("expected").get("location").asDouble();
    Observations.Builder builder = Observations.builder();
    one.get("inputs")
        .get("failures_days")
        .forEach(t -> builder.addFailure(0, t.asDouble() - threshold, 1));
    one.get("inputs")
        .get("censored_days")
        .forEach(t -> builder.addRightCensored(0, t.asDouble() - threshold, 1));
    Fitted fit = fitted(Family.WEIBULL, builder.build());
    holds(one, "beta", fit.parameter("shape").estimate());
    holds(one, "scale", fit.parameter("scale").estimate());
  }

  @Test
  void airConditioning() {
    JsonNode one = example("boot-aircondit");
    Observations lives = failures(one.get("inputs").get("intervals_h")).build();
    Fitted fit = fitted(Family.EXPONENTIAL, lives);
    holds(one, "mean_h", fit.mean().estimate());
    assertEquals(fit.parameter("scale"), fit.mean());
    double hours = 12 * one.get("expected").get("mean_h").asDouble();
    assertEquals(1 / fit.mean().estimate(), FailureRate.of(12, hours, 0.9).estimate(), 1e-7);
  }

  /** The share failed at the end of inspection, which every family must come near. */
  @Test
  void inspectedTubes() {
    JsonNode one = example("meeker-heat-exchanger");
    Observations.Builder builder = Observations.builder();
    double failed = 0;
    int year = 0;
    for (JsonNode count : one.get("inputs").get("failures_by_year")) {
      builder.add(new Interval(0, year, year + 1, count.asDouble()));
      failed += count.asDouble();
      year++;
    }
    double n = one.get("inputs").get("n").asDouble();
    Observations lives = builder.addRightCensored(0, year, n - failed).build();
    double share = one.get("expected").get("F").get(year - 1).asDouble();
    assertEquals(share, lives.failures() / lives.lives(), 1e-15);
    for (LifeFit fit : LifeFits.all(lives, FitSettings.defaults())) {
      Fitted f = assertInstanceOf(Fitted.class, fit);
      assertEquals(share, f.distribution().failed(year), 0.002, f.family().word());
      Estimate survival = LifeFits.survival(lives, f, year).get(0);
      assertTrue(survival.lower() < 1 - share && 1 - share < survival.upper());
    }
  }

  @Test
  void bearingLifeRatios() {
    JsonNode one = example("l10-ratios");
    double slack = one.get("tolerance").get("all").asDouble();
    for (Map.Entry<String, JsonNode> slope : one.get("expected").properties()) {
      double shape = slope.getKey().equals("1.111") ? 10.0 / 9 : Double.parseDouble(slope.getKey());
      Weibull law = new Weibull(shape, 7);
      double l10 = law.quantile(0.1);
      JsonNode e = slope.getValue();
      assertEquals(e.get("L50_over_L10").asDouble(), law.quantile(0.5) / l10, slack);
      assertEquals(e.get("mean_over_L10").asDouble(), law.mean() / l10, slack);
      assertEquals(e.get("eta_over_L10").asDouble(), law.scale() / l10, slack);
    }
  }

  /** The older factor is a Weibull identity of slope 1.5; the newer has a threshold of 0.05. */
  @Test
  void bearingReliabilityFactors() {
    Weibull law = new Weibull(1.5, 1);
    for (Map.Entry<String, JsonNode> e :
        example("iso281-1990-a1").get("expected").get("a1").properties()) {
      double ratio = law.quantile(1 - Double.parseDouble(e.getKey()) / 100) / law.quantile(0.1);
      assertEquals(e.getValue().asDouble(), ratio, 0.005, e.getKey());
    }
    for (Map.Entry<String, JsonNode> e :
        example("iso281-2007-a1").get("expected").get("a1").properties()) {
      double ratio = law.quantile(1 - Double.parseDouble(e.getKey()) / 100) / law.quantile(0.1);
      String printed = e.getValue().asText();
      double half = 0.5000001 * Math.pow(10, -(printed.length() - printed.indexOf('.') - 1));
      assertEquals(e.getValue().asDouble(), 0.05 + 0.95 * ratio, half, e.getKey());
    }
  }

  /** A mean is the integral of survival, for each family. */
  @Test
  void meanIsTheAreaUnderSurvival() {
    JsonNode ages = example("boot-aircondit").get("inputs").get("intervals_h");
    Observations lives = failures(ages).addRightCensored(20, 300, 2).build();
    for (LifeFit fit : LifeFits.all(lives, FitSettings.defaults())) {
      Fitted f = assertInstanceOf(Fitted.class, fit);
      double area =
          Integral.overAges(f.distribution()::survival, f.distribution().inverseSurvival(1e-15))
              .value();
      assertEquals(area, f.mean().estimate(), 1e-6 * area, f.family().word());
    }
  }

  /** No failures: an exponential lower limit is still to be had. */
  @Test
  void noFailuresLeaveALowerLimit() {
    Observations lives = Observations.builder().addRightCensored(0, 1000, 3).build();
    LifeFit none = LifeFits.fit(Family.EXPONENTIAL, lives, FitSettings.defaults());
    assertEquals("no failures", assertInstanceOf(LifeFit.NotEstimable.class, none).reason());
    double limit = LifeFits.exponentialLowerLimit(lives, 0.9);
    assertEquals(3000 / Math.log(10), limit, 1e-9);
    // at that scale no failure at all has the chance 0.1
    assertEquals(0.1, Math.pow(new Weibull(1, limit).survival(1000), 3), 1e-12);
    assertTrue(LifeFits.exponentialInsideWeibull(lives).isEmpty());
  }

  /** Profile limits of a Weibull mean: the best on the line of that mean has dropped as it must. */
  @Test
  void weibullMeanLimitsDropByTheRightAmount() {
    for (String id : new String[] {"boot-aircondit", "degroot-bearing-lognormal"}) {
      JsonNode in = example(id).get("inputs");
      JsonNode ages = in.has("intervals_h") ? in.get("intervals_h") : in.get("life_million_revs");
      Observations lives = failures(ages).addRightCensored(10, 60, 4).build();
      Fitted fit = fitted(Family.WEIBULL, lives);
      WeibullLikelihood likelihood = WeibullLikelihood.of(lives);
      double target = fit.logLikelihood() - WeibullFitter.drop(fit.confidence());
      for (double limit : new double[] {fit.mean().lower(), fit.mean().upper()}) {
        double best =
            -Minimum.between(
                    s ->
                        -likelihood
                            .derivatives(Math.log(limit) - MeanOfShape.WEIBULL.log(Math.exp(s)), s)[
                            0],
                    Math.log(0.1),
                    Math.log(30),
                    201)
                .value();
        assertEquals(target, best, 1e-9, id);
      }
    }
  }

  /** With a stated shape the mean is a multiple of the scale, and so are its limits. */
  @Test
  void meanAtAStatedShape() {
    Observations lives =
        failures(example("boot-aircondit").get("inputs").get("intervals_h")).build();
    for (WeibullFit.LimitMethod method :
        List.of(WeibullFit.LimitMethod.PROFILE, WeibullFit.LimitMethod.WALD)) {
      FitSettings settings = FitSettings.defaults().withFixedShape(2).withLimits(method);
      Fitted fit = assertInstanceOf(Fitted.class, LifeFits.fit(Family.WEIBULL, lives, settings));
      double factor = Math.sqrt(Math.PI) / 2;
      Estimate scale = fit.parameter("scale");
      assertEquals(scale.estimate() * factor, fit.mean().estimate(), 1e-9);
      assertEquals(scale.lower() * factor, fit.mean().lower(), 1e-9);
      assertEquals(scale.upper() * factor, fit.mean().upper(), 1e-9);
    }
  }
}

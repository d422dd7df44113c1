package org.vaneward.stats.fit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.LikelihoodRatio;
import org.vaneward.stats.Reference;
import org.vaneward.stats.Reference.Case;
import org.vaneward.stats.distribution.Family;
import org.vaneward.stats.fit.LifeFit.Fitted;
import org.vaneward.stats.fit.WeibullFit.LimitMethod;

/** Every figure of the reference fits, all families, through the one front. */
class ReferenceFamiliesTest {
  /** What a figure of a family is called in the reference; each figure is read and counted. */
  private static final List<String> CRITERIA = List.of("aic", "aicc", "bic", "bic_with_events");

  static Stream<Case> fits() {
    return Stream.of("right_censored_fits", "interval_censored_fits", "delayed_entry_fits")
        .flatMap(topic -> Reference.cases(topic).stream());
  }

  @ParameterizedTest
  @MethodSource("fits")
  void weibull(Case c) {
    assertEquals(26, family(c, Family.WEIBULL, "covariance_log_scale_log_shape"));
  }

  @ParameterizedTest
  @MethodSource("fits")
  void lognormal(Case c) {
    assertEquals(26, family(c, Family.LOGNORMAL, "covariance_location_log_spread"));
  }

  @ParameterizedTest
  @MethodSource("fits")
  void exponential(Case c) {
    assertEquals(10, family(c, Family.EXPONENTIAL, "variance_log_scale"));
  }

  @ParameterizedTest
  @MethodSource("fits")
  void exponentialInsideWeibull(Case c) {
    JsonNode e = c.expected().get("exponential_inside_weibull");
    LikelihoodRatio test = LifeFits.exponentialInsideWeibull(c.lives()).orElseThrow();
    c.holds("statistic", e.get("statistic"), test.statistic());
    assertEquals(e.get("df").asInt(), test.degreesOfFreedom());
    c.holds("p", e.get("p"), test.p());
  }

  /** Number of figures compared, limits counted in pairs and the covariance as one. */
  private static int family(Case c, Family family, String covariance) {
    JsonNode e = c.expected().get(family.word());
    Fitted fit = fitted(c, family, settings(LimitMethod.PROFILE, 0.90));
    int compared = 0;
    for (Map.Entry<String, JsonNode> figure : e.properties()) {
      String name = figure.getKey();
      JsonNode wanted = figure.getValue();
      if (name.equals("survival")) {
        double age = wanted.get("age").asDouble();
        c.holds(name, wanted.get("estimate"), fit.distribution().survival(age));
      } else if (name.startsWith("wald_") || name.startsWith("profile_")) {
        compared += limits(c, family, name, wanted);
        continue;
      } else if (name.equals("log_likelihood")) {
        c.holds(name, wanted, fit.logLikelihood());
      } else if (name.equals("quantile_10")) {
        c.holds(name, wanted, fit.quantiles().get(0).age().estimate());
      } else if (name.equals(covariance)) {
        covariance(c, wanted, fit);
      } else if (CRITERIA.contains(name)) {
        criterion(c, name, wanted, fit);
      } else {
        c.holds(name, wanted, fit.parameter(name).estimate());
      }
      compared++;
    }
    return compared;
  }

  private static int limits(Case c, Family family, String block, JsonNode wanted) {
    LimitMethod method = block.startsWith("wald_") ? LimitMethod.WALD : LimitMethod.PROFILE;
    double confidence = block.endsWith("90") ? 0.90 : 0.95;
    Fitted fit = fitted(c, family, settings(method, confidence));
    int compared = 0;
    for (Map.Entry<String, JsonNode> figure : wanted.properties()) {
      String name = figure.getKey();
      Estimate got;
      if (name.equals("quantile_10")) {
        got = fit.quantiles().get(0).age();
        same(got, LifeFits.quantiles(c.lives(), fit, 0.1).get(0).age());
      } else if (name.equals("survival")) {
        double age = c.expected().get(family.word()).get("survival").get("age").asDouble();
        got = LifeFits.survival(c.lives(), fit, age).get(0);
      } else {
        got = fit.parameter(name);
      }
      String what = family.word() + " " + block + " " + name;
      c.holds(what + " lower", figure.getValue().get(0), got.lower());
      c.holds(what + " upper", figure.getValue().get(1), got.upper());
      compared++;
    }
    same(fit.mean(), LifeFits.mean(c.lives(), fit));
    return compared;
  }

  private static void covariance(Case c, JsonNode wanted, Fitted fit) {
    double[][] got = fit.covariance();
    if (wanted.isNumber()) {
      c.holds("variance", wanted, got[0][0]);
      return;
    }
    for (int i = 0; i < 2; i++) {
      for (int j = 0; j < 2; j++) {
        c.holds("covariance " + i + j, wanted.get(i).get(j), got[i][j]);
      }
    }
  }

  private static void criterion(Case c, String name, JsonNode wanted, Fitted fit) {
    if (wanted.isNull()) {
      assertTrue(name.equals("aicc") && fit.aicc().isEmpty(), () -> c.name() + " " + name);
      return;
    }
    double got =
        switch (name) {
          case "aic" -> fit.aic();
          case "aicc" -> fit.aicc().orElseThrow();
          case "bic" -> fit.bic();
          default -> fit.bicWithEvents();
        };
    c.holds(name, wanted, got);
  }

  private static void same(Estimate expected, Estimate got) {
    assertEquals(expected.estimate(), got.estimate(), 1e-13 * Math.abs(expected.estimate()));
    near(expected.lower(), got.lower());
    near(expected.upper(), got.upper());
  }

  private static void near(double expected, double got) {
    if (Double.isInfinite(expected)) {
      assertEquals(expected, got);
    } else {
      assertEquals(expected, got, 1e-10 * Math.abs(expected));
    }
  }

  private static FitSettings settings(LimitMethod method, double confidence) {
    return FitSettings.defaults()
        .withLimits(method)
        .withConfidence(confidence)
        .withShares(List.of(0.1));
  }

  private static Fitted fitted(Case c, Family family, FitSettings settings) {
    return assertInstanceOf(
        Fitted.class, LifeFits.fit(family, c.lives(), settings), () -> c.name() + " " + family);
  }

  /** The families in one call, ranked. */
  @ParameterizedTest
  @MethodSource("fits")
  void ranked(Case c) {
    List<LifeFit> all = LifeFits.all(c.lives(), FitSettings.defaults());
    ModelRanking ranking = ModelRanking.of(all);
    assertEquals(Family.values().length, ranking.ranked().size());
    List<Double> criteria = new ArrayList<>();
    double weights = 0;
    for (ModelRanking.Ranked r : ranking.ranked()) {
      JsonNode wanted = c.expected().get(r.fit().family().word()).get("aicc");
      assertEquals(wanted.isNull(), r.aicc().isEmpty(), c::name);
      if (r.aicc().isPresent()) {
        c.holds("aicc", wanted, r.aicc().getAsDouble());
        criteria.add(r.aicc().getAsDouble());
      }
      weights += r.weight();
    }
    assertEquals(1, weights, 1e-12);
    assertEquals(criteria.stream().sorted().toList(), criteria);
  }
}

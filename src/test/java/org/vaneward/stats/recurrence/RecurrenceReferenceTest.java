package org.vaneward.stats.recurrence;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.Reference;
import org.vaneward.stats.Reference.Case;
import org.vaneward.stats.recurrence.PowerLawFit.Fitted;
import org.vaneward.stats.recurrence.PowerLawFit.LimitMethod;
import org.vaneward.stats.recurrence.TestOutcome.Tested;

/** Every figure of the reference files on recurrent events. */
class RecurrenceReferenceTest {
  private static final Set<String> TREND =
      Set.of(
          "laplace",
          "mil_hdbk_189",
          "power_law",
          "units",
          "events",
          "total_time",
          "constant_rate_inside_power_law");
  private static final Set<String> POWER_LAW =
      Set.of(
          "truncation",
          "total_time",
          "events",
          "shape",
          "intensity_coefficient",
          "scale",
          "log_likelihood",
          "shape_bias_corrected",
          "intensity_at_end",
          "shape_chisq_90",
          "shape_chisq_95",
          "covariance_log_scale_log_shape",
          "shape_wald_90",
          "shape_wald_95");

  static List<Case> functions() {
    return Reference.cases("mean_cumulative_function");
  }

  static List<Case> differences() {
    return Reference.cases("mean_cumulative_difference");
  }

  static List<Case> trends() {
    return Reference.cases("trend");
  }

  @ParameterizedTest
  @MethodSource("functions")
  void meanCumulativeFunction(Case c) {
    EventHistories histories = HistoriesReader.of(c);
    JsonNode e = c.expected();
    MeanCumulativeFunction at90 = MeanCumulativeFunction.of(histories, 0.90);
    MeanCumulativeFunction at95 = MeanCumulativeFunction.of(histories, 0.95);
    assertEquals(c.node().get("n").asInt(), histories.size());
    assertEquals(c.node().get("n_events").asInt(), histories.events());
    assertEquals(e.get("age").size(), at90.size());
    for (int k = 0; k < at90.size(); k++) {
      MeanCumulativeFunction.Point point = at90.point(k);
      MeanCumulativeFunction.Point wide = at95.point(k);
      c.holds("age", e.get("age").get(k), point.age());
      c.holds("at_risk", e.get("at_risk").get(k), point.atRisk());
      c.holds("events", e.get("events").get(k), point.events());
      c.holds("mean", e.get("mean").get(k), point.mean());
      c.holds("std_error", e.get("std_error").get(k), point.stdError());
      c.holds("lower_90", e.get("lower_90").get(k), point.lower());
      c.holds("upper_90", e.get("upper_90").get(k), point.upper());
      c.holds("lower_95", e.get("lower_95").get(k), wide.lower());
      c.holds("upper_95", e.get("upper_95").get(k), wide.upper());
      c.holds("lower_95_plain", e.get("lower_95_plain").get(k), wide.plainLower());
      c.holds("upper_95_plain", e.get("upper_95_plain").get(k), wide.plainUpper());
      c.holds("poisson_std_error", e.get("poisson_std_error").get(k), point.poissonStdError());
    }
    assertEquals(12, e.size(), "figures of the case");
  }

  @ParameterizedTest
  @MethodSource("differences")
  void meanCumulativeDifference(Case c) {
    JsonNode e = c.expected();
    Map<String, EventHistories> groups = HistoriesReader.groups(c);
    MeanCumulativeDifference got =
        MeanCumulativeDifference.of(
            Objects.requireNonNull(groups.get(e.get("first").asText())),
            Objects.requireNonNull(groups.get(e.get("second").asText())),
            0.95,
            HistoriesReader.numbers(e.get("age")));
    assertEquals(e.get("age").size(), got.points().size());
    for (int k = 0; k < got.points().size(); k++) {
      MeanCumulativeDifference.Point point = got.points().get(k);
      c.holds("age", e.get("age").get(k), point.age());
      c.holds("first_mean", e.get("first_mean").get(k), point.first());
      c.holds("second_mean", e.get("second_mean").get(k), point.second());
      c.holds("difference", e.get("difference").get(k), point.difference());
      c.holds("std_error", e.get("std_error").get(k), point.stdError());
      c.holds("lower_95", e.get("lower_95").get(k), point.lower());
      c.holds("upper_95", e.get("upper_95").get(k), point.upper());
    }
    assertEquals(9, e.size(), "figures of the case");
  }

  @ParameterizedTest
  @MethodSource("trends")
  void trend(Case c) {
    EventHistories histories = HistoriesReader.of(c);
    JsonNode e = c.expected();
    e.fieldNames().forEachRemaining(f -> assertTrue(TREND.contains(f), f));
    e.get("power_law").fieldNames().forEachRemaining(f -> assertTrue(POWER_LAW.contains(f), f));
    Tested laplace = assertInstanceOf(Tested.class, Trend.laplace(histories));
    c.holds("laplace", e.get("laplace").get("statistic"), laplace.statistic());
    c.holds("laplace p", e.get("laplace").get("p"), laplace.p());
    Tested handbook = assertInstanceOf(Tested.class, Trend.milHdbk189(histories));
    c.holds("mil_hdbk_189", e.get("mil_hdbk_189").get("statistic"), handbook.statistic());
    c.holds("df", e.get("mil_hdbk_189").get("df"), handbook.degreesOfFreedom());
    c.holds("mil_hdbk_189 p", e.get("mil_hdbk_189").get("p"), handbook.p());
    optional(c, e, "units", histories.size());
    optional(c, e, "events", histories.events());
    optional(c, e, "total_time", histories.totalTime());
    powerLaw(c, histories, e.get("power_law"));
    if (e.has("constant_rate_inside_power_law")) {
      JsonNode test = e.get("constant_rate_inside_power_law");
      Fitted fit = fitted(histories, 0.90, LimitMethod.EXACT);
      c.holds("constant rate", test.get("statistic"), fit.constantRate().statistic());
      c.holds("constant rate p", test.get("p"), fit.constantRate().p());
      assertEquals(1, test.get("df").asInt());
    }
  }

  private static void powerLaw(Case c, EventHistories histories, JsonNode e) {
    Fitted fit = fitted(histories, 0.90, LimitMethod.EXACT);
    assertEquals(
        e.get("truncation").asText().toUpperCase(Locale.ROOT), fit.truncation().toString());
    c.holds("shape", e.get("shape"), fit.shape().estimate());
    c.holds("scale", e.get("scale"), fit.scale().estimate());
    c.holds("coefficient", e.get("intensity_coefficient"), fit.process().intensityCoefficient());
    c.holds("log_likelihood", e.get("log_likelihood"), fit.logLikelihood());
    optional(c, e, "events", fit.events());
    optional(c, e, "total_time", fit.totalTime());
    optional(c, e, "intensity_at_end", fit.intensityAtEnd().estimate());
    optional(c, e, "shape_bias_corrected", fit.shapeBiasCorrected().orElse(Double.NaN));
    limits(c, e, "shape_chisq_90", fit.shape());
    limits(c, e, "shape_chisq_95", fitted(histories, 0.95, LimitMethod.EXACT).shape());
    limits(c, e, "shape_wald_90", fitted(histories, 0.90, LimitMethod.WALD).shape());
    limits(c, e, "shape_wald_95", fitted(histories, 0.95, LimitMethod.WALD).shape());
    if (e.has("covariance_log_scale_log_shape")) {
      JsonNode matrix = e.get("covariance_log_scale_log_shape");
      c.holds("var log scale", matrix.get(0).get(0), fit.covariance().scaleScale());
      c.holds("cov", matrix.get(0).get(1), fit.covariance().scaleShape());
      c.holds("var log shape", matrix.get(1).get(1), fit.covariance().shapeShape());
    }
  }

  private static void optional(Case c, JsonNode e, String what, double got) {
    if (e.has(what)) {
      c.holds(what, e.get(what), got);
    }
  }

  private static void limits(Case c, JsonNode e, String what, Estimate got) {
    if (e.has(what)) {
      c.holds(what + " lower", e.get(what).get(0), got.lower());
      c.holds(what + " upper", e.get(what).get(1), got.upper());
    }
  }

  private static Fitted fitted(EventHistories histories, double confidence, LimitMethod method) {
    PowerLawSettings settings = new PowerLawSettings(confidence, method);
    return assertInstanceOf(Fitted.class, PowerLaw.fit(histories, settings));
  }
}

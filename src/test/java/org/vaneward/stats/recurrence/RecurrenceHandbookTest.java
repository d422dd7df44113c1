package org.vaneward.stats.recurrence;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.vaneward.stats.Reference.holds;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import org.apache.commons.statistics.distribution.ChiSquaredDistribution;
import org.junit.jupiter.api.Test;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.Reference;
import org.vaneward.stats.nonparametric.FailureRate;
import org.vaneward.stats.recurrence.PowerLawFit.Fitted;
import org.vaneward.stats.recurrence.TestOutcome.Tested;

/** Published worked examples on recurrent events. */
class RecurrenceHandbookTest {
  @Test
  void powerLawWithModifiedEstimates() {
    JsonNode one = Reference.example("nist-apr452-powerlaw");
    Fitted fit = fitted(histories(one, "repair_times_h"));
    double confidence = one.get("inputs").get("confidence").asDouble();
    ModifiedPowerLaw modified = ModifiedPowerLaw.of(fit, confidence).orElseThrow();
    // the handbook calls the improvement slope beta: 1 less the exponent b
    holds(one, "beta_modified", modified.improvementSlope());
    holds(one, "b", modified.shape());
    holds(one, "a", modified.intensityCoefficient());
    holds(one, "mtbf_end", modified.mtbfAtEnd().estimate());
    holds(one, "mtbf_lower", modified.mtbfAtEnd().lower());
    holds(one, "mtbf_upper", modified.mtbfAtEnd().upper());
  }

  @Test
  void trendTestsOnTenRepairTimes() {
    JsonNode one = Reference.example("nist-apr234-trend");
    EventHistories histories = histories(one, "repair_times_h");
    double[] gaps = new Gaps(histories).complete.get(0);
    assertArrayEquals(
        HistoriesReader.numbers(one.get("expected").get("interarrival")), gaps, 1e-12);
    holds(one, "reversals", (double) ReverseArrangements.of(gaps).reversals());
    Tested handbook = assertInstanceOf(Tested.class, Trend.milHdbk189(histories));
    holds(one, "chi2_mil", handbook.statistic());
    assertEquals(one.get("expected").get("chi2_dof").asDouble(), handbook.degreesOfFreedom(), 0.0);
    double below =
        ChiSquaredDistribution.of(handbook.degreesOfFreedom())
            .cumulativeProbability(handbook.statistic());
    holds(one, "chi2_cdf", below);
    assertEquals(2 * (1 - below), handbook.p(), 1e-12);
    Tested laplace = assertInstanceOf(Tested.class, Trend.laplace(histories));
    holds(one, "laplace", laplace.statistic());
  }

  @Test
  void reverseArrangementsByEnumeration() {
    JsonNode found = Reference.example("nist-apr234-trend").get("recomputed");
    assertEquals(found.get("exact_P_reversals_ge_33").asDouble(), upper(10, 33), 5e-9);
    JsonNode critical = found.get("exact_upper_critical_r4_to_r12_90_95_99");
    for (Map.Entry<String, JsonNode> row : critical.properties()) {
      int r = Integer.parseInt(row.getKey());
      assertEquals(critical(row.getValue().get(0)), ReverseArrangements.critical(r, 0.10));
      assertEquals(critical(row.getValue().get(1)), ReverseArrangements.critical(r, 0.05));
      assertEquals(critical(row.getValue().get(2)), ReverseArrangements.critical(r, 0.01));
    }
  }

  private static OptionalInt critical(JsonNode value) {
    return value.isNull() ? OptionalInt.empty() : OptionalInt.of(value.asInt());
  }

  /** The upper tail of a sequence of r gaps with that many reversals. */
  private static double upper(int r, int reversals) {
    double[] gaps = new double[r];
    int left = reversals;
    // inserting the k-th largest with a chosen number of smaller ones before it adds that number
    List<Double> order = new ArrayList<>();
    for (int k = 0; k < r; k++) {
      int before = Math.min(k, left);
      order.add(before, (double) k);
      left -= before;
    }
    for (int k = 0; k < r; k++) {
      gaps[k] = order.get(k);
    }
    ReverseArrangements test = ReverseArrangements.of(gaps);
    assertEquals(reversals, test.reversals());
    return test.pUpper();
  }

  @Test
  void powerLawTimeTerminatedWithCramerVonMises() {
    JsonNode one = Reference.example("milhdbk189-time-terminated");
    EventHistories histories = histories(one, "failure_times_h");
    Fitted fit = fitted(histories);
    holds(one, "beta_mle", fit.shape().estimate());
    holds(one, "lambda_mle", fit.process().intensityCoefficient());
    holds(one, "intensity_end", fit.intensityAtEnd().estimate());
    holds(one, "mtbf_end_h", fit.mtbfAtEnd().estimate());
    holds(one, "beta_unbiased", fit.shapeBiasCorrected().orElseThrow());
    Tested goodness = assertInstanceOf(Tested.class, PowerLawGoodness.test(histories));
    holds(one, "cvm", goodness.statistic());
    JsonNode exact = one.get("recomputed");
    assertEquals(exact.get("beta_mle").asDouble(), fit.shape().estimate(), 5e-9);
    assertEquals(exact.get("cvm").asDouble(), goodness.statistic(), 5e-9);
  }

  @Test
  void meanCumulativeFunctionOfValveSeats() {
    JsonNode one = Reference.example("nelson-valve-seats-mcf");
    EventHistories histories =
        HistoriesReader.of(Reference.cases("mean_cumulative_function").get(0));
    JsonNode expected = one.get("expected");
    assertEquals(expected.get("engines").asInt(), histories.size());
    assertEquals(expected.get("replacements").asInt(), histories.events());
    MeanCumulativeFunction function = MeanCumulativeFunction.of(histories, 0.90);
    int held = 0;
    for (Map.Entry<String, JsonNode> figure : expected.properties()) {
      if (figure.getKey().startsWith("mcf_at_")) {
        double age = Double.parseDouble(figure.getKey().substring("mcf_at_".length()));
        holds(one, figure.getKey(), function.at(age).orElseThrow().estimate());
        held++;
      }
    }
    assertEquals(7, held);
  }

  @Test
  void constantRateLimits() {
    JsonNode one = Reference.example("nist-apr451-hpp-bounds");
    JsonNode in = one.get("inputs");
    Estimate rate =
        FailureRate.of(
            in.get("failures").asDouble(),
            in.get("total_time_h").asDouble(),
            in.get("confidence").asDouble());
    holds(one, "mtbf", 1 / rate.estimate());
    holds(one, "lower", 1 / rate.upper());
    holds(one, "upper", 1 / rate.lower());
    holds(one, "factor_lower", rate.estimate() / rate.upper());
    holds(one, "factor_upper", rate.estimate() / rate.lower());
  }

  @Test
  void jeffreysRate() {
    JsonNode one = Reference.example("nureg6823-jeffreys");
    JsonNode in = one.get("inputs");
    double events = in.get("events").asDouble();
    double years = in.get("exposure_years").asDouble();
    double confidence = in.get("interval").asDouble();
    Estimate classical = FailureRate.of(events, years, confidence);
    holds(one, "mle", classical.estimate());
    holds(one, "classical_lower", classical.lower());
    holds(one, "classical_upper", classical.upper());
    Estimate rate = JeffreysRate.of(events, years, confidence);
    holds(one, "jeffreys_mean", rate.estimate());
    holds(one, "jeffreys_5", rate.lower());
    holds(one, "jeffreys_95", rate.upper());
    assertEquals(one.get("recomputed").get("jeffreys_5").asDouble(), rate.lower(), 5e-9);
  }

  private static EventHistories histories(JsonNode example, String column) {
    JsonNode inputs = example.get("inputs");
    return EventHistories.ofOne(
        HistoriesReader.numbers(inputs.get(column)), inputs.get("T_h").asDouble());
  }

  private static Fitted fitted(EventHistories histories) {
    return assertInstanceOf(Fitted.class, PowerLaw.fit(histories, PowerLawSettings.defaults()));
  }
}

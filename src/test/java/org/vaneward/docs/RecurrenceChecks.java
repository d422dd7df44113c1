package org.vaneward.docs;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.vaneward.docs.FitChecks.Rows;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.Reference;
import org.vaneward.stats.Reference.Case;
import org.vaneward.stats.recurrence.EventHistories;
import org.vaneward.stats.recurrence.HistoriesReader;
import org.vaneward.stats.recurrence.MeanCumulativeDifference;
import org.vaneward.stats.recurrence.MeanCumulativeFunction;
import org.vaneward.stats.recurrence.PowerLaw;
import org.vaneward.stats.recurrence.PowerLawFit.Fitted;
import org.vaneward.stats.recurrence.PowerLawFit.LimitMethod;
import org.vaneward.stats.recurrence.PowerLawSettings;
import org.vaneward.stats.recurrence.TestOutcome;
import org.vaneward.stats.recurrence.TestOutcome.Tested;
import org.vaneward.stats.recurrence.Trend;

/** Recurrent events beside general-purpose statistics software. */
final class RecurrenceChecks {
  private RecurrenceChecks() {}

  static ValidationSection meanCumulativeFunction() {
    List<Case> cases = Reference.cases("mean_cumulative_function");
    Rows rows = new Rows(cases.get(0));
    for (Case c : cases) {
      rows.next(c);
      JsonNode e = c.expected();
      MeanCumulativeFunction function = MeanCumulativeFunction.of(HistoriesReader.of(c), 0.90);
      for (int k : new int[] {0, function.size() / 2, function.size() - 1}) {
        MeanCumulativeFunction.Point point = function.point(k);
        String at = " at age " + ValidationRow.number(point.age());
        rows.add("mean" + at, e.get("mean").get(k), point.mean());
        rows.add("robust standard error" + at, e.get("std_error").get(k), point.stdError());
        rows.add("lower limit, 90%," + at, e.get("lower_90").get(k), point.lower());
        rows.add("upper limit, 90%," + at, e.get("upper_90").get(k), point.upper());
      }
    }
    return new ValidationSection(
        "Mean cumulative function",
        "mean_cumulative_function",
        "Mean number of events of a unit by an age, at the first, middle and last event age, with"
            + "\nrobust limits on the log scale.",
        rows.rows,
        rows.citations);
  }

  static ValidationSection meanCumulativeDifference() {
    List<Case> cases = Reference.cases("mean_cumulative_difference");
    Rows rows = new Rows(cases.get(0));
    for (Case c : cases) {
      rows.next(c);
      JsonNode e = c.expected();
      Map<String, EventHistories> groups = HistoriesReader.groups(c);
      MeanCumulativeDifference got =
          MeanCumulativeDifference.of(
              group(groups, e.get("first")),
              group(groups, e.get("second")),
              0.95,
              HistoriesReader.numbers(e.get("age")));
      for (int k = 0; k < got.points().size(); k++) {
        MeanCumulativeDifference.Point point = got.points().get(k);
        String at = " at age " + ValidationRow.number(point.age());
        rows.add("difference" + at, e.get("difference").get(k), point.difference());
        rows.add("lower limit, 95%," + at, e.get("lower_95").get(k), point.lower());
        rows.add("upper limit, 95%," + at, e.get("upper_95").get(k), point.upper());
      }
    }
    return new ValidationSection(
        "Difference of mean cumulative functions",
        "mean_cumulative_difference",
        "First group less second, with robust limits.",
        rows.rows,
        rows.citations);
  }

  private static EventHistories group(Map<String, EventHistories> groups, JsonNode name) {
    return Objects.requireNonNull(groups.get(name.asText()), name.asText());
  }

  static ValidationSection trend() {
    List<Case> cases = Reference.cases("trend");
    Rows rows = new Rows(cases.get(0));
    for (Case c : cases) {
      rows.next(c);
      EventHistories histories = HistoriesReader.of(c);
      JsonNode e = c.expected();
      test(rows, "Laplace", e.get("laplace"), Trend.laplace(histories));
      test(rows, "MIL-HDBK-189", e.get("mil_hdbk_189"), Trend.milHdbk189(histories));
      powerLaw(rows, histories, e);
    }
    return new ValidationSection(
        "Trend and power law",
        "trend",
        "Tests of a constant rate, and the power-law process by maximum likelihood with exact"
            + "\n(chi-square) or Wald limits of the shape.",
        rows.rows,
        rows.citations);
  }

  private static void test(Rows rows, String name, JsonNode expected, TestOutcome got) {
    if (!(got instanceof Tested tested)) {
      throw new IllegalStateException(name + " was not made");
    }
    rows.add(name + " statistic", expected.get("statistic"), tested.statistic());
    rows.add(name + " p", expected.get("p"), tested.p());
  }

  private static void powerLaw(Rows rows, EventHistories histories, JsonNode expected) {
    JsonNode e = expected.get("power_law");
    boolean exact = e.has("shape_chisq_90");
    LimitMethod method = exact ? LimitMethod.EXACT : LimitMethod.WALD;
    PowerLawSettings settings = new PowerLawSettings(0.90, method);
    if (!(PowerLaw.fit(histories, settings) instanceof Fitted fit)) {
      throw new IllegalStateException("a reference sample is not fitted");
    }
    JsonNode limits = e.get(exact ? "shape_chisq_90" : "shape_wald_90");
    Estimate shape = fit.shape();
    String how = exact ? " limit, exact 90%" : " limit, Wald 90%";
    rows.add("power-law shape", e.get("shape"), shape.estimate());
    rows.add("shape, lower" + how, limits.get(0), shape.lower());
    rows.add("shape, upper" + how, limits.get(1), shape.upper());
    rows.add("power-law scale", e.get("scale"), fit.scale().estimate());
    rows.add("log-likelihood", e.get("log_likelihood"), fit.logLikelihood());
    if (exact) {
      rows.add(
          "shape, bias-corrected",
          e.get("shape_bias_corrected"),
          fit.shapeBiasCorrected().orElseThrow());
      rows.add("rate at the end", e.get("intensity_at_end"), fit.intensityAtEnd().estimate());
    } else {
      JsonNode test = expected.get("constant_rate_inside_power_law");
      rows.add("constant rate, p", test.get("p"), fit.constantRate().p());
    }
  }
}

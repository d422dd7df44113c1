package org.vaneward.docs;

import static org.vaneward.docs.FitChecks.fitted;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.vaneward.policy.BlockSearch;
import org.vaneward.policy.CostModel;
import org.vaneward.policy.IntervalAdvice;
import org.vaneward.policy.IntervalSearch;
import org.vaneward.policy.PositionRisk;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.Observations;
import org.vaneward.stats.Reference;
import org.vaneward.stats.distribution.Weibull;
import org.vaneward.stats.fit.FitSettings;
import org.vaneward.stats.fit.WeibullFit.Fitted;
import org.vaneward.stats.fit.WeibullFitter;
import org.vaneward.stats.nonparametric.FailureRate;
import org.vaneward.stats.nonparametric.ProductLimit;
import org.vaneward.stats.renewal.CountDistribution;
import org.vaneward.stats.renewal.RenewalFunction;

/** Published worked examples. */
final class HandbookChecks {
  private static final String FROM_MEMORY = "**from memory**";

  private final List<ValidationRow> rows = new ArrayList<>();
  private final Map<String, String> citations = new LinkedHashMap<>();

  private HandbookChecks() {}

  static ValidationSection section() {
    HandbookChecks checks = new HandbookChecks();
    checks.timeCensored();
    checks.fans();
    checks.ballBearings();
    checks.bearingCages();
    checks.productLimit();
    checks.failureRate();
    for (String id : List.of("b2-r5", "b3-r5", "b3-r10")) {
      checks.ageReplacement("age-replacement-weibull-" + id);
    }
    for (String id : List.of("b2-t0.5", "b2-t1", "b2-t2", "b3-t1", "b3-t2")) {
      checks.renewals("renewal-weibull-" + id);
    }
    checks.blockReplacement();
    checks.lamps();
    return new ValidationSection(
        "Handbook cases",
        "handbook",
        "Published worked examples. Tolerances are half a unit of the last printed digit unless the collection says"
            + "\nwhy not.",
        checks.rows,
        checks.citations);
  }

  private void timeCensored() {
    JsonNode one = Reference.example("nist-apr413-weibull-mle");
    Fitted fit = fitted(lives(one.get("inputs")), FitSettings.defaults());
    add(one, "shape", "beta", fit.weibull().shape());
    add(one, "scale", "eta", fit.weibull().scale());
    add(one, "log-likelihood", "loglik", fit.logLikelihood());
  }

  private void fans() {
    JsonNode one = Reference.example("nelson-generator-fans");
    Observations lives = lives(one.get("inputs"));
    Fitted fit = fitted(lives, FitSettings.defaults());
    add(one, "shape", "beta", fit.weibull().shape());
    add(one, "scale", "eta_h", fit.weibull().scale());
    Fitted atOne = fitted(lives, FitSettings.defaults().withFixedShape(1));
    rows.add(
        ValidationRow.of(
            one.get("id").asText(),
            "scale at shape 1",
            FROM_MEMORY,
            one.get("expected").get("exponential_mean_h").asDouble(),
            atOne.weibull().scale(),
            one.get("tolerance").get("exponential_mean_h").asDouble(),
            absolute(one.get("tolerance").get("exponential_mean_h").asDouble())));
  }

  private void ballBearings() {
    JsonNode one = Reference.example("lieblein-zelen-weibull");
    Observations.Builder lives = Observations.builder();
    one.get("inputs").get("life_million_revs").forEach(t -> lives.addFailure(0, t.asDouble(), 1));
    Fitted fit = fitted(lives.build(), FitSettings.defaults());
    add(one, "shape", "beta", fit.weibull().shape());
    add(one, "scale", "eta", fit.weibull().scale());
    add(one, "log-likelihood", "loglik", fit.logLikelihood());
  }

  private void bearingCages() {
    JsonNode one = Reference.example("bearing-cage-2p");
    Observations lives = lives(one.get("inputs"));
    Fitted fit = fitted(lives, FitSettings.defaults());
    add(one, "shape", "beta", fit.weibull().shape());
    add(one, "scale", "eta_h", fit.weibull().scale());
    add(one, "10% failed by", "B10_h", fit.weibull().quantile(0.1));
    JsonNode stated = Reference.example("bearing-cage-fixed-shape-2");
    Fitted at = fitted(lives, FitSettings.defaults().withFixedShape(2));
    add(stated, "scale at shape 2", "eta_h", at.weibull().scale());
    add(stated, "10% failed by", "B10_h", at.weibull().quantile(0.1));
    add(
        stated,
        "lower limit of scale, 97.5%",
        "eta_lower95_time_terminated_h",
        WeibullFitter.scaleLowerLimit(lives, 2, 0.975));
    add(
        stated,
        "upper limit of scale, 97.5%",
        "eta_upper95_h",
        WeibullFitter.scaleUpperLimit(lives, 2, 0.975));
  }

  private void productLimit() {
    JsonNode one = Reference.example("nist-apr215-kaplan-meier");
    JsonNode in = one.get("inputs");
    Observations.Builder lives = Observations.builder();
    in.get("failures_h").forEach(t -> lives.addFailure(0, t.asDouble(), 1));
    in.get("removed_h").forEach(t -> lives.addRightCensored(0, t.asDouble(), 1));
    JsonNode survivors = in.get("survivors_at_h");
    lives.addRightCensored(0, survivors.get(0).asDouble(), survivors.get(1).asDouble());
    List<ProductLimit.Point> points = ProductLimit.of(lives.build(), 0.9).points();
    double tolerance = one.get("tolerance").get("R").asDouble();
    for (int i = 0; i < points.size(); i++) {
      ProductLimit.Point point = points.get(i);
      add(
          one,
          "survival after " + ValidationRow.number(point.age()),
          one.get("expected").get("R").get(i).asDouble(),
          tolerance,
          point.survival());
    }
  }

  private void failureRate() {
    JsonNode one = Reference.example("nist-apr451-hpp-bounds");
    JsonNode in = one.get("inputs");
    Estimate rate =
        FailureRate.of(
            in.get("failures").asDouble(),
            in.get("total_time_h").asDouble(),
            in.get("confidence").asDouble());
    add(one, "mean time between failures", "mtbf", 1 / rate.estimate());
    add(one, "its lower limit", "lower", 1 / rate.upper());
    add(one, "its upper limit", "upper", 1 / rate.lower());
  }

  private void ageReplacement(String id) {
    JsonNode one = Reference.example(id);
    JsonNode in = one.get("inputs");
    Weibull life = new Weibull(in.get("shape").asDouble(), in.get("scale").asDouble());
    PositionRisk only = PositionRisk.announcing("only", "only", life, in.get("cf").asDouble());
    IntervalAdvice advice =
        IntervalSearch.best(new CostModel(in.get("cp").asDouble(), List.of(only)));
    add(one, "interval", "T_opt", advice.intervalHours().orElse(Double.POSITIVE_INFINITY));
    add(one, "cost rate", "cost_rate", advice.costPerHour());
    add(one, "cost rate, run to failure", "run_to_failure_rate", advice.runToFailureCostPerHour());
  }

  private void renewals(String id) {
    JsonNode one = Reference.example(id);
    JsonNode in = one.get("inputs");
    Weibull life = new Weibull(in.get("shape").asDouble(), in.get("scale").asDouble());
    add(one, "renewals", "M", RenewalFunction.of(life).at(in.get("t").asDouble()));
  }

  /** At a constant rate of failure the number of renewals is Poisson. */
  private void lamps() {
    JsonNode one = Reference.example("milhdbk338b-lamps");
    JsonNode in = one.get("inputs");
    CountDistribution used =
        CountDistribution.ofRenewals(
            new Weibull(1, 1 / in.get("rate_per_h").asDouble()), in.get("hours").asDouble());
    double enough = 0;
    for (int k = 0; k <= in.get("spares").asInt(); k++) {
      enough += used.chance(k);
    }
    add(one, "chance that the spares last", "probability", enough);
  }

  private void blockReplacement() {
    JsonNode one = Reference.example("block-replacement-b3-r5");
    JsonNode in = one.get("inputs");
    Weibull life = new Weibull(in.get("shape").asDouble(), in.get("scale").asDouble());
    PositionRisk only = PositionRisk.announcing("only", "only", life, in.get("cf").asDouble());
    IntervalAdvice advice = BlockSearch.best(new CostModel(in.get("cp").asDouble(), List.of(only)));
    add(one, "interval", "T_opt", advice.intervalHours().orElse(Double.POSITIVE_INFINITY));
    add(one, "cost rate", "cost_rate", advice.costPerHour());
  }

  private void add(JsonNode one, String quantity, String key, double got) {
    double tolerance = one.get("tolerance").get(key).asDouble();
    add(one, quantity, one.get("expected").get(key).asDouble(), tolerance, got);
  }

  private void add(JsonNode one, String quantity, double expected, double tolerance, double got) {
    String id = one.get("id").asText();
    String read = one.get("read_or_memory").asText();
    citations.putIfAbsent("`" + id + "`", one.get("citation").asText() + ". " + read + ".");
    // where the printed value is exact, rounding in the last bit is no difference
    double slack = Math.max(tolerance, 1e-12 * Math.abs(expected));
    rows.add(ValidationRow.of(id, quantity, mark(read), expected, got, slack, absolute(tolerance)));
  }

  private static String absolute(double tolerance) {
    return tolerance == 0
        ? "exact"
        : String.format(Locale.ROOT, "abs. %.1e", tolerance).replace(".0e", "e");
  }

  private static String mark(String readOrMemory) {
    if (readOrMemory.startsWith("READ")) {
      return "read";
    }
    if (readOrMemory.startsWith("COMPUTED")) {
      return readOrMemory.contains("recalled") ? "computed, data " + FROM_MEMORY : "computed";
    }
    return readOrMemory.startsWith("MIXED") ? "partly " + FROM_MEMORY : FROM_MEMORY;
  }

  private static Observations lives(JsonNode inputs) {
    Observations.Builder lives = Observations.builder();
    inputs.get("failures_h").forEach(t -> lives.addFailure(0, t.asDouble(), 1));
    JsonNode censored = inputs.get("censored_h");
    if (censored.isArray()) {
      censored.forEach(t -> lives.addRightCensored(0, t.asDouble(), 1));
    } else {
      censored
          .properties()
          .forEach(
              e ->
                  lives.addRightCensored(
                      0, Double.parseDouble(e.getKey()), e.getValue().asDouble()));
    }
    return lives.build();
  }
}

package org.vaneward.policy;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.InputStream;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.OptionalDouble;
import java.util.stream.Stream;
import java.util.stream.StreamSupport;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.vaneward.stats.Reference;
import org.vaneward.stats.distribution.Weibull;

/**
 * Against intervals computed in R with integrate, uniroot and optimize (each by two routes), and
 * against the age-replacement optima of the handbook collection.
 */
class ReferenceDecisionsTest {

  @ParameterizedTest
  @MethodSource("ageCases")
  void agreesWithTheReference(Case reference) {
    CostModel model = model(reference.expected());
    IntervalAdvice advice = IntervalSearch.best(model);
    reference.same("interval", advice.intervalHours());
    reference.same("cost_rate", OptionalDouble.of(advice.costPerHour()));
    reference.same("run_to_failure_cost_rate", OptionalDouble.of(advice.runToFailureCostPerHour()));
    reference.same("planned_share", OptionalDouble.of(advice.plannedShare()));
    JsonNode window = reference.expected().get("window");
    reference.same(
        window.get("from"),
        advice.window().map(w -> OptionalDouble.of(w.fromHours())).orElse(OptionalDouble.empty()));
    reference.same(
        window.get("to"), advice.window().map(Window::toHours).orElse(OptionalDouble.empty()));
    assertEquals(advice.intervalHours().isEmpty(), advice.noInterval().isPresent());
  }

  @ParameterizedTest
  @MethodSource("ageCases")
  void firstFailuresAgreeWithTheReference(Case reference) {
    JsonNode shares = reference.expected().path("unplanned_probability_by_position");
    CostRate rate = CostRate.of(model(reference.expected()));
    double interval = reference.expected().get("interval").asDouble(Double.POSITIVE_INFINITY);
    if (interval == Double.POSITIVE_INFINITY) {
      assertTrue(shares.isMissingNode());
      return;
    }
    double[] got = rate.run().firstFailureShares(interval);
    for (int i = 0; i < got.length; i++) {
      reference.same(shares.isArray() ? shares.get(i) : shares, OptionalDouble.of(got[i]));
    }
    reference.same("mean_time_between_rebuilds", OptionalDouble.of(rate.run().meanHours(interval)));
  }

  @ParameterizedTest
  @MethodSource("blockCases")
  void blockFormAgreesWithTheReference(Case reference) {
    CostModel model = model(reference.expected());
    IntervalAdvice advice = BlockSearch.best(model);
    reference.same("interval", advice.intervalHours());
    reference.same("cost_rate", OptionalDouble.of(advice.costPerHour()));
    reference.same("run_to_failure_cost_rate", OptionalDouble.of(advice.runToFailureCostPerHour()));
    JsonNode window = reference.expected().get("window");
    reference.same(
        window.get("from"),
        advice.window().map(w -> OptionalDouble.of(w.fromHours())).orElse(OptionalDouble.empty()));
    reference.same(
        window.get("to"), advice.window().map(Window::toHours).orElse(OptionalDouble.empty()));
    JsonNode failures = reference.expected().path("expected_failures_per_interval");
    assertEquals(advice.intervalHours().isEmpty(), failures.isMissingNode());
    if (advice.intervalHours().isPresent()) {
      double all = BlockCost.of(model).expectedFailures(advice.intervalHours().getAsDouble());
      reference.same(failures, OptionalDouble.of(all));
    }
  }

  @Test
  void handbookBlockOptimum() {
    JsonNode one = Reference.example("block-replacement-b3-r5");
    JsonNode in = one.get("inputs");
    IntervalAdvice advice =
        BlockSearch.best(
            new CostModel(
                in.get("cp").asDouble(),
                List.of(
                    position(
                        "only",
                        in.get("shape").asDouble(),
                        in.get("scale").asDouble(),
                        in.get("cf").asDouble()))));
    near(one, "T_opt", advice.intervalHours().orElseThrow());
    near(one, "cost_rate", advice.costPerHour());
  }

  @Test
  void reasonsForNoInterval() {
    assertEquals(
        NoInterval.HAZARDS_DO_NOT_RISE,
        IntervalSearch.best(model(find("age-shape-0.8-ratio-10").expected()))
            .noInterval()
            .orElseThrow());
    assertEquals(
        NoInterval.SAVING_NEGLIGIBLE,
        IntervalSearch.best(model(find("age-shape-1.2-ratio-2").expected()))
            .noInterval()
            .orElseThrow());
  }

  @Test
  void pumpOfPartsOfUnlikeAges() {
    Case reference = find("next-stop-five-positions");
    CostModel model = model(reference.expected());
    List<Double> ages = new ArrayList<>();
    reference.expected().get("ages").forEach(a -> ages.add(a.asDouble()));
    RunCost run = RunCost.fromAges(model, ages);
    IntervalAdvice advice = IntervalSearch.best(model);
    reference.same("long_run_cost_rate", OptionalDouble.of(advice.costPerHour()));
    reference.same("run_on", RunOn.best(Models.run(model, ages), advice.costPerHour()).dueHours());
    for (int i = 0; i < 3; i++) {
      double further = reference.expected().get("further_running").get(i).asDouble();
      reference.same(
          reference.expected().get("failure_probability").get(i),
          OptionalDouble.of(1 - run.survival(further)));
    }
  }

  @Test
  void handbookOptima() {
    int found = 0;
    for (JsonNode one : json("handbook/worked_examples.json").get("cases")) {
      if (!one.get("id").asText().startsWith("age-replacement-weibull-")) {
        continue;
      }
      found++;
      JsonNode in = one.get("inputs");
      IntervalAdvice advice =
          IntervalSearch.best(
              new CostModel(
                  in.get("cp").asDouble(),
                  List.of(
                      position(
                          "only",
                          in.get("shape").asDouble(),
                          in.get("scale").asDouble(),
                          in.get("cf").asDouble()))));
      near(one, "T_opt", advice.intervalHours().orElseThrow());
      near(one, "cost_rate", advice.costPerHour());
      near(one, "run_to_failure_rate", advice.runToFailureCostPerHour());
    }
    assertEquals(3, found);
  }

  private static void near(JsonNode one, String key, double got) {
    assertEquals(
        one.get("expected").get(key).asDouble(),
        got,
        one.get("tolerance").get(key).asDouble(),
        () -> one.get("id").asText() + " " + key);
  }

  static Stream<Case> ageCases() {
    return cases().filter(c -> c.name().startsWith("age-"));
  }

  static Stream<Case> blockCases() {
    return cases().filter(c -> c.name().startsWith("block-"));
  }

  private static Case find(String name) {
    return cases().filter(c -> c.name().equals(name)).findFirst().orElseThrow();
  }

  private static Stream<Case> cases() {
    return StreamSupport.stream(json("expected/decisions.json").get("cases").spliterator(), false)
        .map(
            c ->
                new Case(
                    c.get("name").asText(),
                    c.get("expected"),
                    c.get("tolerance").asDouble(),
                    c.path("absolute_tolerance").asDouble(0)));
  }

  private static JsonNode json(String path) {
    try (InputStream in =
        Objects.requireNonNull(
            ReferenceDecisionsTest.class.getResourceAsStream("/reference/" + path))) {
      return new ObjectMapper().readTree(in);
    } catch (IOException e) {
      throw new IllegalStateException(e);
    }
  }

  private static CostModel model(JsonNode expected) {
    List<PositionRisk> positions = new ArrayList<>();
    for (JsonNode p : expected.get("positions")) {
      positions.add(
          position(
              "p" + positions.size(),
              p.get("shape").asDouble(),
              p.get("scale").asDouble(),
              p.get("unplanned").asDouble()));
    }
    return new CostModel(expected.get("planned").asDouble(), positions);
  }

  private static PositionRisk position(String name, double shape, double scale, double cost) {
    return PositionRisk.announcing(name, name, new Weibull(shape, scale), cost);
  }

  record Case(String name, JsonNode expected, double tolerance, double absoluteTolerance) {
    void same(String key, OptionalDouble got) {
      same(expected.get(key), got);
    }

    void same(JsonNode wanted, OptionalDouble got) {
      if (wanted.isNull()) {
        assertFalse(got.isPresent(), () -> name + ": none expected, got " + got);
        return;
      }
      double want = wanted.asDouble();
      double slack = Math.max(absoluteTolerance, tolerance * Math.abs(want));
      assertEquals(want, got.orElseThrow(), slack, name);
    }

    @Override
    public String toString() {
      return name;
    }
  }
}

package org.vaneward.stats.nonparametric;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.vaneward.stats.Observation;
import org.vaneward.stats.Observations;
import org.vaneward.stats.Reference;
import org.vaneward.stats.Reference.Case;
import org.vaneward.stats.numeric.Quantiles;

class NelsonAalenTest {
  static Stream<Case> cases() {
    return Reference.cases("product_limit").stream();
  }

  @ParameterizedTest
  @MethodSource("cases")
  void agreesWithReference(Case c) {
    JsonNode e = c.expected();
    NelsonAalen curve = NelsonAalen.of(c.lives(), 0.90);
    assertEquals(e.get("age").size(), curve.points().size());
    assertEquals(c.node().get("n").asDouble(), curve.lives());
    assertEquals(c.node().get("n_events").asDouble(), curve.events());
    assertTrue(curve.points().size() > 0);
    for (int i = 0; i < curve.points().size(); i++) {
      NelsonAalen.Point p = curve.points().get(i);
      c.holds("age", e.get("age").get(i), p.age());
      c.holds("at risk", e.get("at_risk").get(i), p.atRisk());
      c.holds("events", e.get("events").get(i), p.events());
      c.holds("hazard", e.get("cumulative_hazard").get(i), p.cumulativeHazard());
      c.holds("std error", e.get("cumulative_hazard_std_error").get(i), p.stdError());
      double z = Quantiles.normal(0.95);
      assertEquals(
          z * p.stdError() / p.cumulativeHazard(),
          Math.log(p.upper() / p.cumulativeHazard()),
          1e-12);
      assertEquals(
          p.cumulativeHazard() * p.cumulativeHazard(),
          p.lower() * p.upper(),
          1e-12 * p.lower() * p.upper());
    }
  }

  /** By hand: 1 of 3, then, one suspended and one late, 1 of 2. */
  @Test
  void byHand() {
    NelsonAalen curve =
        NelsonAalen.of(
            Observations.of(
                Observation.failedAt(2),
                Observation.rightCensoredAt(2),
                Observation.failedAt(5),
                new Observation.RightCensored(3, 8, 1),
                new Observation.Interval(0, 1, 9, 6)),
            0.95);
    assertEquals(1.0 / 3 + 1.0 / 2, curve.points().get(1).cumulativeHazard(), 1e-15);
    assertEquals(Math.sqrt(1.0 / 9 + 1.0 / 4), curve.points().get(1).stdError(), 1e-15);
    assertEquals(6, curve.leftOut());
    assertEquals(0, curve.cumulativeHazardAt(1.9).orElseThrow());
    assertEquals(1.0 / 3, curve.cumulativeHazardAt(2).orElseThrow(), 1e-15);
    assertEquals(1.0 / 3 + 1.0 / 2, curve.cumulativeHazardAt(8).orElseThrow(), 1e-15);
    assertTrue(curve.cumulativeHazardAt(8.1).isEmpty());
    assertTrue(curve.cumulativeHazardAt(Double.NaN).isEmpty());
  }

  @Test
  void hardData() {
    assertTrue(NelsonAalen.of(Observations.builder().build(), 0.9).points().isEmpty());
    NelsonAalen tied = NelsonAalen.of(Observations.of(new Observation.Exact(0, 4, 5)), 0.9);
    assertEquals(1, tied.points().get(0).cumulativeHazard());
    assertTrue(tied.points().get(0).upper() < 3);
    assertThrows(
        IllegalArgumentException.class, () -> NelsonAalen.of(Observations.builder().build(), 1.0));
  }
}

package org.vaneward.stats.nonparametric;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.vaneward.stats.Observation;
import org.vaneward.stats.Observations;
import org.vaneward.stats.Reference;
import org.vaneward.stats.Reference.Case;

class TurnbullTest {
  /** Intersections whose mass is below this are not in the reference. */
  private static final double NO_MASS = 1e-7;

  static Stream<Case> cases() {
    return Reference.cases("turnbull").stream();
  }

  @Test
  void allCasesAreRead() {
    assertEquals(3, cases().count());
  }

  @ParameterizedTest
  @MethodSource("cases")
  void agreesWithReference(Case c) {
    Turnbull estimate = Turnbull.of(c.lives());
    assertTrue(estimate.converged(), () -> c + " gap " + estimate.kuhnTuckerGap());
    assertEquals(c.node().get("n").asDouble(), estimate.lives());
    c.holds("log-likelihood", c.expected().get("log_likelihood"), estimate.logLikelihood());
    List<Turnbull.Mass> masses =
        estimate.masses().stream().filter(m -> m.mass() > NO_MASS).toList();
    JsonNode expected = c.expected().get("intervals");
    assertEquals(expected.size(), masses.size());
    for (int i = 0; i < masses.size(); i++) {
      c.holds("from", expected.get(i).get("from"), masses.get(i).from());
      c.holds("to", expected.get(i).get("to"), masses.get(i).to());
      c.holds("mass", expected.get(i).get("mass"), masses.get(i).mass());
    }
    JsonNode after = c.expected().get("survival_after");
    assertTrue(after.size() > 2);
    for (int i = 0; i < after.size(); i++) {
      c.holds("survival", after.get(i), masses.get(i).survivalAfter());
    }
  }

  /** Without intervals it is the product limit. */
  @Test
  void exactAndRightCensoredGiveTheProductLimit() {
    Observations lives = Reference.cases("product_limit").get(0).lives();
    ProductLimit curve = ProductLimit.of(lives, 0.9);
    List<Turnbull.Mass> masses =
        Turnbull.of(lives).masses().stream().filter(m -> m.from() == m.to()).toList();
    assertEquals(curve.points().size(), masses.size());
    for (int i = 0; i < masses.size(); i++) {
      assertEquals(curve.points().get(i).age(), masses.get(i).to());
      assertEquals(curve.points().get(i).survival(), masses.get(i).survivalAfter(), 1e-9);
    }
  }

  @Test
  void lateLivesAreLeftOutAndNothingGivesNothing() {
    Turnbull estimate =
        Turnbull.of(
            Observations.of(new Observation.Exact(1, 3, 2), Observation.failedBetween(0, 2)));
    assertEquals(2, estimate.leftOut());
    assertEquals(List.of(new Turnbull.Mass(0, 2, 1, 0)), estimate.masses());
    assertTrue(Turnbull.of(Observations.builder().build()).masses().isEmpty());
  }
}

package org.vaneward.stats.renewal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.SplittableRandom;
import org.apache.commons.math3.distribution.PoissonDistribution;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.vaneward.stats.Reference;
import org.vaneward.stats.distribution.Weibull;

/** Against R, the Poisson of a general library, the renewal function and simulation. */
class CountDistributionTest {

  @ParameterizedTest
  @ValueSource(strings = {"spares-shape-2.5-two-positions", "spares-shape-1.2-six-positions"})
  void agreesWithTheReference(String name) {
    Reference.Case reference =
        Reference.cases("decisions").stream()
            .filter(c -> c.name().equals(name))
            .findFirst()
            .orElseThrow();
    JsonNode in = reference.expected();
    Weibull life = new Weibull(in.get("shape").asDouble(), in.get("scale").asDouble());
    CountDistribution parts =
        CountDistribution.ofRenewals(life, in.get("horizon").asDouble())
            .times(in.get("positions").asInt());
    reference.holds("mean", in.get("mean"), parts.mean());
    reference.holds("sd", in.get("sd"), parts.standardDeviation());
    for (int k = 0; k < in.get("probability").size(); k++) {
      reference.holds("P(N = " + k + ")", in.get("probability").get(k), parts.chance(k));
    }
    assertEquals(in.get("p50").asInt(), parts.quantile(0.5));
    assertEquals(in.get("p80").asInt(), parts.quantile(0.8));
    assertEquals(in.get("p95").asInt(), parts.quantile(0.95));
    for (JsonNode stock : in.get("stock")) {
      assertEquals(
          stock.get("units").asInt(), parts.quantile(stock.get("service_level").asDouble()));
    }
  }

  /** At a constant rate the number is Poisson: Commons Math 3.6.1, PoissonDistribution. */
  @ParameterizedTest
  @CsvSource({"1e-6,1", "0.3,1", "2,1", "2,6", "40,1", "12,200"})
  void aConstantRateGivesThePoisson(double horizon, int positions) {
    CountDistribution parts =
        CountDistribution.ofRenewals(new Weibull(1, 1), horizon).times(positions);
    PoissonDistribution poisson = new PoissonDistribution(horizon * positions);
    for (int k = 0; k <= parts.largest(); k++) {
      assertEquals(poisson.probability(k), parts.chance(k), 1e-11, "k = " + k);
    }
    for (double p : new double[] {0.5, 0.8, 0.95, 0.99}) {
      assertEquals(poisson.inverseCumulativeProbability(p), parts.quantile(p));
    }
    assertEquals(horizon * positions, parts.mean(), 1e-9);
    assertEquals(Math.sqrt(horizon * positions), parts.standardDeviation(), 1e-9);
  }

  /** MIL-HDBK-338B: two spares for a lamp of 1 failure in 1,000 h, over 500 h. */
  @Test
  void theSparesOfTheHandbookLast() {
    JsonNode example = Reference.example("milhdbk338b-lamps");
    CountDistribution used = CountDistribution.ofRenewals(new Weibull(1, 1000), 500);
    assertEquals(2, example.at("/inputs/spares").asInt());
    Reference.holds(example, "probability", used.chance(0) + used.chance(1) + used.chance(2));
  }

  @ParameterizedTest
  @ValueSource(doubles = {0.3, 0.7, 1.2, 2.5, 6, 20})
  void theMeanIsTheRenewalFunction(double shape) {
    Weibull life = new Weibull(shape, 3000);
    RenewalFunction renewals = RenewalFunction.of(life);
    for (double horizon : new double[] {1, 200, 2500, 9000, 40_000}) {
      CountDistribution parts = CountDistribution.ofRenewals(life, horizon);
      assertEquals(renewals.at(horizon), parts.mean(), 2e-9 * Math.max(1, parts.mean()));
      double all = 0;
      for (int k = 0; k <= parts.largest(); k++) {
        assertTrue(parts.chance(k) >= 0);
        all += parts.chance(k);
      }
      assertEquals(1, all, 1e-12);
    }
  }

  @Test
  void simulationAgreesWithinThreeStandardErrors() {
    int runs = 400_000;
    SplittableRandom random = new SplittableRandom(5);
    for (double shape : new double[] {0.8, 1.7, 3.5}) {
      CountDistribution parts = CountDistribution.ofRenewals(new Weibull(shape, 1), 2.6);
      int[] seen = new int[200];
      for (int r = 0; r < runs; r++) {
        int n = 0;
        double t = Math.pow(-Math.log(1 - random.nextDouble()), 1 / shape);
        while (t <= 2.6) {
          n++;
          t += Math.pow(-Math.log(1 - random.nextDouble()), 1 / shape);
        }
        seen[n]++;
      }
      for (int k = 0; k <= 5; k++) {
        double p = parts.chance(k);
        assertEquals(p, seen[k] / (double) runs, 3 * Math.sqrt(p * (1 - p) / runs), "k = " + k);
      }
    }
  }

  @Test
  @Tag("long")
  void saysHowFarItGoes() {
    assertEquals(0, CountDistribution.ofRenewals(new Weibull(2, 1), 0).largest());
    assertThrows(
        IllegalArgumentException.class,
        () -> CountDistribution.ofRenewals(new Weibull(2, 1), Double.NaN));
    Weibull life = new Weibull(2.5, 8000);
    CountDistribution far = CountDistribution.ofRenewals(life, 240 * life.mean());
    assertEquals(RenewalFunction.of(life).at(240 * life.mean()), far.mean(), 1e-6);
    IllegalArgumentException e =
        assertThrows(IllegalArgumentException.class, () -> CountDistribution.ofRenewals(life, 1e9));
    assertTrue(String.valueOf(e.getMessage()).contains("can be reckoned"));
  }

  @Test
  void probabilitiesAndNumbersOfCountsHaveTheirDomain() {
    CountDistribution parts = CountDistribution.ofRenewals(new Weibull(2, 1), 3);
    assertThrows(IllegalArgumentException.class, () -> parts.quantile(1));
    assertThrows(IllegalArgumentException.class, () -> parts.times(0));
    assertEquals(0, parts.chance(-1));
    assertEquals(0, parts.chance(parts.largest() + 1));
  }

  /** R 4.2.2: dnbinom(0:5, size = 3.5, prob = 10 / 14), pnbinom(30, 40.5, 100 / 130). */
  @Test
  void eventsAtAnUncertainRateAreNegativeBinomial() {
    CountDistribution few = CountDistribution.gammaPoisson(3.5, 10, 4);
    double[] chances = {
      0.30800082169406584,
      0.30800082169406584,
      0.19800052823189945,
      0.10371456240718542,
      0.04815318968905037,
      0.020637081295307298
    };
    for (int k = 0; k < chances.length; k++) {
      assertEquals(chances[k], few.chance(k), 1e-14);
    }
    CountDistribution more = CountDistribution.gammaPoisson(40.5, 100, 30);
    assertEquals(0.9999148198953766, more.atMost(30), 1e-12);
    assertEquals(40.5 * 0.3, more.mean(), 1e-9);
    assertEquals(1, CountDistribution.gammaPoisson(2, 1, 0).chance(0));
    assertThrows(IllegalArgumentException.class, () -> CountDistribution.gammaPoisson(0, 1, 1));
    assertThrows(IllegalArgumentException.class, () -> CountDistribution.gammaPoisson(1e9, 1, 1));
  }

  @Test
  void drawsAndSumsOfCounts() {
    CountDistribution drawn = CountDistribution.ofDraws(new int[] {2, 0, 2, 5});
    assertEquals(0.5, drawn.chance(2));
    assertEquals(0.75, drawn.atMost(4));
    assertEquals(2.25, drawn.mean(), 1e-15);
    CountDistribution sum = drawn.plus(CountDistribution.ofDraws(new int[] {0, 1}));
    assertEquals(2.75, sum.mean(), 1e-15);
    assertEquals(0.125, sum.chance(6), 1e-15);
    assertThrows(IllegalArgumentException.class, () -> CountDistribution.ofDraws(new int[0]));
    assertThrows(IllegalArgumentException.class, () -> CountDistribution.ofDraws(new int[] {-1}));
  }
}

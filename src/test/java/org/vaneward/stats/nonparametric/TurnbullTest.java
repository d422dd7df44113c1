package org.vaneward.stats.nonparametric;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.List;
import java.util.stream.Stream;
import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.simple.RandomSource;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
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

  /**
   * The Kuhn–Tucker conditions, worked out again from the masses: the sum over the lives whose set
   * holds a mass of count / probability of the set is the number of lives where there is mass, and
   * no more where there is none.
   */
  @ParameterizedTest
  @ValueSource(ints = {1, 2, 3, 4})
  void kuhnTuckerConditionsHold(int seed) {
    Observations lives = inspected(seed, 1);
    Turnbull estimate = Turnbull.of(lives);
    assertTrue(estimate.converged(), () -> "gap " + estimate.kuhnTuckerGap());
    assertTrue(estimate.kuhnTuckerGap() <= Turnbull.GAP);
    double[] derivative = new double[estimate.masses().size()];
    double logLikelihood = 0;
    for (int i = 0; i < lives.size(); i++) {
      double share = 0;
      for (Turnbull.Mass m : estimate.masses()) {
        share += holds(lives, i, m) ? m.mass() : 0;
      }
      logLikelihood += lives.count(i) * Math.log(share);
      for (int j = 0; j < derivative.length; j++) {
        derivative[j] += holds(lives, i, estimate.masses().get(j)) ? lives.count(i) / share : 0;
      }
    }
    assertEquals(logLikelihood, estimate.logLikelihood(), 1e-9 * Math.abs(logLikelihood));
    double sum = 0;
    for (int j = 0; j < derivative.length; j++) {
      double mass = estimate.masses().get(j).mass();
      sum += mass;
      double relative = derivative[j] / estimate.lives();
      assertTrue(relative <= 1 + 2 * Turnbull.GAP, () -> "derivative " + relative);
      assertTrue(mass < 1e-5 || relative > 1 - 1e-5, () -> mass + " derivative " + relative);
    }
    assertEquals(1, sum, 1e-12);
  }

  private static boolean holds(Observations lives, int i, Turnbull.Mass m) {
    if (lives.isExact(i)) {
      return m.from() == m.to() && m.to() == lives.upper(i);
    }
    boolean after = m.from() == m.to() ? m.from() > lives.lower(i) : m.from() >= lives.lower(i);
    return after && m.to() <= lives.upper(i);
  }

  /** Lives of pumps opened at some of eight fixed ages, some seen to fail. */
  private static Observations inspected(int seed, double unit) {
    UniformRandomProvider random = RandomSource.L64_X128_MIX.create(seed);
    Observations.Builder lives = Observations.builder();
    for (int i = 0; i < 120; i++) {
      double life = 10 * Math.sqrt(-Math.log(random.nextDouble()));
      double before = 0;
      double after = Double.POSITIVE_INFINITY;
      for (int age = 2; age <= 16; age += 2) {
        if (random.nextDouble() < 0.6) {
          if (age < life) {
            before = age;
          } else {
            after = Math.min(after, age);
          }
        }
      }
      if (random.nextInt(5) == 0) {
        lives.addFailure(0, Math.ceil(life) * unit, 1);
      } else if (after < Double.POSITIVE_INFINITY) {
        lives.add(new Observation.Interval(0, before * unit, after * unit, 1));
      } else if (before > 0) {
        lives.addRightCensored(0, before * unit, 1);
      }
    }
    return lives.build();
  }

  @Test
  void unitOfAgeDoesNotMatter() {
    Turnbull hours = Turnbull.of(inspected(9, 1));
    Turnbull seconds = Turnbull.of(inspected(9, 3600));
    assertEquals(hours.masses().size(), seconds.masses().size());
    for (int j = 0; j < hours.masses().size(); j++) {
      assertEquals(hours.masses().get(j).to() * 3600, seconds.masses().get(j).to());
      assertEquals(hours.masses().get(j).mass(), seconds.masses().get(j).mass(), 1e-14);
    }
  }

  /**
   * Inspections of a hundred heat-exchanger tubes at one, two and three years (W. Q. Meeker and L.
   * A. Escobar's slides): shares failed 0.01, 0.03, 0.05.
   */
  @Test
  void inspectionsAtFixedAges() {
    JsonNode example = Reference.example("meeker-heat-exchanger");
    Observations.Builder lives = Observations.builder();
    double left = example.get("inputs").get("n").asDouble();
    int year = 0;
    for (JsonNode failed : example.get("inputs").get("failures_by_year")) {
      lives.add(new Observation.Interval(0, year, year + 1, failed.asDouble()));
      left -= failed.asDouble();
      year++;
    }
    lives.addRightCensored(0, year, left);
    List<Turnbull.Mass> masses = Turnbull.of(lives.build()).masses();
    JsonNode expected = example.get("expected").get("F");
    assertEquals(3, expected.size());
    for (int i = 0; i < 3; i++) {
      assertEquals(expected.get(i).asDouble(), 1 - masses.get(i).survivalAfter(), 1e-12);
    }
  }

  /** Hundreds of lives, each with inspection ages of its own: the plain iteration takes ages. */
  @Test
  void convergesOnManyStretches() {
    UniformRandomProvider random = RandomSource.L64_X128_MIX.create(2);
    Observations.Builder lives = Observations.builder();
    for (int i = 0; i < 400; i++) {
      double life = -1000 * Math.log(random.nextDouble());
      double before = 0;
      double after = Double.POSITIVE_INFINITY;
      for (double age = 0; age < 3000; age += 200 + 400 * random.nextDouble()) {
        if (age < life) {
          before = age;
        } else {
          after = Math.min(after, age);
        }
      }
      if (after < Double.POSITIVE_INFINITY) {
        lives.add(new Observation.Interval(0, before, after, 1));
      } else {
        lives.addRightCensored(0, before, 1);
      }
    }
    Turnbull estimate = Turnbull.of(lives.build());
    assertTrue(estimate.converged(), () -> "gap " + estimate.kuhnTuckerGap());
    assertTrue(estimate.iterations() < 20_000, () -> "" + estimate.iterations());
    assertTrue(estimate.masses().size() > 100);
  }

  @Test
  void hardData() {
    Turnbull survivors = Turnbull.of(Observations.of(new Observation.RightCensored(0, 5, 10_000)));
    assertEquals(List.of(new Turnbull.Mass(5, Double.POSITIVE_INFINITY, 1, 0)), survivors.masses());
    assertTrue(survivors.converged());
    Turnbull wide =
        Turnbull.of(
            Observations.of(
                new Observation.Exact(0, 1e-6, 1),
                new Observation.Interval(0, 1e-6, 1e6, 1),
                new Observation.RightCensored(0, 1e6, 1e6)));
    assertTrue(wide.converged());
    assertEquals(1 / (1e6 + 2), wide.masses().get(0).mass(), 1e-15);
    assertEquals(1e6 / (1e6 + 2), wide.masses().get(1).survivalAfter(), 1e-12);
  }
}

package org.vaneward.stats.comparison;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Stream;
import org.apache.commons.math3.special.Gamma;
import org.apache.commons.numbers.gamma.LogGamma;
import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.simple.RandomSource;
import org.apache.commons.statistics.distribution.GammaDistribution;
import org.apache.commons.statistics.distribution.PoissonDistribution;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.vaneward.stats.Reference;
import org.vaneward.stats.Reference.Case;
import org.vaneward.stats.comparison.GammaPoisson.NotEstimable;
import org.vaneward.stats.comparison.GammaPoisson.Pooled;
import org.vaneward.stats.comparison.GammaPoisson.Ranked;
import org.vaneward.stats.comparison.GammaPoisson.Spread;
import org.vaneward.stats.comparison.GammaPoisson.Unit;

class GammaPoissonTest {
  static Stream<Case> cases() {
    return Reference.cases("count_shrinkage").stream();
  }

  @Test
  void allCasesAreRead() {
    assertEquals(3, cases().count());
  }

  @ParameterizedTest
  @MethodSource("cases")
  void agreesWithReference(Case c) {
    JsonNode e = c.expected();
    double[] counts = column(c, "count");
    double[] exposures = column(c, "exposure");
    assertTrue(e.get("finite_maximum").asBoolean());
    Spread fit = assertInstanceOf(Spread.class, GammaPoisson.fit(counts, exposures, 0.90));
    assertEquals(e.get("units").asInt(), fit.units().size());
    c.holds("events", e.get("events"), fit.events());
    c.holds("exposure", e.get("exposure"), fit.exposure());
    c.holds("pooled rate", e.get("pooled_rate"), fit.events() / fit.exposure());
    c.holds(
        "poisson", e.get("poisson_log_likelihood"), fit.againstPoisson().poissonLogLikelihood());
    c.holds("shape", e.get("shape"), fit.shape());
    c.holds("rate parameter", e.get("rate_parameter"), fit.rateParameter());
    c.holds("mean rate", e.get("mean_rate"), fit.meanRate());
    c.holds("cv", e.get("between_unit_cv"), fit.betweenUnitCv());
    c.holds("log-likelihood", e.get("log_likelihood"), fit.logLikelihood());
    JsonNode v = e.get("covariance_log_shape_log_rate_parameter");
    c.holds("variance", v.get(0).get(0), fit.covariance().shapeShape());
    c.holds("variance", v.get(0).get(1), fit.covariance().shapeRate());
    c.holds("variance", v.get(1).get(0), fit.covariance().shapeRate());
    c.holds("variance", v.get(1).get(1), fit.covariance().rateRate());
    JsonNode lr = e.get("likelihood_ratio_against_poisson");
    c.holds("statistic", lr.get("statistic"), fit.againstPoisson().statistic());
    c.holds("p", lr.get("p_boundary"), fit.againstPoisson().p());
    for (int i = 0; i < counts.length; i++) {
      Unit unit = fit.units().get(i);
      c.holds("count", e.get("count").get(i), unit.count());
      c.holds("exposure", e.get("exposure_of_unit").get(i), unit.exposure());
      c.holds("raw rate", e.get("raw_rate").get(i), unit.rawRate());
      c.holds("mean", e.get("posterior_mean_rate").get(i), unit.rate().estimate());
      c.holds("5%", e.get("posterior_05").get(i), unit.rate().lower());
      c.holds("95%", e.get("posterior_95").get(i), unit.rate().upper());
      c.holds("above", e.get("probability_above_mean_rate").get(i), unit.probabilityAboveMean());
    }
  }

  static double[] column(Case c, String name) {
    List<Map<String, String>> rows = c.rows();
    return rows.stream()
        .mapToDouble(r -> Double.parseDouble(Objects.requireNonNull(r.get(name))))
        .toArray();
  }

  /** The list is sorted, and its false share is the mean of what is left of each probability. */
  @Test
  void rankedList() {
    Case c = cases().filter(x -> x.name().equals("cloth")).findFirst().orElseThrow();
    Spread fit =
        assertInstanceOf(
            Spread.class, GammaPoisson.fit(column(c, "count"), column(c, "exposure"), 0.9));
    List<Ranked> list = fit.worseThan(1.2);
    assertEquals(32, list.size());
    assertEquals(32, list.stream().map(Ranked::unit).distinct().count());
    double sum = 0;
    double last = 1;
    for (int i = 0; i < list.size(); i++) {
      Ranked r = list.get(i);
      assertTrue(r.probabilityAbove() <= last);
      last = r.probabilityAbove();
      sum += 1 - last;
      assertEquals(sum / (i + 1), r.expectedFalseShare(), 1e-15);
      assertEquals(fit.probabilityAbove(r.unit(), 1.2 * fit.meanRate()), r.probabilityAbove());
      assertEquals(fit.units().get(r.unit()).rate(), r.rate());
      GammaPoisson.Unit unit = fit.units().get(r.unit());
      // A gamma's upper tail: Commons Math 3.6.1, Gamma
      double tail =
          Gamma.regularizedGammaQ(
              fit.shape() + unit.count(),
              1.2 * fit.meanRate() * (fit.rateParameter() + unit.exposure()));
      assertEquals(tail, r.probabilityAbove(), 1e-12);
    }
    assertEquals(1 / Math.sqrt(fit.shape()), fit.betweenUnitCv(), 1e-15);
    assertThrows(IllegalArgumentException.class, () -> fit.worseThan(0));
  }

  /** What the list promises comes true on average when the rates are drawn from the model. */
  @Test
  @Tag("long")
  void falseShareIsWhatItSays() {
    UniformRandomProvider random = RandomSource.L64_X128_MIX.create(99);
    double promised = 0;
    double came = 0;
    int lists = 0;
    for (int draw = 0; draw < 300; draw++) {
      int n = 200;
      double[] rate = new double[n];
      double[] counts = new double[n];
      double[] exposures = new double[n];
      var rates = GammaDistribution.of(3, 1.0 / 3).createSampler(random);
      for (int i = 0; i < n; i++) {
        rate[i] = rates.sample();
        exposures[i] = 1 + 9 * random.nextDouble();
        counts[i] = PoissonDistribution.of(rate[i] * exposures[i]).createSampler(random).sample();
      }
      Spread fit = assertInstanceOf(Spread.class, GammaPoisson.fit(counts, exposures, 0.9));
      List<Ranked> list = fit.worseThan(1);
      int cut = 40;
      promised += list.get(cut - 1).expectedFalseShare();
      came +=
          list.subList(0, cut).stream().filter(r -> rate[r.unit()] <= fit.meanRate()).count()
              / (double) cut;
      lists++;
    }
    assertEquals(promised / lists, came / lists, 0.01);
    assertTrue(promised / lists > 0.01);
  }

  /** The maximum beats its neighbours, by the textbook form of the likelihood. */
  @ParameterizedTest
  @MethodSource("cases")
  void noNeighbourIsBetter(Case c) {
    double[] y = column(c, "count");
    double[] t = column(c, "exposure");
    Spread fit = assertInstanceOf(Spread.class, GammaPoisson.fit(y, t, 0.9));
    UniformRandomProvider random = RandomSource.L64_X128_MIX.create(5);
    double best = textbook(y, t, fit.shape(), fit.rateParameter());
    assertEquals(best, fit.logLikelihood(), 1e-10 * Math.abs(best));
    for (int i = 0; i < 200; i++) {
      double size = Math.pow(10, -4 * random.nextDouble());
      double a = fit.shape() * Math.exp(size * (random.nextDouble() - 0.5));
      double b = fit.rateParameter() * Math.exp(size * (random.nextDouble() - 0.5));
      assertTrue(textbook(y, t, a, b) <= best + 1e-11 * Math.abs(best));
    }
    assertTrue(fit.proof().gradientNorm() <= 1e-8);
    assertTrue(fit.proof().smallestCurvature() > 0.1);
  }

  private static double textbook(double[] y, double[] t, double a, double b) {
    double sum = 0;
    for (int i = 0; i < y.length; i++) {
      sum +=
          LogGamma.value(a + y[i])
              - LogGamma.value(a)
              - LogGamma.value(y[i] + 1)
              - a * Math.log1p(t[i] / b);
      sum += y[i] > 0 ? y[i] * Math.log(t[i] / (b + t[i])) : 0;
    }
    return sum;
  }

  @Test
  void unitOfExposureAndOrderDoNotMatter() {
    Case c = cases().filter(x -> x.name().equals("ships")).findFirst().orElseThrow();
    double[] y = column(c, "count");
    double[] t = column(c, "exposure");
    Spread months = assertInstanceOf(Spread.class, GammaPoisson.fit(y, t, 0.9));
    int n = y.length;
    double[] reversed = new double[n];
    double[] hours = new double[n];
    for (int i = 0; i < n; i++) {
      reversed[i] = y[n - 1 - i];
      hours[i] = t[n - 1 - i] * 730.5;
    }
    Spread inHours = assertInstanceOf(Spread.class, GammaPoisson.fit(reversed, hours, 0.9));
    assertEquals(months.shape(), inHours.shape(), 1e-9 * months.shape());
    assertEquals(months.meanRate() / 730.5, inHours.meanRate(), 1e-9 * inHours.meanRate());
    assertEquals(
        months.units().get(0).probabilityAboveMean(),
        inHours.units().get(n - 1).probabilityAboveMean(),
        1e-9);
  }

  @Test
  void notMoreSpreadThanChanceIsPooled() {
    Pooled alike =
        assertInstanceOf(
            Pooled.class,
            GammaPoisson.fit(
                new double[] {3, 4, 3, 4}, new double[] {1000, 1000, 1000, 1000}, 0.9));
    assertEquals("counts spread no more than chance makes them", alike.reason());
    assertEquals(14.0 / 4000, alike.rate().estimate(), 1e-18);
    assertTrue(alike.rate().lower() < 0.0035 && alike.rate().upper() > 0.0035);
    double poisson = 14 * Math.log(3.5) - 14 - 2 * Math.log(6) - 2 * Math.log(24);
    assertEquals(poisson, alike.logLikelihood(), 1e-12);
  }

  @Test
  void hardData() {
    Pooled one =
        assertInstanceOf(Pooled.class, GammaPoisson.fit(new double[] {5}, new double[] {100}, 0.9));
    assertEquals("one unit tells nothing of the spread between units", one.reason());
    Pooled zero =
        assertInstanceOf(
            Pooled.class, GammaPoisson.fit(new double[3], new double[] {1, 2, 3}, 0.9));
    assertEquals("no failures in any unit", zero.reason());
    assertEquals(-Math.log(0.05) / 6, zero.rate().upper(), 1e-14);
    assertEquals(0, zero.rate().estimate());
    assertEquals(0, zero.logLikelihood());
    NotEstimable none =
        assertInstanceOf(NotEstimable.class, GammaPoisson.fit(new double[2], new double[2], 0.9));
    assertEquals("no exposure", none.reason());
    assertInstanceOf(NotEstimable.class, GammaPoisson.fit(new double[0], new double[0], 0.9));
    Spread lemon =
        assertInstanceOf(
            Spread.class,
            GammaPoisson.fit(new double[] {0, 0, 900, 0}, new double[] {1e-6, 1, 1e3, 1e6}, 0.9));
    assertTrue(lemon.shape() < 1);
    assertTrue(lemon.units().get(2).probabilityAboveMean() > 0.5);
    assertTrue(lemon.units().get(3).probabilityAboveMean() < 0.01);
  }

  /** A unit without exposure is where the fleet is. */
  @Test
  void aUnitWithoutExposureIsAtTheMean() {
    double[] counts = {0, 9, 1, 0, 12, 2, 0};
    double[] exposures = {10, 10, 10, 10, 10, 10, 0};
    Spread fit = assertInstanceOf(Spread.class, GammaPoisson.fit(counts, exposures, 0.9));
    Spread without =
        assertInstanceOf(
            Spread.class,
            GammaPoisson.fit(Arrays.copyOf(counts, 6), Arrays.copyOf(exposures, 6), 0.9));
    assertEquals(fit.meanRate(), fit.units().get(6).rate().estimate(), 1e-15);
    assertEquals(without.shape(), fit.shape(), 1e-12 * fit.shape());
    assertTrue(Double.isNaN(fit.units().get(6).rawRate()));
  }

  @ParameterizedTest
  @ValueSource(doubles = {-1, 0.5, Double.NaN, Double.POSITIVE_INFINITY, 2e7})
  void countsAreWhole(double count) {
    assertThrows(
        IllegalArgumentException.class,
        () -> GammaPoisson.fit(new double[] {count}, new double[] {1}, 0.9));
  }

  @Test
  void misuseIsRefused() {
    double[] one = {1};
    assertThrows(IllegalArgumentException.class, () -> GammaPoisson.fit(one, new double[] {0}, .9));
    assertThrows(
        IllegalArgumentException.class, () -> GammaPoisson.fit(one, new double[] {-1}, .9));
    assertThrows(IllegalArgumentException.class, () -> GammaPoisson.fit(one, new double[2], .9));
    assertThrows(IllegalArgumentException.class, () -> GammaPoisson.fit(one, one, 90));
  }
}

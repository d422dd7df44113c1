package org.vaneward.stats.competing;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.List;
import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.simple.RandomSource;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.vaneward.stats.Observation;
import org.vaneward.stats.Observations;
import org.vaneward.stats.Reference;
import org.vaneward.stats.competing.CompetingModes.Compared;
import org.vaneward.stats.competing.CompetingModes.NotCompared;
import org.vaneward.stats.distribution.Weibull;
import org.vaneward.stats.fit.FitSettings;
import org.vaneward.stats.fit.WeibullFit.Fitted;

class CauseSpecificFitsTest {
  /** Shock absorbers: lives in km, two modes of failure. */
  private static CauseLives shockAbsorbers() {
    JsonNode in = Reference.example("shock-absorber-all").get("inputs");
    List<Double> first = numbers(in.get("mode1_failures_km"));
    List<Double> second = numbers(in.get("mode2_failures_km"));
    Observations.Builder lives = Observations.builder();
    List<Double> times = numbers(in.get("times_km"));
    int[] cause = new int[times.size()];
    for (int i = 0; i < cause.length; i++) {
      double age = times.get(i);
      // taken off the list: an age that occurs twice failed once
      cause[i] = first.remove(age) ? 0 : second.remove(age) ? 1 : -1;
      if (cause[i] < 0) {
        lives.addRightCensored(0, age, 1);
      } else {
        lives.addFailure(0, age, 1);
      }
    }
    assertTrue(first.isEmpty() && second.isEmpty());
    return CauseLives.of(lives.build(), cause, List.of("mode 1", "mode 2"));
  }

  private static List<Double> numbers(JsonNode node) {
    List<Double> numbers = new ArrayList<>();
    node.forEach(x -> numbers.add(x.asDouble()));
    return numbers;
  }

  /** W. Q. Meeker and L. A. Escobar's shock absorbers; figures recomputed, data from memory. */
  @Test
  void shockAbsorbersByMode() {
    JsonNode computed = Reference.example("shock-absorber-all").get("recomputed");
    CauseLives lives = shockAbsorbers();
    CauseSpecificFits fits = CauseSpecificFits.fit(lives, FitSettings.defaults());
    for (int k = 0; k < 2; k++) {
      Fitted fit = assertInstanceOf(Fitted.class, fits.causes().get(k).fit());
      String mode = "mode" + (k + 1);
      assertEquals(computed.get(mode + "_eta").asDouble(), fit.weibull().scale(), 1e-3);
      assertEquals(computed.get(mode + "_beta").asDouble(), fit.weibull().shape(), 1e-7);
    }
    FittedIncidence all = fits.incidence().orElseThrow();
    for (double age : new double[] {5000, 10000, 20000, 28000}) {
      double product = all.causes().get(0).survival(age) * all.causes().get(1).survival(age);
      assertEquals(product, all.eventFree(age), 1e-15);
      assertEquals(1 - product, all.incidence(0, age) + all.incidence(1, age), 1e-12);
    }
    Compared modes = assertInstanceOf(Compared.class, CompetingModes.of(lives));
    assertEquals(3, modes.one().parameters());
    assertEquals(4, modes.byCause().parameters());
    assertEquals(38, modes.one().lives());
    assertEquals(1, modes.degreesOfFreedom());
    assertEquals(
        modes.statistic(),
        2 * (modes.byCause().logLikelihood() - modes.one().logLikelihood()),
        1e-12);
    assertTrue(modes.p() > 0.5, "shapes 3.4 and 2.8 of 7 and 4 failures do not differ");
    assertTrue(modes.one().aicc().orElseThrow() < modes.byCause().aicc().orElseThrow());
  }

  /** Criteria worked by hand: 2 x 3 + 2 x 100, and 2 x 3 x 4 over 10 - 3 - 1 more. */
  @Test
  void criteriaCountParametersAndLives() {
    assertEquals(206, new CompetingModes.Model(-100, 3, 10).aic(), 1e-12);
    assertEquals(210, new CompetingModes.Model(-100, 3, 10).aicc().orElseThrow(), 1e-12);
    assertEquals(230, new CompetingModes.Model(-100, 3, 5).aicc().orElseThrow(), 1e-12);
    assertTrue(new CompetingModes.Model(-100, 3, 4).aicc().isEmpty());
  }

  /** Equal shapes: each cause takes its share of the whole at every age. */
  @ParameterizedTest
  @CsvSource({"0.3", "0.9", "1", "2.5", "8", "60"})
  void equalShapesShareOut(double shape) {
    FittedIncidence fit =
        new FittedIncidence(List.of(new Weibull(shape, 1000), new Weibull(shape, 3000)));
    double share = 1 / (1 + Math.pow(3, -shape));
    double rest = 1 / (1 + Math.pow(3, shape));
    for (double age : new double[] {1e-6, 1, 300, 1000, 5000, Double.POSITIVE_INFINITY}) {
      double all = -Math.expm1(-fit.cumulativeHazard(age));
      assertEquals(share * all, fit.incidence(0, age), FittedIncidence.ACCURACY * share * all);
      assertEquals(rest * all, fit.incidence(1, age), FittedIncidence.ACCURACY * rest * all);
    }
  }

  /** The causes' shares and the rest sum to 1, however far apart shapes and scales are. */
  @ParameterizedTest
  @CsvSource({
    "0.1, 1e6, 50, 100, 3, 1e3",
    "0.5, 1, 0.51, 1e12, 4, 1e6",
    "1, 1e-6, 2, 1, 3, 1e6",
    "100, 1000, 0.05, 1000, 30, 1001",
    "0.7, 700, 1.4, 8000, 4, 6000"
  })
  void sharesSumToOne(double s1, double e1, double s2, double e2, double s3, double e3) {
    FittedIncidence fit =
        new FittedIncidence(List.of(new Weibull(s1, e1), new Weibull(s2, e2), new Weibull(s3, e3)));
    double before = 0;
    for (double age : new double[] {1e-6, 1, 100, 999, 1e4, 1e7, Double.POSITIVE_INFINITY}) {
      double sum = 0;
      for (int k = 0; k < 3; k++) {
        sum += fit.incidence(k, age);
      }
      double all = -Math.expm1(-fit.cumulativeHazard(age));
      assertEquals(all, sum, 1e-10 * all);
      assertTrue(fit.incidence(1, age) >= before * (1 - 1e-12));
      before = fit.incidence(1, age);
    }
  }

  @Test
  void oneCauseIsItsDistribution() {
    FittedIncidence fit = new FittedIncidence(List.of(new Weibull(2, 10)));
    assertEquals(new Weibull(2, 10).failed(3), fit.incidence(0, 3));
    assertEquals(0, fit.incidence(0, 0));
    assertThrows(IllegalArgumentException.class, () -> fit.incidence(0, -1));
    assertThrows(IllegalArgumentException.class, () -> fit.incidence(1, 1));
  }

  /**
   * An interval failure is an interval to its own cause and a suspension at its start to others.
   */
  @Test
  void intervalsByCause() {
    Observations lives =
        Observations.of(
            new Observation.Interval(0, 3, 5, 2),
            new Observation.Interval(1, 1, 4, 1),
            new Observation.Exact(0, 6, 1),
            new Observation.RightCensored(0, 7, 1));
    CauseLives by = CauseLives.of(lives, new int[] {0, 0, 1, -1}, List.of("a", "b"));
    assertTrue(by.hasIntervals());
    assertEquals(
        Observations.of(
                new Observation.RightCensored(0, 3, 2),
                new Observation.Exact(0, 6, 1),
                new Observation.RightCensored(0, 7, 1))
            .asList(),
        by.forCause(1).asList());
    assertEquals(
        List.of(
            new Observation.Interval(0, 3, 5, 2),
            new Observation.Interval(1, 1, 4, 1),
            new Observation.RightCensored(0, 6, 1),
            new Observation.RightCensored(0, 7, 1)),
        by.forCause(0).asList());
    NotCompared none = assertInstanceOf(NotCompared.class, CompetingModes.of(by));
    assertTrue(none.reason().contains("interval"));
  }

  /** Causes of very different shapes are told apart; one that could not be fitted is named. */
  @Test
  void modesThatDifferAndModesThatCannotBeFitted() {
    UniformRandomProvider random = RandomSource.L64_X128_MIX.create(8);
    Observations.Builder lives = Observations.builder();
    int n = 200;
    int[] cause = new int[n];
    Weibull early = new Weibull(0.6, 2000);
    Weibull late = new Weibull(6, 1000);
    for (int i = 0; i < n; i++) {
      double first = early.quantile(random.nextDouble());
      double second = late.quantile(random.nextDouble());
      cause[i] = first < second ? 0 : 1;
      lives.addFailure(0, Math.min(first, second), 1);
    }
    Observations all = lives.build();
    CauseLives by = CauseLives.of(all, cause, List.of("early", "late", "never"));
    Compared modes = assertInstanceOf(Compared.class, CompetingModes.of(by));
    assertTrue(modes.p() < 1e-6);
    assertTrue(modes.one().aic() > modes.byCause().aic());
    CauseSpecificFits fits = CauseSpecificFits.fit(by, FitSettings.defaults());
    assertTrue(fits.missing().isEmpty());
    assertEquals(List.of(0, 1), fits.fitted());
    assertEquals(2, fits.incidence().orElseThrow().causes().size());
    Observations two =
        Observations.of(Observation.failedAt(1), Observation.failedAt(3), Observation.failedAt(9));
    CauseLives last = CauseLives.of(two, new int[] {0, 0, 1}, List.of("a", "b"));
    CauseSpecificFits partly = CauseSpecificFits.fit(last, FitSettings.defaults());
    assertEquals(List.of("b"), partly.missing());
    assertFalse(partly.incidence().isPresent());
    assertEquals(
        "no fit for b", assertInstanceOf(NotCompared.class, CompetingModes.of(last)).reason());
    CauseLives onlyOne = CauseLives.of(two, new int[3], List.of("a", "b"));
    assertTrue(CompetingModes.of(onlyOne) instanceof NotCompared);
  }

  /** Splitting one Weibull at random among causes adds nothing: the statistic is small. */
  @Test
  void causesAtRandomHaveOneShape() {
    Weibull one = new Weibull(2, 1000);
    Observations.Builder lives = Observations.builder();
    int n = 400;
    int[] cause = new int[n];
    for (int i = 0; i < n; i++) {
      cause[i] = i * 7 % 5 < 2 ? 0 : 1;
      lives.addFailure(0, one.quantile((i + 0.5) / n), 1);
    }
    Compared modes =
        assertInstanceOf(
            Compared.class,
            CompetingModes.of(CauseLives.of(lives.build(), cause, List.of("a", "b"))));
    assertTrue(modes.statistic() < 0.1, () -> "" + modes.statistic());
    assertTrue(modes.p() > 0.7);
  }
}

package org.vaneward.stats.bootstrap;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.SplittableRandom;
import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.simple.RandomSource;
import org.junit.jupiter.api.Test;
import org.vaneward.stats.Observation;
import org.vaneward.stats.Observations;
import org.vaneward.stats.distribution.Weibull;
import org.vaneward.stats.fit.FitSettings;
import org.vaneward.stats.fit.WeibullFit;
import org.vaneward.stats.fit.WeibullFitter;

class CaseResampleTest {
  @Test
  void asManyLivesArePickedAsThereAreEachAsItIs() {
    Observations lives =
        Observations.of(
            new Observation.Exact(3, 10, 1),
            new Observation.RightCensored(0, 20, 5),
            new Observation.Interval(1, 2, 4, 2));
    CaseResample source = CaseResample.of(lives);
    UniformRandomProvider random = RandomSource.L64_X128_MIX.create(3L);
    double[] counts = new double[3];
    for (int k = 0; k < 5000; k++) {
      Observations sample = source.draw(random);
      assertEquals(8, sample.lives());
      for (int i = 0; i < sample.size(); i++) {
        Observation row = sample.get(i);
        int kind =
            row instanceof Observation.Exact ? 0 : row instanceof Observation.RightCensored ? 1 : 2;
        assertEquals(lives.entry(kind), sample.entry(i));
        assertEquals(lives.lower(kind), sample.lower(i));
        assertEquals(lives.upper(kind), sample.upper(i));
        counts[kind] += sample.count(i);
      }
    }
    // means of 5000 binomial counts, five standard errors
    assertEquals(1, counts[0] / 5000, 5 * Math.sqrt(7 / 8.0 / 5000));
    assertEquals(5, counts[1] / 5000, 5 * Math.sqrt(15 / 8.0 / 5000));
    assertEquals(2, counts[2] / 5000, 5 * Math.sqrt(12 / 8.0 / 5000));
  }

  @Test
  void countsThatAreNotWholeWeightThePicks() {
    Observations lives =
        Observations.of(new Observation.Exact(0, 10, 0.5), new Observation.Exact(0, 20, 3));
    CaseResample source = CaseResample.of(lives);
    UniformRandomProvider random = RandomSource.L64_X128_MIX.create(4L);
    double first = 0;
    for (int k = 0; k < 5000; k++) {
      Observations sample = source.draw(random);
      assertEquals(4, sample.lives());
      first += sample.lower(0) == 10 ? sample.count(0) : 0;
    }
    assertEquals(1 / 7.0, first / 20_000, 5 * Math.sqrt(6 / 49.0 / 20_000));
  }

  /** The spread of the refits is the standard error of the fit, in a sample this large. */
  @Test
  void refitsSpreadAsTheInformationSays() {
    SplittableRandom random = new SplittableRandom(5);
    Weibull law = new Weibull(1.8, 700);
    Observations.Builder lives = Observations.builder();
    for (int i = 0; i < 1000; i++) {
      double age = law.quantile(random.nextDouble(1e-9, 1));
      if (age <= 800) {
        lives.addFailure(0, age, 1);
      } else {
        lives.addRightCensored(0, 800, 1);
      }
    }
    Observations all = lives.build();
    Refits refits = CaseResample.refits(all, 1000, 17, Refit.weibull());
    assertEquals(1000, refits.replicates());
    assertEquals(0, refits.notEstimable());
    double[] logShapes =
        refits.fitted().stream().mapToDouble(d -> Math.log(((Weibull) d).shape())).toArray();
    double mean = Arrays.stream(logShapes).average().orElseThrow();
    double variance = Arrays.stream(logShapes).map(x -> (x - mean) * (x - mean)).sum() / 999;
    WeibullFit.Fitted fit = (WeibullFit.Fitted) WeibullFitter.fit(all, FitSettings.defaults());
    assertEquals(1, variance / fit.covariance().shapeShape(), 0.2);
    assertEquals(refits, CaseResample.refits(all, 1000, 17, Refit.weibull()));
  }

  @Test
  void samplesWithoutAFitAreCounted() {
    Observations lives =
        Observations.of(
            Observation.failedAt(10), Observation.failedAt(20), Observation.rightCensoredAt(30));
    Refits refits = CaseResample.refits(lives, 500, 1, Refit.weibull());
    // no failure picked: 1 in 27; or only ages that leave nothing longer
    assertTrue(refits.notEstimable() > 20 && refits.notEstimable() < 250);
    assertEquals(500, refits.fitted().size() + refits.notEstimable());
  }

  @Test
  void nothingToPickFromOrNothingToDoIsRefused() {
    Observations none = Observations.builder().build();
    assertThrows(IllegalArgumentException.class, () -> CaseResample.of(none));
    Observations one = Observations.of(Observation.failedAt(1));
    assertThrows(
        IllegalArgumentException.class, () -> CaseResample.refits(one, 0, 1, Refit.weibull()));
  }
}

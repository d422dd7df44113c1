package org.vaneward.stats.bootstrap;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.simple.RandomSource;
import org.junit.jupiter.api.Test;
import org.vaneward.stats.Observation;
import org.vaneward.stats.Observations;
import org.vaneward.stats.distribution.Exponential;
import org.vaneward.stats.distribution.LifeDistribution;
import org.vaneward.stats.distribution.Lognormal;
import org.vaneward.stats.distribution.Weibull;

class ParametricSamplerTest {
  private static final Weibull LAW = new Weibull(2, 1000);

  private static UniformRandomProvider random(long seed) {
    return RandomSource.L64_X128_MIX.create(seed);
  }

  /** Share of draws for which something holds, held to {@code p} by five standard errors. */
  private static void assertShare(double p, double hits, double n) {
    assertEquals(p, hits / n, 5 * Math.sqrt(p * (1 - p) / n), "share of " + n);
  }

  @Test
  void completeSamplesFollowTheLaw() {
    for (LifeDistribution law : List.of(LAW, new Lognormal(6, 0.7), new Exponential(800))) {
      Observations lives =
          Observations.of(new Observation.Exact(0, 100, 2), Observation.failedAt(2000));
      ParametricSampler sampler = ParametricSampler.of(lives, law);
      UniformRandomProvider random = random(7);
      int[] below = new int[3];
      int n = 20_000;
      for (int k = 0; k < n; k++) {
        Observations sample = sampler.draw(random);
        assertEquals(3, sample.failures());
        for (int i = 0; i < 3; i++) {
          below[0] += sample.upper(i) <= law.quantile(0.01) ? 1 : 0;
          below[1] += sample.upper(i) <= law.quantile(0.5) ? 1 : 0;
          below[2] += sample.upper(i) <= law.quantile(0.98) ? 1 : 0;
        }
      }
      assertShare(0.01, below[0], 3.0 * n);
      assertShare(0.5, below[1], 3.0 * n);
      assertShare(0.98, below[2], 3.0 * n);
    }
  }

  @Test
  void entryAgesAreKeptAndDrawnFrom() {
    Observations lives =
        Observations.of(
            new Observation.Exact(900, 1000, 1), new Observation.RightCensored(600, 1300, 1));
    ParametricSampler sampler = ParametricSampler.of(lives, LAW);
    UniformRandomProvider random = random(8);
    int n = 20_000;
    int good = 0;
    int early = 0;
    for (int k = 0; k < n; k++) {
      Observations sample = sampler.draw(random);
      assertEquals(2, sample.size());
      assertEquals(900, sample.entry(0));
      assertEquals(600, sample.entry(1));
      assertTrue(sample.lower(0) > 900 && sample.lower(1) > 600);
      early += sample.lower(0) <= 1000 ? 1 : 0;
      good += sample.isRightCensored(1) ? 1 : 0;
    }
    assertShare(1 - LAW.survival(1000) / LAW.survival(900), early, n);
    assertShare(LAW.survival(1300) / LAW.survival(600), good, n);
  }

  /** Two of the three at risk at 500 are censored there, then the last at 2000 is certain. */
  @Test
  void aFailedLifeIsCensoredByTheCurveOfCensoringAges() {
    Observations lives =
        Observations.of(
            Observation.failedAt(400),
            new Observation.RightCensored(0, 500, 2),
            Observation.rightCensoredAt(2000));
    ParametricSampler sampler = ParametricSampler.of(lives, new Weibull(8, 1900));
    UniformRandomProvider random = random(9);
    int n = 20_000;
    int at500 = 0;
    for (int k = 0; k < n; k++) {
      Observations sample = sampler.draw(random);
      if (sample.isRightCensored(0)) {
        assertTrue(sample.lower(0) == 500 || sample.lower(0) == 2000);
        at500 += sample.lower(0) == 500 ? 1 : 0;
      }
    }
    assertShare(2.0 / 3 * new Weibull(8, 1900).survival(500), at500, n);
  }

  @Test
  void nobodyIsCensoredWhereNobodyWas() {
    Observations lives =
        Observations.of(
            Observation.rightCensoredAt(300),
            Observation.failedAt(900),
            Observation.failedAt(1100));
    ParametricSampler sampler = ParametricSampler.of(lives, LAW);
    UniformRandomProvider random = random(10);
    for (int k = 0; k < 2000; k++) {
      Observations sample = sampler.draw(random);
      assertTrue(sample.isExact(1) && sample.isExact(2));
      assertTrue(sample.lower(0) <= 300);
    }
  }

  /** Lives seen to be failing after all at risk were censored: the curve starts again there. */
  @Test
  void lateEntriesOutliveACurveThatCameDownTooSoon() {
    Observations lives =
        Observations.of(
            Observation.rightCensoredAt(100),
            new Observation.Exact(200, 700, 1),
            new Observation.RightCensored(200, 800, 1));
    ParametricSampler sampler = ParametricSampler.of(lives, LAW);
    UniformRandomProvider random = random(11);
    int censored = 0;
    for (int k = 0; k < 5000; k++) {
      Observations sample = sampler.draw(random);
      if (sample.isRightCensored(1)) {
        assertEquals(800, sample.lower(1));
        censored++;
      }
    }
    assertShare(LAW.survival(800) / LAW.survival(200), censored, 5000);
  }

  @Test
  void livesLookedAtAgainAreLookedAtOnTheirGrid() {
    Observations lives =
        Observations.of(
            Observation.failedBetween(500, 700),
            new Observation.Interval(100, 100, 300, 1),
            Observation.rightCensoredAt(1000));
    ParametricSampler sampler = ParametricSampler.of(lives, LAW);
    UniformRandomProvider random = random(12);
    int n = 20_000;
    int[] early = new int[2];
    for (int k = 0; k < n; k++) {
      Observations sample = sampler.draw(random);
      for (int i = 0; i < 2; i++) {
        if (sample.isRightCensored(i)) {
          assertEquals(1000, sample.lower(i));
          continue;
        }
        // the last look is that at the censoring age
        assertTrue(sample.upper(i) == 1000 || (sample.upper(i) - 100) % 200 == 0);
        assertTrue(i == 0 || sample.lower(i) >= 100);
        assertTrue(sample.upper(i) <= 1000 && sample.upper(i) - sample.lower(i) <= 200);
        early[i] += sample.upper(i) <= 500 ? 1 : 0;
      }
      assertTrue(sample.isRightCensored(2) || sample.upper(2) % 200 == 0);
    }
    assertShare(LAW.failed(500), early[0], n);
    assertShare(1 - LAW.survival(500) / LAW.survival(100), early[1], n);
  }

  @Test
  void livesLookedAtOnceAreLookedAtOnce() {
    Observations lives =
        Observations.of(
            Observation.failedBetween(0, 600),
            Observation.failedBetween(0, 900),
            Observation.rightCensoredAt(800));
    ParametricSampler sampler = ParametricSampler.of(lives, LAW);
    UniformRandomProvider random = random(13);
    double[] look = {600, 900, 800};
    for (int k = 0; k < 2000; k++) {
      Observations sample = sampler.draw(random);
      for (int i = 0; i < 3; i++) {
        assertEquals(0, sample.isRightCensored(i) ? 0 : sample.lower(i));
        assertEquals(look[i], sample.isRightCensored(i) ? sample.lower(i) : sample.upper(i));
      }
    }
  }

  @Test
  void aRightCensoredLifeFailsAsTheOthersWereFoundToFail() {
    Observations lives =
        Observations.of(
            new Observation.Exact(0, 100, 3),
            Observation.failedBetween(400, 500),
            Observation.rightCensoredAt(1250));
    ParametricSampler sampler = ParametricSampler.of(lives, LAW);
    UniformRandomProvider random = random(14);
    int failed = 0;
    int exact = 0;
    for (int k = 0; k < 20_000; k++) {
      Observations sample = sampler.draw(random);
      int last = sample.size() - 1;
      if (!sample.isRightCensored(last)) {
        failed++;
        exact += sample.isExact(last) ? 1 : 0;
        assertTrue(sample.isExact(last) || sample.upper(last) % 100 == 50);
      }
    }
    assertShare(LAW.failed(1250), failed, 20_000);
    assertShare(0.75, exact, failed);
  }

  @Test
  void countsAreLivesAndNoneIsLost() {
    Observations lives =
        Observations.of(
            new Observation.RightCensored(0, 700, 5000),
            new Observation.Exact(0, 300, 2.5),
            new Observation.Interval(0, 100, 200, 3));
    ParametricSampler sampler = ParametricSampler.of(lives, LAW);
    UniformRandomProvider random = random(15);
    double failed = 0;
    for (int k = 0; k < 50; k++) {
      Observations sample = sampler.draw(random);
      assertEquals(5005.5, sample.lives(), 1e-9);
      double good = 0;
      for (int i = 0; i < sample.size(); i++) {
        good += sample.isRightCensored(i) ? sample.count(i) : 0;
      }
      failed += 5005.5 - good;
    }
    assertShare(LAW.failed(700), failed, 50 * 5005.5);
  }

  @Test
  void entryFarBeyondWhereTheLawReachesIsNoTrouble() {
    for (LifeDistribution law :
        List.of(new Weibull(5, 100), new Lognormal(1, 0.05), new Exponential(0.5))) {
      Observations lives = Observations.of(new Observation.Exact(900, 1000, 1));
      ParametricSampler sampler = ParametricSampler.of(lives, law);
      UniformRandomProvider random = random(16);
      for (int k = 0; k < 100; k++) {
        double age = sampler.draw(random).lower(0);
        assertTrue(age > 900 && age < 1000, law + " " + age);
      }
    }
  }

  @Test
  void absurdShapesStillGiveLegalLives() {
    UniformRandomProvider random = random(17);
    Observations lives =
        Observations.of(
            Observation.failedAt(1),
            new Observation.Exact(1e-9, 1e6, 1),
            Observation.failedBetween(1, 2),
            Observation.rightCensoredAt(3));
    for (double shape : new double[] {1e-3, 0.01, 100, 1e6}) {
      ParametricSampler sampler = ParametricSampler.of(lives, new Weibull(shape, 1));
      for (int k = 0; k < 500; k++) {
        assertEquals(4, sampler.draw(random).lives());
      }
    }
  }

  @Test
  void tooManyLivesAreRefusedByNumber() {
    Observations lives = Observations.of(new Observation.RightCensored(0, 1, 2e6));
    IllegalArgumentException e =
        assertThrows(IllegalArgumentException.class, () -> ParametricSampler.of(lives, LAW));
    assertTrue(e.toString().contains("2000000"), e.toString());
  }

  @Test
  void sameSeedSameSample() {
    List<Observation> rows = new ArrayList<>();
    for (int i = 1; i < 20; i++) {
      rows.add(i % 3 == 0 ? Observation.rightCensoredAt(100 * i) : Observation.failedAt(90 * i));
    }
    ParametricSampler sampler = ParametricSampler.of(Observations.of(rows), LAW);
    assertEquals(sampler.draw(random(1)).asList(), sampler.draw(random(1)).asList());
  }

  /** A law without memory has none either where its survival is below any number there is. */
  @Test
  void farOutTheExponentialStillHasNoMemory() {
    double scale = 10;
    for (double entry : new double[] {100, 660 * scale, 700 * scale, 5000 * scale}) {
      Observations lives = Observations.of(new Observation.Exact(entry, entry + 1, 4000));
      ParametricSampler sampler = ParametricSampler.of(lives, new Exponential(scale));
      Observations drawn = sampler.draw(random(21));
      double sum = 0;
      double beyond = 0;
      for (int i = 0; i < drawn.size(); i++) {
        sum += drawn.lower(i) - entry;
        beyond += drawn.lower(i) - entry > 2 * scale ? 1 : 0;
      }
      assertEquals(scale, sum / drawn.size(), 4 * scale / Math.sqrt(4000), "entered at " + entry);
      assertShare(Math.exp(-2), beyond, 4000);
    }
  }
}

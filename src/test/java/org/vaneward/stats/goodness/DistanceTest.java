package org.vaneward.stats.goodness;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.vaneward.stats.Observation;
import org.vaneward.stats.Observations;
import org.vaneward.stats.distribution.Exponential;
import org.vaneward.stats.distribution.LifeDistribution;
import org.vaneward.stats.distribution.Lognormal;
import org.vaneward.stats.distribution.Weibull;
import org.vaneward.stats.numeric.Integral;

class DistanceTest {
  private static final Weibull LAW = new Weibull(1.7, 900);

  private static Distance of(Observations lives, LifeDistribution law) {
    return Distance.of(lives, law).orElseThrow();
  }

  /** By the ordered shares z: 1/(12n) + sum (z - (2i-1)/(2n))^2, and the sum of logarithms. */
  private static Distance classical(double[] ages, LifeDistribution law) {
    double[] sorted = ages.clone();
    Arrays.sort(sorted);
    int n = sorted.length;
    double w2 = 1.0 / (12 * n);
    double logs = 0;
    for (int i = 0; i < n; i++) {
      double gap = law.failed(sorted[i]) - (2 * i + 1) / (2.0 * n);
      w2 += gap * gap;
      logs += (2 * i + 1) * (Math.log(law.failed(sorted[i])) + law.logSurvival(sorted[n - 1 - i]));
    }
    return new Distance(-n - logs / n, w2);
  }

  @Test
  void oneAndTwoFailuresByHand() {
    Exponential law = new Exponential(1);
    double median = law.quantile(0.5);
    Distance one = of(Observations.of(Observation.failedAt(median)), law);
    // 1/12 + (1/2 - 1/2)^2 and -1 - 2 log(1/2)
    assertEquals(1 / 12.0, one.w2(), 1e-15);
    assertEquals(2 * Math.log(2) - 1, one.a2(), 1e-14);

    Distance two =
        of(
            Observations.of(
                Observation.failedAt(law.quantile(0.2)), Observation.failedAt(law.quantile(0.6))),
            law);
    // 1/24 + 0.05^2 + 0.15^2
    assertEquals(1 / 24.0 + 0.0025 + 0.0225, two.w2(), 1e-14);
    double sum = Math.log(0.2) + Math.log(0.4) + 3 * (Math.log(0.6) + Math.log(0.8));
    assertEquals(-2 - sum / 2, two.a2(), 1e-13);
  }

  @Test
  void completeSamplesGiveTheClassicalStatistics() {
    SplittableRandom random = new SplittableRandom(41);
    for (LifeDistribution law : List.of(LAW, new Lognormal(6.5, 0.8), new Exponential(900))) {
      for (int n : new int[] {1, 2, 3, 10, 57, 300}) {
        double[] ages = random.doubles(n, 1, 3000).toArray();
        if (n > 2) {
          ages[1] = ages[0];
        }
        Observations lives =
            Observations.of(Arrays.stream(ages).mapToObj(Observation::failedAt).toList());
        Distance expected = classical(ages, law);
        Distance got = of(lives, law);
        assertEquals(expected.w2(), got.w2(), 1e-11 * (1 + expected.w2()));
        assertEquals(expected.a2(), got.a2(), 1e-11 * (1 + expected.a2()));
      }
    }
  }

  /** The definition, by quadrature over the fitted share, for a product limit worked by hand. */
  @Test
  void censoredLivesWithLateEntryKeepToTheDefinition() {
    Observations lives =
        Observations.of(
            Observation.failedAt(200),
            Observation.rightCensoredAt(300),
            new Observation.Exact(250, 500, 2),
            new Observation.RightCensored(100, 700, 1),
            Observation.failedAt(900),
            Observation.rightCensoredAt(1200));
    // at risk: 200: the four from age 0 and the one from 100; 500: two, 700, 900, 1200; 900: two
    double[] steps = {200, 500, 900, 1200};
    double[] survival = {1, 4 / 5.0, 4 / 5.0 * 3 / 5, 4 / 5.0 * 3 / 5 / 2};
    double w2 = 0;
    double a2 = 0;
    double from = 0;
    for (int i = 0; i < steps.length; i++) {
      double failed = 1 - survival[i];
      double to = LAW.failed(steps[i]);
      w2 += Integral.of(z -> (failed - z) * (failed - z), from, to).value();
      a2 += Integral.of(z -> (failed - z) * (failed - z) / (z * (1 - z)), from, to).value();
      from = to;
    }
    Distance got = of(lives, LAW);
    assertEquals(7 * w2, got.w2(), 1e-12);
    assertEquals(7 * a2, got.a2(), 1e-12);
  }

  @Test
  void livesThatAllEnterLateAreHeldToTheCurveOfThoseThatGotThere() {
    Observations late =
        Observations.of(
            new Observation.Exact(400, 650, 1),
            new Observation.Exact(400, 820, 1),
            new Observation.Exact(500, 1500, 1));
    double reached = LAW.survival(400);
    double[] z = {650, 820, 1500};
    double w2 = 1 / 36.0;
    for (int i = 0; i < 3; i++) {
      double gap = 1 - LAW.survival(z[i]) / reached - (2 * i + 1) / 6.0;
      w2 += gap * gap;
    }
    assertEquals(w2, of(late, LAW).w2(), 1e-13);
  }

  @Test
  void aStepToZeroBeforeOthersEnterIsPassedOver() {
    Observations.Builder most = Observations.builder();
    for (double age : new double[] {300, 500, 640, 900, 1100}) {
      most.addFailure(60, age, 1);
    }
    Observations.Builder all = Observations.builder().addFailure(0, 50, 1);
    most.build().asList().forEach(all::add);
    Distance with = of(all.build(), LAW);
    Observations.Builder censored = Observations.builder().addRightCensored(0, 50, 1);
    most.build().asList().forEach(censored::add);
    assertEquals(of(censored.build(), LAW).w2(), with.w2(), 1e-14);
    assertTrue(with.a2() < 5, "a2 " + with.a2());
  }

  /** Intervals that hold one failure each and are narrow say nearly what exact ages say. */
  @Test
  void narrowIntervalsComeNearExactAges() {
    SplittableRandom random = new SplittableRandom(5);
    List<Observation> exact = new ArrayList<>();
    List<Observation> narrow = new ArrayList<>();
    for (int i = 0; i < 30; i++) {
      double age = LAW.quantile(random.nextDouble(0.01, 0.99));
      if (i % 4 == 0) {
        exact.add(Observation.rightCensoredAt(age));
        narrow.add(Observation.rightCensoredAt(age));
      } else {
        exact.add(Observation.failedAt(age));
        narrow.add(Observation.failedBetween(age - 1e-4, age + 1e-4));
      }
    }
    Distance wanted = of(Observations.of(exact), LAW);
    Distance got = of(Observations.of(narrow), LAW);
    assertEquals(wanted.w2(), got.w2(), 1e-5);
    assertEquals(wanted.a2(), got.a2(), 1e-4);
  }

  @Test
  void intervalsFilledAsTheCurveSaysAreNoDistanceAway() {
    double a = LAW.quantile(0.25);
    double b = LAW.quantile(0.5);
    Observations lives =
        Observations.of(
            new Observation.Interval(0, 0, a, 25),
            new Observation.Interval(0, a, b, 25),
            new Observation.RightCensored(0, b, 50));
    assertEquals(0, of(lives, LAW).w2(), 1e-9);
    assertEquals(0, of(lives, LAW).a2(), 1e-9);
    Observations off =
        Observations.of(
            new Observation.Interval(0, 0, a, 10),
            new Observation.Interval(0, a, b, 40),
            new Observation.RightCensored(0, b, 50));
    // the gap falls from 0 to -0.15 and comes back: 100 * 2 * 0.25 * 0.15^2 / 3
    assertEquals(100 * 2 * 0.25 * 0.0225 / 3, of(off, LAW).w2(), 1e-9);
  }

  @Test
  void neitherTheUnitNorTheOrderMatters() {
    List<Observation> rows = new ArrayList<>();
    SplittableRandom random = new SplittableRandom(12);
    for (int i = 0; i < 40; i++) {
      double age = random.nextDouble(50, 2500);
      rows.add(
          i % 3 == 0
              ? new Observation.RightCensored(age / 4, age, 2)
              : new Observation.Exact(age / 3, age, 1));
    }
    Distance plain = of(Observations.of(rows), LAW);
    List<Observation> scaled = new ArrayList<>();
    for (Observation row : rows) {
      scaled.add(
          row instanceof Observation.Exact exact
              ? new Observation.Exact(exact.entry() * 1e-7, exact.age() * 1e-7, 1)
              : new Observation.RightCensored(
                  row.entry() * 1e-7, ((Observation.RightCensored) row).age() * 1e-7, 2));
    }
    Collections.shuffle(scaled, new Random(3));
    Distance other = of(Observations.of(scaled), new Weibull(1.7, 900e-7));
    assertEquals(plain.w2(), other.w2(), 1e-11);
    assertEquals(plain.a2(), other.a2(), 1e-11);
  }

  @Test
  void agesOfAnySizeGiveNumbers() {
    Observations wide =
        Observations.of(
            Observation.failedAt(1e-6), Observation.failedAt(1), Observation.failedAt(1e6));
    for (double shape : new double[] {0.05, 1, 20}) {
      Distance got = of(wide, new Weibull(shape, 1));
      assertTrue(got.a2() >= got.w2() && got.w2() > 0, "shape " + shape + ": " + got);
    }
  }
}

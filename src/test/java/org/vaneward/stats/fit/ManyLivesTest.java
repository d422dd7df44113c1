package org.vaneward.stats.fit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.SplittableRandom;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ForkJoinPool;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.vaneward.stats.Observation;
import org.vaneward.stats.Observations;
import org.vaneward.stats.distribution.Weibull;
import org.vaneward.stats.fit.WeibullFit.Fitted;
import org.vaneward.stats.fit.WeibullFit.LimitMethod;

/** What is done otherwise with many lives gives what the plain way gives. */
class ManyLivesTest {
  /** Lives that fail by a Weibull law or are suspended, every eleventh of them observed late. */
  private static Observations draw(int n, Weibull law, boolean late) {
    SplittableRandom random = new SplittableRandom(n);
    Observations.Builder lives = Observations.builder();
    for (int i = 0; i < n; i++) {
      double age = law.inverseSurvival(1 - random.nextDouble() * (1 - 1e-12));
      double watched = law.scale() * Math.exp(2 * random.nextDouble() - 1);
      double end = Math.min(age, watched);
      double entry = late && i % 11 == 0 ? end * random.nextDouble() : 0;
      if (age <= watched) {
        lives.addFailure(entry, end, 1 + i % 2);
      } else {
        lives.addRightCensored(entry, end, 1);
      }
    }
    return lives.build();
  }

  /** The sums term by term, each addition compensated (Kahan). */
  private static double[] plainly(Observations lives, double shape) {
    double greatest = 0;
    for (int i = 0; i < lives.size(); i++) {
      greatest = Math.max(greatest, lives.lower(i));
    }
    double[] sums = new double[3];
    double[] lost = new double[3];
    for (int i = 0; i < lives.size(); i++) {
      double y = Math.log(lives.lower(i)) - Math.log(greatest);
      double power = lives.count(i) * Math.exp(shape * y);
      for (int m = 0; m < 3; m++) {
        double term = power - lost[m];
        double sum = sums[m] + term;
        lost[m] = sum - sums[m] - term;
        sums[m] = sum;
        power *= y;
      }
    }
    return sums;
  }

  /** Shapes near one another, so that all but few come from a series; and ones far away. */
  @ParameterizedTest
  @CsvSource({"3000, 1.8", "50000, 1.8", "50000, 0.05", "20000, 30", "9000, 0.4"})
  void sumsByTheirSeriesAreTheSums(int n, double shape) {
    Observations lives = draw(n, new Weibull(shape, 4000), false);
    PowerSums sums = new PowerSums(new LifeColumns(lives, 1));
    for (double factor : new double[] {1, 1.001, 0.999, 1.03, 0.97, 1.06, 0.9, 1.3, 0.2, 5}) {
      double[] expected = plainly(lives, shape * factor);
      PowerSums.Sums got = sums.at(shape * factor);
      assertEquals(expected[0], got.m0(), 2e-13 * Math.abs(expected[0]), "factor " + factor);
      assertEquals(expected[1], got.m1(), 2e-13 * Math.abs(expected[1]), "factor " + factor);
      assertEquals(expected[2], got.m2(), 2e-13 * Math.abs(expected[2]), "factor " + factor);
    }
  }

  @ParameterizedTest
  @ValueSource(booleans = {false, true})
  void theSameBytesOnOneThread(boolean late) throws ExecutionException, InterruptedException {
    Observations lives = draw(100_000, new Weibull(1.7, 8000), late);
    FitSettings settings =
        late ? FitSettings.defaults().withLimits(LimitMethod.WALD) : FitSettings.defaults();
    ForkJoinPool one = new ForkJoinPool(1);
    try {
      assertEquals(
          WeibullFitter.fit(lives, settings),
          one.submit(() -> WeibullFitter.fit(lives, settings)).get());
    } finally {
      one.shutdown();
    }
  }

  /** The score by plain sums: d / shape + sum log t - d m1 / m0 is nothing beside its terms. */
  @ParameterizedTest
  @ValueSource(ints = {2047, 2048, 65_535, 65_536, 200_000})
  void thePlainScoreIsZeroAtTheFit(int n) {
    Observations lives = draw(n, new Weibull(2.3, 500), false);
    Fitted fit = (Fitted) WeibullFitter.fit(lives, FitSettings.defaults());
    double greatest = 0;
    for (int i = 0; i < n; i++) {
      greatest = Math.max(greatest, lives.lower(i));
    }
    double exact = 0;
    double logs = 0;
    for (int i = 0; i < n; i++) {
      if (lives.isExact(i)) {
        exact += lives.count(i);
        logs += lives.count(i) * (Math.log(lives.lower(i)) - Math.log(greatest));
      }
    }
    double[] m = plainly(lives, fit.weibull().shape());
    double score = exact / fit.weibull().shape() + logs - exact * m[1] / m[0];
    assertEquals(0, score, 1e-11 * exact);
    double scale = greatest * Math.pow(m[0] / exact, 1 / fit.weibull().shape());
    assertEquals(scale, fit.weibull().scale(), 1e-11 * scale);
    assertEquals(lives.lives(), fit.lives());
    assertEquals(lives.failures(), fit.failures());
    assertTrue(fit.shape().lower() < 2.3 * 1.1 && fit.shape().upper() > 2.3 / 1.1);
  }

  /** The part that gives the first guess may hold no failure, or hold nothing but failures. */
  @Test
  void rowsInAnUnluckyOrder() {
    int n = 80_000;
    Weibull law = new Weibull(1.5, 100);
    Observations.Builder inTurn = Observations.builder();
    Observations.Builder sorted = Observations.builder();
    for (int kind = 0; kind < 2; kind++) {
      for (int i = 0; i < n; i++) {
        boolean failed = i % 9 != 0;
        double age = law.quantile((i + 0.5) / n);
        if (kind == 0) {
          add(inTurn, age, failed);
        }
        if (failed == (kind == 1)) {
          add(sorted, age, failed);
        }
      }
    }
    Fitted one = (Fitted) WeibullFitter.fit(inTurn.build(), FitSettings.defaults());
    Fitted other = (Fitted) WeibullFitter.fit(sorted.build(), FitSettings.defaults());
    assertEquals(one.weibull().shape(), other.weibull().shape(), 1e-12);
    assertEquals(one.shape().lower(), other.shape().lower(), 1e-10);
  }

  /** All ages count towards the spread: of ends, entries and intervals, 0 apart. */
  @Test
  void theSpreadIsThatOfAllAges() {
    Observations leftCensored =
        Observations.of(new Observation.Exact(0, 5, 1), new Observation.Interval(0, 0, 0.5, 1));
    Observations interval =
        Observations.of(new Observation.Exact(0, 5, 1), new Observation.Interval(0, 1, 20, 1));
    Observations late =
        Observations.of(new Observation.Exact(0, 5, 1), new Observation.RightCensored(0.1, 4, 1));
    assertEquals(Math.log(10), WeibullLikelihood.of(leftCensored).spread(), 1e-15);
    assertEquals(Math.log(20), WeibullLikelihood.of(interval).spread(), 1e-15);
    assertEquals(Math.log(50), WeibullLikelihood.of(late).spread(), 1e-15);
  }

  private static void add(Observations.Builder lives, double age, boolean failed) {
    if (failed) {
      lives.addFailure(0, age, 1);
    } else {
      lives.addRightCensored(0, age, 1);
    }
  }
}

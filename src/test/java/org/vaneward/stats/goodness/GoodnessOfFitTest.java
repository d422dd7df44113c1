package org.vaneward.stats.goodness;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ForkJoinPool;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.Function;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.vaneward.stats.Observation;
import org.vaneward.stats.Observations;
import org.vaneward.stats.Reference;
import org.vaneward.stats.bootstrap.Refit;
import org.vaneward.stats.distribution.LifeDistribution;
import org.vaneward.stats.distribution.Lognormal;
import org.vaneward.stats.distribution.Weibull;
import org.vaneward.stats.goodness.GoodnessOfFit.NotAvailable;
import org.vaneward.stats.goodness.GoodnessOfFit.Tested;

class GoodnessOfFitTest {
  private static final Weibull LAW = new Weibull(1.6, 1000);
  private static final Refit REFIT = Refit.weibull();

  /** Ways of watching a life that fails at an age; lives of a sample, samples, seed. */
  private enum Watch {
    COMPLETE(20, 300, 77) {
      @Override
      Observation see(double age, SplittableRandom random) {
        return Observation.failedAt(age);
      }
    },
    CENSORED(30, 300, 78) {
      @Override
      Observation see(double age, SplittableRandom random) {
        double end = random.nextDouble(200, 1600);
        return age <= end ? Observation.failedAt(age) : Observation.rightCensoredAt(end);
      }
    },
    ENTERED_LATE(40, 100, 79) {
      @Override
      Observation see(double age, SplittableRandom random) {
        double entry = random.nextDouble(0, 800);
        double end = entry + random.nextDouble(300, 1500);
        double later = LAW.inverseSurvival(LAW.survival(entry) * LAW.survival(age));
        return later <= end
            ? new Observation.Exact(entry, later, 1)
            : new Observation.RightCensored(entry, end, 1);
      }
    },
    LOOKED_AT(40, 60, 80) {
      @Override
      Observation see(double age, SplittableRandom random) {
        double look = Math.ceil(age / 250) * 250;
        return look <= 1500
            ? Observation.failedBetween(look - 250, look)
            : Observation.rightCensoredAt(1500);
      }
    };

    private final int lives;
    private final int samples;
    private final long seed;

    Watch(int lives, int samples, long seed) {
      this.lives = lives;
      this.samples = samples;
      this.seed = seed;
    }

    abstract Observation see(double age, SplittableRandom random);

    Observations sample(LifeDistribution law, SplittableRandom random) {
      Observations.Builder sample = Observations.builder();
      for (int i = 0; i < lives; i++) {
        sample.add(see(law.quantile(random.nextDouble(1e-12, 1)), random));
      }
      return sample.build();
    }
  }

  private static Tested tested(Observations lives, int replicates, long seed) {
    LifeDistribution fit = REFIT.fit(lives).orElseThrow();
    return assertInstanceOf(Tested.class, GoodnessOfFit.test(lives, fit, REFIT, replicates, seed));
  }

  /**
   * Weibull samples, p from 99 draws each: p falls in each tenth of (0, 1] with the chance 0.1.
   * Held by chi-square on the ten counts to its upper 0.1% point with nine degrees of freedom,
   * 27.88, for each statistic; and a number at or below 0.05 within 4 standard deviations of the
   * expected.
   */
  @ParameterizedTest
  @EnumSource
  @Tag("long")
  void underTheNullPIsUniform(Watch watch) {
    SplittableRandom random = new SplittableRandom(watch.seed);
    int[] a2 = new int[10];
    int[] w2 = new int[10];
    int small = 0;
    for (int k = 0; k < watch.samples; k++) {
      Tested test = tested(watch.sample(LAW, random), 99, k);
      a2[tenth(test.andersonDarling().p())]++;
      w2[tenth(test.cramerVonMises().p())]++;
      small += test.andersonDarling().p() <= 0.05 ? 1 : 0;
    }
    assertTrue(chiSquare(a2) < 27.88, () -> "A2 " + Arrays.toString(a2));
    assertTrue(chiSquare(w2) < 27.88, () -> "W2 " + Arrays.toString(w2));
    double expected = 0.05 * watch.samples;
    assertEquals(expected, small, 4 * Math.sqrt(0.95 * expected));
  }

  private static int tenth(double p) {
    return (int) Math.min(9, Math.ceil(Math.rint(100 * p) / 10) - 1);
  }

  private static double chiSquare(int[] counts) {
    double expected = Arrays.stream(counts).sum() / 10.0;
    double sum = 0;
    for (int count : counts) {
      sum += (count - expected) * (count - expected) / expected;
    }
    return sum;
  }

  /**
   * The p of half the samples must be at most 0.02, of the statistic that weighs tails less 0.05.
   */
  private static void assertRejected(Function<SplittableRandom, Observations> source) {
    SplittableRandom random = new SplittableRandom(99);
    double[] a2 = new double[5];
    double[] w2 = new double[a2.length];
    for (int k = 0; k < a2.length; k++) {
      Tested test = tested(source.apply(random), 99, k);
      a2[k] = test.andersonDarling().p();
      w2[k] = test.cramerVonMises().p();
    }
    Arrays.sort(a2);
    Arrays.sort(w2);
    assertTrue(a2[a2.length / 2] <= 0.02, () -> Arrays.toString(a2));
    assertTrue(w2[w2.length / 2] <= 0.05, () -> Arrays.toString(w2));
  }

  @Test
  void aClearLognormalIsRejected() {
    assertRejected(
        random -> {
          Observations.Builder lives = Observations.builder();
          for (int i = 0; i < 150; i++) {
            lives.addFailure(0, new Lognormal(6, 1).quantile(random.nextDouble(1e-12, 1)), 1);
          }
          return lives.build();
        });
  }

  @Test
  void aClearMixtureIsRejectedThoughCensoredAndEnteredLate() {
    assertRejected(
        random -> {
          Observations.Builder lives = Observations.builder();
          for (int i = 0; i < 100; i++) {
            Weibull law = new Weibull(5, i % 2 == 0 ? 150 : 1500);
            double entry = i % 5 == 0 ? 40 : 0;
            double age = law.inverseSurvival(law.survival(entry) * random.nextDouble(1e-9, 1));
            if (age < 1600) {
              lives.addFailure(entry, age, 1);
            } else {
              lives.addRightCensored(entry, 1600, 1);
            }
          }
          return lives.build();
        });
  }

  @Test
  void aMixtureSeenAtLooksIsRejected() {
    assertRejected(
        random -> {
          Observations.Builder lives = Observations.builder();
          for (int i = 0; i < 80; i++) {
            Weibull law = new Weibull(6, i % 2 == 0 ? 150 : 1500);
            double look = Math.ceil(law.quantile(random.nextDouble(1e-9, 1)) / 100) * 100;
            lives.add(Observation.failedBetween(look - 100, look));
          }
          return lives.build();
        });
  }

  /** Whatever the data of the reference cases, the answer is a test or a reason. */
  @Test
  void referenceLivesGetATestOrAReason() {
    for (String topic :
        List.of("right_censored_fits", "delayed_entry_fits", "interval_censored_fits")) {
      for (Reference.Case c : Reference.cases(topic)) {
        Observations lives = c.lives();
        Optional<LifeDistribution> fit = REFIT.fit(lives);
        if (fit.isEmpty()) {
          continue;
        }
        GoodnessOfFit answer = GoodnessOfFit.test(lives, fit.get(), REFIT, 19, 1);
        if (answer instanceof Tested test) {
          assertTrue(test.andersonDarling().value() > 0, c.name());
          assertTrue(test.andersonDarling().p() >= 0.05 && test.andersonDarling().p() <= 1);
        } else {
          String reason = ((NotAvailable) answer).reason();
          assertTrue(reason.length() > 10, () -> c.name() + ": " + reason);
        }
      }
    }
  }

  @Test
  void sameSeedSamePOnAnyNumberOfThreads() throws InterruptedException, ExecutionException {
    Observations lives = Watch.CENSORED.sample(LAW, new SplittableRandom(3));
    Tested one = tested(lives, 300, 8);
    for (int threads : new int[] {1, 5}) {
      ForkJoinPool pool = new ForkJoinPool(threads);
      try {
        assertEquals(one, pool.submit(() -> tested(lives, 300, 8)).get());
      } finally {
        pool.shutdown();
      }
    }
  }

  private static void assertReason(String reason, Observations lives) {
    GoodnessOfFit answer = GoodnessOfFit.test(lives, LAW, REFIT, 99, 1);
    assertEquals(reason, assertInstanceOf(NotAvailable.class, answer).reason());
  }

  @Test
  void noTestWithoutReason() {
    assertReason("fewer than 3 failures", Observations.builder().build());
    assertReason(
        "fewer than 3 failures",
        Observations.of(Observation.failedAt(3), new Observation.RightCensored(0, 9, 5000)));
    assertReason(
        "failures known to an interval together with entry ages",
        Observations.of(new Observation.Exact(10, 100, 3), Observation.failedBetween(500, 900)));
    assertReason(
        "too many lives to draw one by one",
        Observations.of(
            new Observation.Exact(0, 100, 3), new Observation.RightCensored(0, 9, 1e9)));
    assertThrows(
        IllegalArgumentException.class,
        () ->
            GoodnessOfFit.test(
                Observations.of(new Observation.Exact(0, 100, 3)), LAW, REFIT, 0, 1));
  }

  @Test
  void aRefitThatKeepsFailingIsAReason() {
    Observations lives = Watch.COMPLETE.sample(LAW, new SplittableRandom(4));
    GoodnessOfFit answer = GoodnessOfFit.test(lives, LAW, sample -> Optional.empty(), 50, 1);
    assertEquals(
        "50 of 50 samples drawn like these lives have no fit",
        assertInstanceOf(NotAvailable.class, answer).reason());
  }

  /** One sample in twenty-five without a fit is no obstacle; it is told. */
  @Test
  void aFewSamplesWithoutAFitAreLeftOut() {
    Observations lives = Watch.COMPLETE.sample(LAW, new SplittableRandom(4));
    AtomicInteger asked = new AtomicInteger();
    GoodnessOfFit answer =
        GoodnessOfFit.test(
            lives,
            LAW,
            sample -> asked.incrementAndGet() % 25 == 0 ? Optional.empty() : REFIT.fit(sample),
            100,
            1);
    Tested test = assertInstanceOf(Tested.class, answer);
    assertEquals(4, test.notEstimable());
    double places = 97 * test.cramerVonMises().p();
    assertEquals(Math.rint(places), places, 1e-9);
  }

  @Test
  void hardDataGiveNumbers() {
    Observations tied =
        Observations.of(
            new Observation.Exact(0, 500, 12), new Observation.RightCensored(0, 700, 3000));
    Observations wide =
        Observations.of(
            Observation.failedAt(1e-6),
            Observation.failedAt(1),
            Observation.failedAt(1e6),
            Observation.failedAt(30),
            Observation.rightCensoredAt(1e4));
    for (Observations lives : List.of(tied, wide)) {
      Tested test = tested(lives, 99, 1);
      assertTrue(test.andersonDarling().value() > 0 && test.cramerVonMises().value() > 0);
    }
    // twelve at one age are no Weibull
    assertEquals(0.01, tested(tied, 99, 1).andersonDarling().p(), 1e-12);
  }
}

package org.vaneward.stats.fit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.vaneward.stats.Observation;
import org.vaneward.stats.Observations;
import org.vaneward.stats.fit.SmallSampleBias.Corrected;
import org.vaneward.stats.fit.SmallSampleBias.NotApplicable;
import org.vaneward.stats.fit.WeibullFit.Fitted;
import org.vaneward.stats.fit.WeibullFit.LimitMethod;

class SmallSampleBiasTest {
  private static final FitSettings QUICK =
      FitSettings.defaults().withLimits(LimitMethod.WALD).withShares(List.of());

  private static final int SAMPLES = 4000;

  /**
   * The remembered formula against simulation, samples complete or stopped at the r-th failure. The
   * shape's relative error has one law whatever the true shape and scale, so 1 and 1 stand for all.
   * Four standard errors are allowed: one false alarm in some thousand runs with other seeds.
   */
  @ParameterizedTest
  @CsvSource({
    "5, 5, 0.006, 0.006",
    "6, 6, 0.006, 0.006",
    "10, 10, 0.006, 0.006",
    "20, 20, 0.006, 0.006",
    "50, 50, 0.006, 0.006",
    "5, 3, 0.006, 0.06",
    "10, 5, 0.006, 0.06",
    "20, 10, 0.006, 0.06",
    "10, 7, 0.006, 0.06",
    "20, 15, 0.006, 0.06",
    "50, 25, 0.006, 0.06"
  })
  void theFormulaHoldsInSimulation(int n, int r, double tooLittle, double tooMuch) {
    SplittableRandom random = new SplittableRandom(1969);
    double sum = 0;
    double squares = 0;
    double ratio = 0;
    for (int i = 0; i < SAMPLES; i++) {
      Observations lives = sample(random, n, r);
      Fitted fit = fit(lives);
      Corrected c = assertInstanceOf(Corrected.class, SmallSampleBias.of(lives, fit));
      assertEquals(fit.weibull().shape() / c.ratio(), c.unbiasedShape(), 1e-12 * c.shape());
      ratio = c.ratio();
      sum += c.shape();
      squares += c.shape() * c.shape();
    }
    double mean = sum / SAMPLES;
    double error = Math.sqrt((squares / SAMPLES - mean * mean) / SAMPLES);
    double allowed = 4 * error / mean;
    String what = "ratio " + ratio + ", simulated " + mean + " +- " + error;
    assertTrue(ratio / mean - 1 <= tooMuch + allowed, what);
    assertTrue(1 - ratio / mean <= tooLittle + allowed, what);
    // and it is better than no correction
    assertTrue(Math.abs(ratio / mean - 1) < mean - 1, what);
  }

  private static Observations sample(SplittableRandom random, int n, int r) {
    double[] ages = new double[n];
    for (int i = 0; i < n; i++) {
      ages[i] = -Math.log(random.nextDouble(1e-300, 1));
    }
    Arrays.sort(ages);
    Observations.Builder lives = Observations.builder();
    for (int i = 0; i < r; i++) {
      lives.addFailure(0, ages[i], 1);
    }
    if (r < n) {
      lives.addRightCensored(0, ages[r - 1], n - r);
    }
    return lives.build();
  }

  private static Fitted fit(Observations lives) {
    return assertInstanceOf(Fitted.class, WeibullFitter.fit(lives, QUICK));
  }

  @Test
  void saysOfWhichSamplesItsErrorIsKnown() {
    SplittableRandom random = new SplittableRandom(4);
    assertTrue(note(sample(random, 8, 8)).contains("complete lives"));
    assertTrue(note(sample(random, 8, 5)).contains("half or more"));
  }

  private static String note(Observations lives) {
    return assertInstanceOf(Corrected.class, SmallSampleBias.of(lives, fit(lives))).note();
  }

  @Test
  void saysWhenItDoesNotApply() {
    Observations.Builder five = Observations.builder();
    for (double age : new double[] {10, 20, 30, 40, 50}) {
      five.addFailure(0, age, 1);
    }
    Observations complete = five.build();
    Observations late = five.addFailure(5, 35, 1).build();
    refused(late, fit(late), "late");
    Observations looked =
        Observations.of(
            Observation.failedBetween(10, 20),
            Observation.failedBetween(20, 30),
            Observation.failedAt(25),
            Observation.failedAt(40),
            Observation.failedAt(14));
    refused(looked, fit(looked), "interval");
    Observations stopped =
        Observations.builder()
            .addFailure(0, 10, 1)
            .addFailure(0, 20, 1)
            .addFailure(0, 30, 1)
            .addRightCensored(0, 35, 2)
            .build();
    refused(stopped, fit(stopped), "last failure");
    Observations few =
        Observations.of(Observation.failedAt(1), Observation.failedAt(2), Observation.failedAt(4));
    refused(few, fit(few), "fewer than 5");
    SplittableRandom random = new SplittableRandom(2);
    Observations heavy = sample(random, 20, 4);
    refused(heavy, fit(heavy), "half");
    Fitted stated =
        assertInstanceOf(Fitted.class, WeibullFitter.fit(complete, QUICK.withFixedShape(2)));
    refused(complete, stated, "stated");
  }

  private static void refused(Observations lives, Fitted fit, String why) {
    String said = assertInstanceOf(NotApplicable.class, SmallSampleBias.of(lives, fit)).reason();
    assertTrue(said.contains(why), said);
  }
}

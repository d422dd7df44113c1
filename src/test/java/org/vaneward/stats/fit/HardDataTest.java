package org.vaneward.stats.fit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.Observation.Interval;
import org.vaneward.stats.Observations;
import org.vaneward.stats.distribution.Weibull;
import org.vaneward.stats.fit.WeibullFit.Fitted;
import org.vaneward.stats.fit.WeibullFit.NotEstimable;
import org.vaneward.stats.fit.WeibullFit.Quantile;

/** Random hard data: whatever comes in, out comes a checked fit or a reason. Fixed seeds. */
class HardDataTest {
  @Test
  void anyLivesGiveAProvenFitOrAReason() {
    SplittableRandom random = new SplittableRandom(20260101);
    int fitted = 0;
    int refused = 0;
    for (int i = 0; i < 600; i++) {
      Observations lives = sample(random);
      WeibullFit fit = WeibullFitter.fit(lives, FitSettings.defaults());
      if (fit instanceof Fitted f) {
        checked(f, lives, "sample " + i);
        fitted++;
      } else if (fit instanceof NotEstimable none) {
        assertTrue(none.reason().length() > 5, none::reason);
        int sample = i;
        assertTrue(
            !none.reason().contains("could be proved"),
            () -> "sample " + sample + ": " + none.reason() + " " + lives.asList());
        refused++;
      }
    }
    assertEquals(600, fitted + refused);
    assertTrue(fitted > 400, "fitted " + fitted);
  }

  private static void checked(Fitted f, Observations lives, String what) {
    assertTrue(f.proof().gradientNorm() <= WeibullFitter.STEEPEST, what);
    assertTrue(f.proof().smallestCurvature() >= WeibullFitter.FLATTEST, what);
    ordered(f.shape(), what + " shape");
    ordered(f.scale(), what + " scale");
    for (Quantile q : f.quantiles()) {
      ordered(q.age(), what + " quantile");
    }
    // Nothing near by is better.
    WeibullLikelihood likelihood = WeibullLikelihood.of(lives);
    double u = Math.log(f.weibull().scale());
    double s = Math.log(f.weibull().shape());
    double slack = 1e-9 * (1 + Math.abs(f.logLikelihood()));
    for (double step : new double[] {-1, -0.01, 0.01, 1}) {
      assertTrue(likelihood.derivatives(u + step, s)[0] <= f.logLikelihood() + slack, what);
      assertTrue(likelihood.derivatives(u, s + step)[0] <= f.logLikelihood() + slack, what);
    }
  }

  private static void ordered(Estimate e, String what) {
    assertTrue(
        e.lower() >= 0 && e.lower() <= e.estimate() && e.estimate() <= e.upper(),
        () -> what + " " + e);
  }

  /** Few to many lives, any shape and unit, any mix of kinds, often one failure only. */
  private static Observations sample(SplittableRandom random) {
    double shape = Math.exp(random.nextDouble(Math.log(0.2), Math.log(50)));
    Weibull law = new Weibull(shape, Math.pow(10, random.nextDouble(-6, 6)));
    int n = 1 + (int) Math.pow(10, random.nextDouble(0, 2.5));
    double censored = random.nextDouble();
    double late = random.nextBoolean() ? 0 : random.nextDouble();
    double looked = random.nextBoolean() ? 0 : random.nextDouble();
    boolean coarse = random.nextBoolean();
    Observations.Builder lives = Observations.builder();
    for (int i = 0; i < n; i++) {
      double age = law.inverseSurvival(random.nextDouble(1e-12, 1));
      if (coarse) {
        age = law.scale() / 4 * Math.ceil(4 * age / law.scale());
      }
      double entry = random.nextDouble() < late ? age * random.nextDouble() : 0;
      if (random.nextDouble() < censored) {
        lives.addRightCensored(entry, entry + (age - entry) * random.nextDouble(1e-3, 1), 1);
      } else if (random.nextDouble() < looked) {
        double lower = entry + (age - entry) * random.nextDouble() * random.nextInt(2);
        lives.add(new Interval(entry, lower, age * (1 + random.nextDouble(0.001, 1)), 1));
      } else {
        lives.addFailure(entry, age, 1);
      }
    }
    return lives.build();
  }

  @ParameterizedTest
  @CsvSource({"0.2, 1e-6", "1, 1", "3, 1e6", "10, 1e3", "50, 1e3"})
  void oneFailureAmongThousands(double shape, double scale) {
    SplittableRandom random = new SplittableRandom(17);
    Observations.Builder lives = Observations.builder();
    for (int i = 0; i < 5000; i++) {
      lives.addRightCensored(0, scale * random.nextDouble(0.01, 1), 1);
    }
    Observations rows = lives.addFailure(0, 0.6 * scale, 1).build();
    Fitted fit = (Fitted) WeibullFitter.fit(rows, FitSettings.defaults());
    checked(fit, rows, "one among thousands");
    assertTrue(fit.scale().estimate() > scale);
    assertTrue(fit.shape().upper() / fit.shape().lower() > 5);
  }

  /** Large samples find the truth: within five standard errors, one in two million by chance. */
  @ParameterizedTest
  @ValueSource(doubles = {0.2, 1, 2.5, 12, 50})
  void largeSamplesFindTheTruth(double shape) {
    SplittableRandom random = new SplittableRandom(5);
    Weibull law = new Weibull(shape, 4321);
    Observations.Builder lives = Observations.builder();
    for (int i = 0; i < 20000; i++) {
      double age = law.inverseSurvival(random.nextDouble(1e-300, 1));
      double end = law.inverseSurvival(random.nextDouble(1e-300, 1));
      double entry = random.nextInt(3) == 0 ? law.inverseSurvival(random.nextDouble(0.3, 1)) : 0;
      if (Math.min(age, end) <= entry) {
        continue;
      }
      if (age <= end) {
        lives.addFailure(entry, age, 1);
      } else {
        lives.addRightCensored(entry, end, 1);
      }
    }
    Fitted fit = (Fitted) WeibullFitter.fit(lives.build(), FitSettings.defaults());
    assertEquals(
        Math.log(shape),
        Math.log(fit.weibull().shape()),
        5 * Math.sqrt(fit.covariance().shapeShape()));
    assertEquals(
        Math.log(law.scale()),
        Math.log(fit.weibull().scale()),
        5 * Math.sqrt(fit.covariance().scaleScale()));
  }
}

package org.vaneward.stats.fit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.SplittableRandom;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.Observation.Interval;
import org.vaneward.stats.Observations;
import org.vaneward.stats.distribution.Family;
import org.vaneward.stats.distribution.LifeDistribution;
import org.vaneward.stats.distribution.Lognormal;
import org.vaneward.stats.distribution.Weibull;
import org.vaneward.stats.fit.LifeFit.Fitted;
import org.vaneward.stats.fit.LifeFit.NotEstimable;
import org.vaneward.stats.fit.WeibullFit.LimitMethod;
import org.vaneward.stats.fit.WeibullFit.Quantile;
import org.vaneward.stats.numeric.Minimum;
import org.vaneward.stats.numeric.Quantiles;

/** Random hard data for all families: out comes a checked fit or a reason. Fixed seeds. */
class HardFamiliesTest {
  @Test
  @Tag("long")
  void anyLivesGiveAProvenFitOrAReason() {
    SplittableRandom random = new SplittableRandom(20260202);
    int fitted = 0;
    int limits = 0;
    for (int i = 0; i < 250; i++) {
      Observations lives = sample(random);
      LimitMethod method = i % 4 == 3 ? LimitMethod.WALD : LimitMethod.PROFILE;
      for (LifeFit fit : LifeFits.all(lives, FitSettings.defaults().withLimits(method))) {
        String what = "sample " + i + " " + fit.family();
        if (fit instanceof Fitted f) {
          checked(f, what);
          fitted++;
          if (i < 100 && f.family() == Family.LOGNORMAL) {
            nothingNearIsBetter(f, lives, what);
            if (method == LimitMethod.PROFILE && i < 40) {
              limitsDropByTheRightAmount(f, lives, what);
              limits++;
            }
          }
        } else {
          NotEstimable none = assertInstanceOf(NotEstimable.class, fit);
          assertTrue(none.reason().length() > 5, none::reason);
          assertTrue(
              !none.reason().contains("could be proved"),
              () -> what + ": " + none.reason() + " " + lives.asList());
        }
      }
    }
    assertTrue(fitted > 500, "fitted " + fitted);
    assertTrue(limits > 20, "limits " + limits);
  }

  private static void checked(Fitted f, String what) {
    assertTrue(f.proof().gradientNorm() <= WeibullFitter.STEEPEST, what);
    assertTrue(f.proof().smallestCurvature() >= WeibullFitter.FLATTEST, what);
    f.parameters().forEach((name, e) -> ordered(e, what + " " + name));
    for (Quantile q : f.quantiles()) {
      ordered(q.age(), what + " quantile");
      assertTrue(q.age().lower() >= 0, what);
    }
    ordered(f.mean(), what + " mean");
    assertTrue(f.mean().lower() >= 0, what);
  }

  private static void ordered(Estimate e, String what) {
    // A limit may be the estimate to the last digit where the data pin it down.
    double slack = 1e-12 * Math.abs(e.estimate());
    assertTrue(
        e.lower() <= e.estimate() + slack && e.estimate() <= e.upper() + slack,
        () -> what + " " + e);
  }

  private static double value(LognormalLikelihood likelihood, double location, double spread) {
    double shape = 1 / spread;
    return likelihood.slice(Math.log(shape)).value((location - likelihood.centre()) * shape);
  }

  private static void nothingNearIsBetter(Fitted f, Observations lives, String what) {
    LognormalLikelihood likelihood = LognormalLikelihood.of(lives);
    Lognormal law = (Lognormal) f.distribution();
    double slack = 1e-9 * (1 + Math.abs(f.logLikelihood()));
    for (double step : new double[] {-1, -0.01, 0.01, 1}) {
      double moved = value(likelihood, law.location() + step * law.spread(), law.spread());
      assertTrue(moved <= f.logLikelihood() + slack, what);
      double turned = value(likelihood, law.location(), law.spread() * Math.exp(step));
      assertTrue(turned <= f.logLikelihood() + slack, what);
    }
  }

  /** The best along the line on which a quantity is held at its limit. */
  static void limitsDropByTheRightAmount(Fitted f, Observations lives, String what) {
    LognormalLikelihood likelihood = LognormalLikelihood.of(lives);
    double target = f.logLikelihood() - WeibullFitter.drop(f.confidence());
    Estimate spread = f.parameter("spread");
    double from = Math.log(spread.lower()) - 0.5;
    double to = Math.log(Math.min(spread.upper(), spread.estimate() * 1e5)) + 0.5;
    for (Quantile q : f.quantiles()) {
      double z = Quantiles.normal(q.p());
      for (double limit : new double[] {q.age().lower(), q.age().upper()}) {
        if (limit > 1e-300 && limit < 1e300) {
          DoubleUnaryOperator fall =
              s -> -value(likelihood, Math.log(limit) - z * Math.exp(s), Math.exp(s));
          assertEquals(target, -Minimum.between(fall, from, to, 101).value(), 1e-8, what);
        }
      }
    }
    Estimate location = f.parameter("location");
    for (double limit : new double[] {location.lower(), location.upper()}) {
      if (Math.abs(limit) < 690) {
        DoubleUnaryOperator fall = s -> -value(likelihood, limit, Math.exp(s));
        assertEquals(
            target, -Minimum.between(fall, from, to, 101).value(), 1e-8, what + " location");
      }
    }
    for (double limit : new double[] {spread.lower(), spread.upper()}) {
      if (limit > 0 && limit < spread.estimate() * 1e5) {
        assertEquals(target, likelihood.at(-Math.log(limit)).value(), 1e-8, what + " spread");
      }
    }
    for (double limit : new double[] {f.mean().lower(), f.mean().upper()}) {
      if (limit > 1e-300 && limit < 1e300) {
        DoubleUnaryOperator fall =
            s -> -value(likelihood, Math.log(limit) - Math.exp(2 * s) / 2, Math.exp(s));
        assertEquals(target, -Minimum.between(fall, from, to, 201).value(), 1e-8, what + " mean");
      }
    }
  }

  /** Few to many lives, either law, any shape and unit, any mix of kinds. */
  private static Observations sample(SplittableRandom random) {
    double shape = Math.exp(random.nextDouble(Math.log(0.2), Math.log(50)));
    double scale = Math.pow(10, random.nextDouble(-6, 6));
    LifeDistribution law =
        random.nextBoolean()
            ? new Weibull(shape, scale)
            : new Lognormal(Math.log(scale), 1.2 / shape);
    int n = 1 + (int) Math.pow(10, random.nextDouble(0, 2.2));
    double censored = random.nextDouble();
    double late = random.nextBoolean() ? 0 : random.nextDouble();
    double looked = random.nextBoolean() ? 0 : random.nextDouble();
    boolean coarse = random.nextBoolean();
    Observations.Builder lives = Observations.builder();
    for (int i = 0; i < n; i++) {
      double age = law.inverseSurvival(random.nextDouble(1e-12, 1));
      if (coarse) {
        age = scale / 4 * Math.ceil(4 * age / scale);
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
  @CsvSource({"1e-6", "1", "1e6"})
  void oneFailureAmongThousands(double scale) {
    SplittableRandom random = new SplittableRandom(17);
    Observations.Builder lives = Observations.builder();
    for (int i = 0; i < 3000; i++) {
      lives.addRightCensored(0, scale * random.nextDouble(0.01, 1), 1);
    }
    Observations rows = lives.addFailure(0, 0.6 * scale, 1).build();
    for (LifeFit fit : LifeFits.all(rows, FitSettings.defaults())) {
      Fitted f = assertInstanceOf(Fitted.class, fit);
      checked(f, "one among thousands " + f.family());
      assertTrue(f.quantiles().get(3).age().estimate() > scale);
      assertTrue(f.mean().upper() / f.mean().lower() > 5, () -> f.family() + " " + f.mean());
    }
  }

  @ParameterizedTest
  @EnumSource(Family.class)
  void agesOverTwelveOrdersOfMagnitude(Family family) {
    Observations.Builder lives = Observations.builder();
    for (int i = -6; i <= 6; i++) {
      lives.addFailure(0, Math.pow(10, i), 1).addRightCensored(0, 3 * Math.pow(10, i), 2);
    }
    Fitted fit =
        assertInstanceOf(Fitted.class, LifeFits.fit(family, lives.build(), FitSettings.defaults()));
    checked(fit, family.word());
  }

  @Test
  void allAtOneAge() {
    for (double age : new double[] {1e-6, 1, 12345, 1e6}) {
      Observations same = Observations.builder().addFailure(0, age, 7).build();
      for (LifeFit fit : LifeFits.all(same, FitSettings.defaults())) {
        if (fit.family() == Family.EXPONENTIAL) {
          Fitted f = assertInstanceOf(Fitted.class, fit);
          assertEquals(age, f.mean().estimate(), 1e-12 * age);
        } else {
          assertTrue(assertInstanceOf(NotEstimable.class, fit).reason().contains("one age"));
        }
      }
    }
  }

  /** Large samples find the truth: within five standard errors, one in two million by chance. */
  @ParameterizedTest
  @ValueSource(doubles = {0.02, 0.4, 1, 6})
  void largeSamplesFindTheTruth(double spread) {
    SplittableRandom random = new SplittableRandom(5);
    Lognormal law = new Lognormal(8, spread);
    Observations.Builder lives = Observations.builder();
    for (int i = 0; i < 5000; i++) {
      double age = law.inverseSurvival(random.nextDouble(1e-300, 1));
      double end = law.inverseSurvival(random.nextDouble(1e-300, 1));
      double entry = random.nextInt(3) == 0 ? law.inverseSurvival(random.nextDouble(0.3, 1)) : 0;
      if (Math.min(age, end) <= entry) {
        continue;
      }
      if (age > end) {
        lives.addRightCensored(entry, end, 1);
      } else if (random.nextInt(4) == 0 && age * 0.9 > entry) {
        lives.add(new Interval(entry, age * 0.9, age * 1.1, 1));
      } else {
        lives.addFailure(entry, age, 1);
      }
    }
    FitSettings settings = FitSettings.defaults().withLimits(LimitMethod.WALD);
    Fitted fit =
        assertInstanceOf(Fitted.class, LifeFits.fit(Family.LOGNORMAL, lives.build(), settings));
    double[][] c = fit.covariance();
    Lognormal found = (Lognormal) fit.distribution();
    assertEquals(8, found.location(), 5 * Math.sqrt(c[0][0]));
    assertEquals(Math.log(spread), Math.log(found.spread()), 5 * Math.sqrt(c[1][1]));
  }
}

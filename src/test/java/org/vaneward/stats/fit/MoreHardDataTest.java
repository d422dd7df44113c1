package org.vaneward.stats.fit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.vaneward.stats.Observation.Interval;
import org.vaneward.stats.Observations;
import org.vaneward.stats.distribution.Weibull;
import org.vaneward.stats.fit.WeibullFit.Fitted;
import org.vaneward.stats.fit.WeibullFit.NotEstimable;

/** Extremes: a proved fit or a short reason. Fixed seeds. */
class MoreHardDataTest {
  private static WeibullFit fit(Observations lives) {
    return WeibullFitter.fit(lives, FitSettings.defaults());
  }

  private static void proved(Fitted fit) {
    assertTrue(fit.proof().gradientNorm() <= WeibullFitter.STEEPEST);
    assertTrue(fit.proof().smallestCurvature() >= WeibullFitter.FLATTEST);
    assertTrue(fit.shape().lower() <= fit.shape().estimate());
    assertTrue(fit.shape().estimate() <= fit.shape().upper());
  }

  /**
   * The plotting positions of a Weibull, so that the shape is found nearly as it went in: the
   * estimate differs by the grid only, whatever the shape.
   */
  @ParameterizedTest
  @ValueSource(doubles = {0.2, 0.5, 1, 2.5, 7, 20, 50})
  void shapesFromATwoHundredthToFiftyAreFoundAlike(double shape) {
    Observations.Builder lives = Observations.builder();
    Observations.Builder ones = Observations.builder();
    for (int i = 0; i < 200; i++) {
      lives.addFailure(0, new Weibull(shape, 3000).quantile((i + 0.5) / 200), 1);
      ones.addFailure(0, new Weibull(1, 3000).quantile((i + 0.5) / 200), 1);
    }
    Fitted fit = assertInstanceOf(Fitted.class, fit(lives.build()));
    Fitted one = assertInstanceOf(Fitted.class, fit(ones.build()));
    proved(fit);
    assertEquals(one.weibull().shape() * shape, fit.weibull().shape(), 1e-9 * shape);
    assertEquals(one.shape().lower() * shape, fit.shape().lower(), 1e-8 * shape);
    assertEquals(one.shape().upper() * shape, fit.shape().upper(), 1e-8 * shape);
    assertEquals(shape, fit.weibull().shape(), 0.03 * shape);
  }

  @Test
  void agesOverTwelveOrdersOfMagnitude() {
    Observations.Builder lives = Observations.builder();
    for (int i = 0; i <= 120; i++) {
      double age = Math.pow(10, -6 + 0.1 * i);
      lives.addFailure(0, age, 1).addRightCensored(0, 3 * age, 2);
      lives.add(new Interval(age / 4, age / 2, age, 1));
    }
    Fitted fit = assertInstanceOf(Fitted.class, fit(lives.build()));
    proved(fit);
    assertTrue(fit.weibull().shape() > 0.02 && fit.weibull().shape() < 0.5);
  }

  @ParameterizedTest
  @ValueSource(ints = {1, 10, 100_000})
  void withoutFailuresThereIsALowerLimitOnly(int survivors) {
    Observations.Builder lives = Observations.builder();
    for (int i = 0; i < survivors; i++) {
      lives.addRightCensored(0, 100 + i % 7, 1);
    }
    Observations rows = lives.build();
    NotEstimable none = assertInstanceOf(NotEstimable.class, fit(rows));
    assertEquals("no failures", none.reason());
    double limit = WeibullFitter.scaleLowerLimit(rows, 2, 0.95);
    assertTrue(limit > 100 * Math.sqrt(survivors / 3.0) * 0.99);
    assertTrue(limit < 107 * Math.sqrt(survivors / 2.99) * 1.01);
  }

  @Test
  void oneFailureIsFittedOnlyIfSomethingRanLonger() {
    Observations.Builder shorter = Observations.builder().addFailure(0, 1000, 1);
    Observations.Builder longer = Observations.builder().addFailure(0, 1000, 1);
    for (int i = 1; i <= 3000; i++) {
      shorter.addRightCensored(0, 999.0 * i / 3000, 1);
      longer.addRightCensored(0, 2000.0 * i / 3000, 1);
    }
    assertEquals(
        "one failure, at the greatest age",
        assertInstanceOf(NotEstimable.class, fit(shorter.build())).reason());
    Fitted fit = assertInstanceOf(Fitted.class, fit(longer.build()));
    proved(fit);
    assertTrue(fit.scale().estimate() > 2000);
  }

  /** With survivors beyond the one age there is a finite maximum, known in closed form. */
  @Test
  void allFailuresAtOneAge() {
    Observations alone = Observations.builder().addFailure(0, 500, 40).build();
    assertTrue(
        assertInstanceOf(NotEstimable.class, fit(alone)).reason().contains("all failures at one"));
    Observations more =
        Observations.builder().addFailure(0, 500, 40).addRightCensored(0, 1000, 5).build();
    Fitted fit = assertInstanceOf(Fitted.class, fit(more));
    proved(fit);
    // with m0 = 40 + 5 * 2^b the slope in b is 40 / b - 40 * (5 * 2^b log 2) / m0
    double b = fit.weibull().shape();
    double power = 5 * Math.pow(2, b);
    assertEquals(1 / b, power * Math.log(2) / (40 + power), 1e-10);
    assertEquals(Math.pow((40 + power) / 40, 1 / b) * 500, fit.weibull().scale(), 1e-6);
  }

  @Test
  void allSurvivorsButOneAmongLateEntries() {
    SplittableRandom random = new SplittableRandom(7);
    Observations.Builder lives = Observations.builder().addFailure(900, 1000, 1);
    for (int i = 0; i < 4000; i++) {
      double entry = random.nextDouble(0, 1500);
      lives.addRightCensored(entry, entry + random.nextDouble(1, 1000), 1);
    }
    WeibullFit fit = fit(lives.build());
    if (fit instanceof Fitted f) {
      proved(f);
      assertTrue(f.scale().estimate() > 1000);
    } else {
      assertTrue(((NotEstimable) fit).reason().length() > 10);
    }
  }

  @Test
  void agesAtTheEdgesOfWhatANumberHolds() {
    for (double unit : new double[] {1e-300, 1e-150, 1e150, 1e300}) {
      Observations lives =
          Observations.builder()
              .addFailure(0, 1 * unit, 1)
              .addFailure(0, 2 * unit, 1)
              .addFailure(0.5 * unit, 3 * unit, 1)
              .addRightCensored(0, 4 * unit, 2)
              .build();
      Fitted fit = assertInstanceOf(Fitted.class, fit(lives));
      proved(fit);
      assertEquals(4.0, fit.weibull().scale() / unit, 1.5);
    }
  }
}

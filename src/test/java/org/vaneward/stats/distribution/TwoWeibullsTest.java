package org.vaneward.stats.distribution;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.vaneward.stats.Observation;

/** The mixture as a distribution. */
class TwoWeibullsTest {
  private static final TwoWeibulls LAW =
      new TwoWeibulls(0.3, new Weibull(0.9, 800), new Weibull(4, 5000));

  @ParameterizedTest
  @ValueSource(doubles = {1e-12, 1e-3, 0.1, 0.3, 0.5, 0.9, 0.999})
  void quantilesInvert(double p) {
    assertEquals(p, LAW.failed(LAW.quantile(p)), 1e-11 * p);
    assertEquals(p, LAW.survival(LAW.inverseSurvival(p)), 1e-11 * p);
  }

  @Test
  void farApartComponentsHaveAPlateau() {
    TwoWeibulls law = new TwoWeibulls(0.5, new Weibull(8, 1), new Weibull(8, 1e9));
    assertEquals(0.5, law.survival(1e4), 1e-12);
    assertEquals(0.25, law.failed(law.quantile(0.25)), 1e-12);
    assertEquals(0.75, law.failed(law.quantile(0.75)), 1e-12);
  }

  @Test
  void alikeComponentsAreOneWeibull() {
    Weibull one = new Weibull(2.5, 700);
    TwoWeibulls law = new TwoWeibulls(0.4, one, one);
    assertEquals(one.quantile(0.2), law.quantile(0.2), 1e-9);
    assertEquals(one.hazard(300), law.hazard(300), 1e-15);
    assertEquals(one.logDensity(300), law.logDensity(300), 1e-13);
    assertEquals(one.mean(), law.mean(), 1e-9);
    assertEquals(0.4, law.firstGiven(Observation.failedAt(300)), 1e-14);
  }

  @ParameterizedTest
  @ValueSource(doubles = {0.5, 100, 900, 3000, 6000, 12000})
  void hazardIsTheSlopeOfLogSurvival(double age) {
    double h = age * 1e-5;
    double slope = (LAW.logSurvival(age - h) - LAW.logSurvival(age + h)) / (2 * h);
    assertEquals(slope, LAW.hazard(age), 1e-6 * slope);
    assertEquals(Math.log(LAW.hazard(age)), LAW.logDensity(age) - LAW.logSurvival(age), 1e-9);
    assertEquals(1, LAW.failed(age) + LAW.survival(age), 1e-14);
  }

  /** High at first, low between the kinds, high again. */
  @Test
  void hazardMayFallAndRise() {
    assertTrue(LAW.hazard(10) > LAW.hazard(1500));
    assertTrue(LAW.hazard(1500) < LAW.hazard(5000));
  }

  @Test
  void whenAllAreGoneTheLongerLivedRemain() {
    TwoWeibulls law = new TwoWeibulls(0.999, new Weibull(3, 1), new Weibull(2, 50));
    assertEquals(0, law.firstAmongSurvivors(1e5), 1e-300);
    assertEquals(law.second().hazard(1e5), law.hazard(1e5), 1e-9);
    assertEquals(0, law.survival(1e300));
    // Beyond what a cumulative hazard can hold, too, and whichever of the two is named first.
    assertEquals(0, law.firstAmongSurvivors(1e300));
    assertEquals(1, new TwoWeibulls(0.001, law.second(), law.first()).firstAmongSurvivors(1e300));
    assertTrue(law.hazard(1e200) > 0);
  }

  @Test
  void chancesOfTheFirstKind() {
    double early = LAW.firstGiven(Observation.failedAt(50));
    double late = LAW.firstGiven(Observation.failedAt(5000));
    assertTrue(early > 0.99 && late < 0.05);
    double narrow = LAW.firstGiven(Observation.failedBetween(1999.999, 2000.001));
    assertEquals(LAW.firstGiven(Observation.failedAt(2000)), narrow, 1e-6);
    assertEquals(
        LAW.firstAmongSurvivors(2000), LAW.firstGiven(Observation.rightCensoredAt(2000)), 0);
    assertEquals(0.3, LAW.firstAmongSurvivors(0), 1e-15);
  }

  @Test
  void sharesAreChecked() {
    Weibull w = new Weibull(1, 1);
    assertThrows(IllegalArgumentException.class, () -> new TwoWeibulls(0, w, w));
    assertThrows(IllegalArgumentException.class, () -> new TwoWeibulls(1, w, w));
    assertThrows(IllegalArgumentException.class, () -> new TwoWeibulls(Double.NaN, w, w));
    assertThrows(IllegalArgumentException.class, () -> LAW.quantile(1));
  }
}

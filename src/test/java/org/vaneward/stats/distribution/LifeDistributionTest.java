package org.vaneward.stats.distribution;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.vaneward.stats.numeric.Integral;
import org.vaneward.stats.numeric.Quantiles;

/** What holds for every life distribution. */
class LifeDistributionTest {
  static LifeDistribution[] laws() {
    return new LifeDistribution[] {
      new Weibull(0.7, 900),
      new Weibull(3, 5000),
      new Exponential(1200),
      new Lognormal(7, 0.4),
      new Lognormal(6, 1.3)
    };
  }

  @ParameterizedTest
  @MethodSource("laws")
  void shareAndItsComplement(LifeDistribution law) {
    for (double p : new double[] {1e-9, 0.01, 0.3, 0.9}) {
      assertEquals(p, law.failed(law.quantile(p)), 1e-12 * p + 1e-15);
      assertEquals(p, law.survival(law.inverseSurvival(p)), 1e-11 * p);
      double age = law.quantile(p);
      assertEquals(1, law.failed(age) + law.survival(age), 1e-15);
      assertEquals(Math.log1p(-law.failed(age)), law.logSurvival(age), 1e-12);
      assertEquals(
          law.hazard(age),
          Math.exp(law.logDensity(age) - law.logSurvival(age)),
          1e-12 * law.hazard(age));
    }
  }

  @ParameterizedTest
  @MethodSource("laws")
  void densityIntegratesToTheShareFailed(LifeDistribution law) {
    double low = law.quantile(0.1);
    double high = law.quantile(0.8);
    Integral area = Integral.of(t -> Math.exp(law.logDensity(t)), low, high);
    assertTrue(area.converged());
    assertEquals(0.7, area.value(), 1e-10);
  }

  @ParameterizedTest
  @MethodSource("laws")
  void meanIsTheAreaUnderSurvival(LifeDistribution law) {
    double end = law.inverseSurvival(1e-16);
    double[] cuts = {
      law.quantile(0.01), law.quantile(0.5), law.quantile(0.99), law.inverseSurvival(1e-6)
    };
    double sum = 0;
    double from = 0;
    for (double to : cuts) {
      sum += Integral.of(law::survival, from, to).value();
      from = to;
    }
    sum += Integral.of(law::survival, from, end).value();
    assertEquals(law.mean(), sum, 1e-9 * law.mean());
  }

  /** Every part is good when it is new, and none has an age below 0. */
  @ParameterizedTest
  @MethodSource("laws")
  void nothingHasFailedAtAgeZeroOrBefore(LifeDistribution law) {
    for (double age : new double[] {0, -1, -1e6}) {
      assertEquals(1, law.survival(age));
      assertEquals(0, law.failed(age), 0);
      assertEquals(0, law.logSurvival(age), 0);
      assertEquals(0, law.cumulativeHazard(age), 0);
    }
    assertEquals(Double.NEGATIVE_INFINITY, law.logDensity(-1));
  }

  @ParameterizedTest
  @MethodSource("laws")
  void cumulativeHazardIsTheLogOfWhatIsAlive(LifeDistribution law) {
    for (double p : new double[] {0.01, 0.5, 0.99}) {
      double age = law.quantile(p);
      assertEquals(-Math.log1p(-p), law.cumulativeHazard(age), 1e-12);
    }
  }

  @Test
  void aRateAtAgeZeroIsTheLimitFromAbove() {
    assertEquals(1.0 / 1200, new Exponential(1200).hazard(0));
    assertEquals(-Math.log(1200), new Exponential(1200).logDensity(0), 1e-15);
    assertEquals(0, new Lognormal(7, 0.4).hazard(0));
    assertEquals(Double.NEGATIVE_INFINITY, new Lognormal(7, 0.4).logDensity(0));
    assertEquals(0, new Exponential(1200).hazard(-1));
    assertEquals(0, new Lognormal(7, 0.4).hazard(-1));
  }

  @ParameterizedTest
  @MethodSource("laws")
  void aShareThatIsNoneIsRefused(LifeDistribution law) {
    for (double p : new double[] {0, 1, -0.1, 1.1, Double.NaN}) {
      assertThrows(IllegalArgumentException.class, () -> law.quantile(p), law + " at " + p);
      assertThrows(IllegalArgumentException.class, () -> law.inverseSurvival(p), law + " at " + p);
    }
  }

  @Test
  void parametersOnTheEdgeOfTheirRangeAreRefused() {
    double ever = Double.POSITIVE_INFINITY;
    assertThrows(IllegalArgumentException.class, () -> new Exponential(0));
    assertThrows(IllegalArgumentException.class, () -> new Exponential(ever));
    assertThrows(IllegalArgumentException.class, () -> new Lognormal(ever, 1));
    assertThrows(IllegalArgumentException.class, () -> new Lognormal(-ever, 1));
    assertThrows(IllegalArgumentException.class, () -> new Lognormal(7, 0));
    assertThrows(IllegalArgumentException.class, () -> new Lognormal(7, ever));
    assertThrows(IllegalArgumentException.class, () -> new Weibull(ever, 1));
    assertThrows(IllegalArgumentException.class, () -> new Weibull(1, 0));
  }

  /** Printed values of log Q(x): Abramowitz and Stegun table 26.2, -log10 Q(x), from memory. */
  @Test
  void farTailsOfTheNormal() {
    assertEquals(-23.11805 * Math.log(10), Quantiles.logNormalShare(-10), 5e-5);
    assertEquals(-88.56010 * Math.log(10), Quantiles.logNormalShare(-20), 5e-5);
    double near = Quantiles.logNormalShare(Math.nextUp(-10.0));
    assertEquals(near, Quantiles.logNormalShare(Math.nextDown(-10.0)), 1e-12 * -near);
    assertEquals(Math.log1p(-Quantiles.normalShare(-3)), Quantiles.logNormalShare(3), 1e-16);
  }
}

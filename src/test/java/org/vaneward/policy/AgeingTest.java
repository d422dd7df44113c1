package org.vaneward.policy;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.vaneward.stats.distribution.Exponential;
import org.vaneward.stats.distribution.LifeDistribution;
import org.vaneward.stats.distribution.Lognormal;
import org.vaneward.stats.distribution.TwoWeibulls;
import org.vaneward.stats.distribution.Weibull;

class AgeingTest {
  private static final Weibull WEARS = new Weibull(2.5, 8000);
  private static final Weibull EARLY = new Weibull(0.7, 3000);

  static Stream<LifeDistribution> laws() {
    return Stream.of(
        WEARS,
        EARLY,
        new Exponential(5000),
        new Lognormal(8.5, 0.4),
        new Lognormal(8.5, 9),
        new TwoWeibulls(0.3, EARLY, WEARS),
        new TwoWeibulls(0.3, WEARS, EARLY));
  }

  @Test
  void saysWhichFailMoreAsTheyAge() {
    assertTrue(Ageing.rises(WEARS));
    assertTrue(!Ageing.rises(EARLY));
    assertTrue(!Ageing.rises(new Weibull(1, 3000)));
    assertTrue(!Ageing.rises(new Exponential(5000)));
    assertTrue(Ageing.rises(new Lognormal(8.5, 0.4)));
    assertTrue(Ageing.rises(new TwoWeibulls(0.3, EARLY, WEARS)));
    assertTrue(Ageing.rises(new TwoWeibulls(0.3, WEARS, EARLY)));
    assertTrue(!Ageing.rises(new TwoWeibulls(0.3, EARLY, new Weibull(1, 900))));
  }

  /** The slope of log cumulative hazard against log age, by differences. */
  @ParameterizedTest
  @MethodSource("laws")
  void noSlopeIsSteeper(LifeDistribution life) {
    double bound = Ageing.steepest(life);
    double step = 1e-4;
    double steepest = 0;
    for (double log = 0; log < 12; log += 0.01) {
      double at = life.cumulativeHazard(Math.exp(log));
      double beyond = life.cumulativeHazard(Math.exp(log + step));
      if (at > 1e-10 && beyond < 30) {
        steepest = Math.max(steepest, (Math.log(beyond) - Math.log(at)) / step);
      }
    }
    assertTrue(steepest <= bound * (1 + 1e-3) + 1e-2, steepest + " above " + bound);
    assertTrue(bound == 1 || steepest > 0.2 * bound, steepest + " far below " + bound);
  }

  @ParameterizedTest
  @MethodSource("laws")
  void renewalsLieBetweenTheirBounds(LifeDistribution life) {
    // F <= M <= F / S: the first failure is a renewal, and each renewal is no likelier to be
    // followed by another than a new part is to fail in the whole time.
    Renewals renewals = new Renewals();
    for (double age : new double[] {300, 1000, 2500}) {
      double failed = life.failed(age);
      double expected = renewals.of(life).at(age);
      assertTrue(expected >= failed * (1 - 1e-6), life + " at " + age);
      assertTrue(expected <= failed / life.survival(age) * (1 + 1e-6), life + " at " + age);
    }
  }

  /** A part that does not age is renewed at a constant rate, whatever came before. */
  @Test
  void renewalsOfAnExponentialComeAtItsRate() {
    assertEquals(0.5, new Renewals().of(new Exponential(5000)).at(2500), 1e-9);
  }
}

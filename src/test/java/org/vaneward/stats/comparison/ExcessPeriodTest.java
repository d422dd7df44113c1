package org.vaneward.stats.comparison;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.simple.RandomSource;
import org.apache.commons.statistics.distribution.PoissonDistribution;
import org.junit.jupiter.api.Test;

class ExcessPeriodTest {
  @Test
  void findsABadStretch() {
    double[] expected = new double[60];
    double[] observed = new double[60];
    Arrays.fill(expected, 2);
    Arrays.fill(observed, 2);
    for (int i = 20; i < 30; i++) {
      observed[i] = 6;
    }
    ExcessPeriod found = ExcessPeriod.search(observed, expected, 1, ExcessPeriod.DRAWS, 1);
    assertEquals(20, found.first());
    assertEquals(29, found.last());
    assertEquals(60, found.observed());
    // scaled so that all that is expected is what there was: 160 of 120
    assertEquals(20 * 160 / 120.0, found.expected(), 1e-12);
    assertEquals(1e-4, found.p(), 1e-12);
  }

  @Test
  void aChangeForTheWorseRunsToTheEnd() {
    double[] expected = new double[40];
    double[] observed = new double[40];
    Arrays.fill(expected, 3);
    Arrays.fill(observed, 2);
    Arrays.fill(observed, 28, 40, 6);
    ExcessPeriod found = ExcessPeriod.search(observed, expected, 1, ExcessPeriod.DRAWS, 1);
    assertEquals(28, found.first());
    assertEquals(39, found.last());
  }

  @Test
  void whereThereIsNothingItSaysSoAsOftenAsItShould() {
    UniformRandomProvider random = RandomSource.L64_X128_MIX.create(5);
    int fleets = 300;
    int low = 0;
    for (int fleet = 0; fleet < fleets; fleet++) {
      double[] expected = new double[50];
      double[] observed = new double[50];
      for (int i = 0; i < 50; i++) {
        expected[i] = 0.2 + random.nextDouble();
        observed[i] = PoissonDistribution.of(expected[i]).createSampler(random).sample();
      }
      low += ExcessPeriod.search(observed, expected, 1, 999, fleet).p() <= 0.10 ? 1 : 0;
    }
    // 30 are to be expected; 15 is three standard deviations.
    assertEquals(30, low, 15.6);
  }

  @Test
  void clusteredFailuresCountForLess() {
    double[] expected = {2, 2, 2, 2, 2, 2};
    double[] observed = {1, 2, 6, 4, 1, 1};
    double plain = ExcessPeriod.search(observed, expected, 1, ExcessPeriod.DRAWS, 3).p();
    double wide = ExcessPeriod.search(observed, expected, 2, ExcessPeriod.DRAWS, 3).p();
    assertTrue(plain < wide, plain + " " + wide);
  }

  @Test
  void refusesNothing() {
    assertThrows(
        IllegalArgumentException.class,
        () -> ExcessPeriod.search(new double[3], new double[] {1, 1, 1}, 1, 99, 1));
  }
}

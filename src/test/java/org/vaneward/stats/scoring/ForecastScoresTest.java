package org.vaneward.stats.scoring;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.vaneward.stats.renewal.CountDistribution;

class ForecastScoresTest {
  /** So well known a rate that the count is Poisson to ten digits. */
  private static CountDistribution poisson(double mean) {
    return CountDistribution.gammaPoisson(mean * 1e12, 1e12, 1);
  }

  /** E|X - y| - E|X - X'| / 2 for a Poisson count of mean 8.3, summed with R 4.2.2 (dpois). */
  @ParameterizedTest
  @CsvSource({
    "0, 6.6869689742922533",
    "5, 1.9503340211793383",
    "8, 0.6609742951842128",
    "20, 10.087450190545356"
  })
  void rankedProbabilityScoreOfAPoissonCount(int came, double score) {
    assertEquals(score, ForecastScores.crps(poisson(8.3), came), 1e-6);
  }

  @Test
  void aForecastThatIsSureScoresHowFarOffItIs() {
    CountDistribution sure = CountDistribution.ofDraws(new int[] {7});
    assertEquals(0, ForecastScores.crps(sure, 7), 1e-15);
    assertEquals(4, ForecastScores.crps(sure, 11), 1e-15);
    assertEquals(7, ForecastScores.crps(sure, 0), 1e-15);
  }

  @Test
  void theTrueChanceScoresBestOnAverage() {
    for (double other : new double[] {0.05, 0.2, 0.4, 0.9}) {
      assertTrue(brier(0.3, 0.3) < brier(0.3, other));
      assertTrue(log(0.3, 0.3) < log(0.3, other));
    }
    CountDistribution right = poisson(4);
    double best = 0;
    double sharper = 0;
    for (int k = 0; k < 40; k++) {
      best += right.chance(k) * ForecastScores.crps(right, k);
      sharper += right.chance(k) * ForecastScores.crps(CountDistribution.ofDraws(new int[] {4}), k);
    }
    assertTrue(best < sharper, best + " " + sharper);
  }

  private static double brier(double truth, double said) {
    return truth * ForecastScores.brier(said, true)
        + (1 - truth) * ForecastScores.brier(said, false);
  }

  private static double log(double truth, double said) {
    return truth * ForecastScores.log(said, true) + (1 - truth) * ForecastScores.log(said, false);
  }

  @Test
  void whatWasRuledOutAndCameScoresInfinity() {
    assertEquals(Double.POSITIVE_INFINITY, ForecastScores.log(0, true));
    assertEquals(0, ForecastScores.log(0, false));
    assertEquals(0, ForecastScores.log(1, true), 0);
    assertEquals(Double.POSITIVE_INFINITY, ForecastScores.log(1, false));
    assertThrows(IllegalArgumentException.class, () -> ForecastScores.brier(1.1, true));
    assertThrows(IllegalArgumentException.class, () -> ForecastScores.log(-0.1, false));
    assertThrows(IllegalArgumentException.class, () -> ForecastScores.log(Double.NaN, true));
    assertThrows(IllegalArgumentException.class, () -> ForecastScores.crps(poisson(1), -1));
  }
}

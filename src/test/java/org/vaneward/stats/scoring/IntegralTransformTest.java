package org.vaneward.stats.scoring;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.vaneward.stats.renewal.CountDistribution;

class IntegralTransformTest {
  private static final int BINS = 10;
  private static final int MANY = 20_000;

  /** Counts drawn from one distribution, seen from the forecast of another. */
  private static double[] histogram(CountDistribution truth, CountDistribution forecast) {
    SplittableRandom random = new SplittableRandom(5);
    List<IntegralTransform> all = new ArrayList<>();
    for (int i = 0; i < MANY; i++) {
      all.add(IntegralTransform.of(forecast, truth.quantile(random.nextDouble(1e-9, 1))));
    }
    return IntegralTransform.histogram(all, BINS);
  }

  @Test
  void isEvenForARightForecastAndNotForAWrongOne() {
    CountDistribution right = CountDistribution.gammaPoisson(30, 10, 1);
    double each = MANY / (double) BINS;
    for (double count : histogram(right, right)) {
      assertEquals(each, count, 4 * Math.sqrt(each));
    }
    double[] tooNarrow = histogram(CountDistribution.gammaPoisson(0.9, 0.3, 1), right);
    assertTrue(tooNarrow[0] > 1.5 * each && tooNarrow[BINS - 1] > 1.5 * each);
    double[] tooLow = histogram(CountDistribution.gammaPoisson(60, 10, 1), right);
    assertTrue(tooLow[BINS - 1] > 2 * each && tooLow[0] < each / 2);
  }

  @Test
  void isSpreadOverTheStretchOfWhatCame() {
    CountDistribution half = CountDistribution.ofDraws(new int[] {0, 0, 1, 3});
    IntegralTransform one = IntegralTransform.of(half, 1);
    assertEquals(0.5, one.from(), 1e-15);
    assertEquals(0.75, one.to(), 1e-15);
    assertEquals(0.625, one.middle(), 1e-15);
    assertArrayEquals(
        new double[] {0, 0, 1, 0}, IntegralTransform.histogram(List.of(one), 4), 1e-12);
    IntegralTransform beyond = IntegralTransform.of(half, 9);
    assertArrayEquals(new double[] {0, 1}, IntegralTransform.histogram(List.of(beyond), 2), 0);
    assertThrows(IllegalArgumentException.class, () -> new IntegralTransform(0.6, 0.5));
  }

  /** What came without a chance stands at one point, which may be the edge between two bins. */
  @Test
  void aPointIsInOneBinAlone() {
    for (double place : new double[] {0, 0.25, 0.3, 0.5, 1}) {
      double[] bins = IntegralTransform.histogram(List.of(new IntegralTransform(place, place)), 4);
      assertEquals(1, bins[(int) Math.min(3, 4 * place)], "at " + place);
      assertEquals(1, Arrays.stream(bins).sum(), "at " + place);
    }
  }
}

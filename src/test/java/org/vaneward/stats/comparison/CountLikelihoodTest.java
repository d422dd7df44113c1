package org.vaneward.stats.comparison;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.apache.commons.math3.distribution.PascalDistribution;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class CountLikelihoodTest {
  private static final double[] COUNTS = {0, 3, 1, 7, 2, 0};
  private static final double[] EXPOSURES = {10, 20, 5, 30, 0.5, 0};

  private static CountLikelihood likelihood() {
    return CountLikelihood.of(COUNTS, EXPOSURES);
  }

  /** With a whole shape each count is a Pascal (Commons Math 3.6.1). */
  @ParameterizedTest
  @ValueSource(ints = {1, 3, 40})
  void isThatOfNegativeBinomialCounts(int shape) {
    double m = 0.17;
    double expected = 0;
    for (int i = 0; i < COUNTS.length; i++) {
      if (EXPOSURES[i] > 0) {
        double success = shape / (shape + m * EXPOSURES[i]);
        expected += new PascalDistribution(shape, success).logProbability((int) COUNTS[i]);
      }
    }
    assertEquals(expected, likelihood().value(-Math.log(shape), Math.log(m)), 1e-11);
  }

  /** Also with a spread next to nothing, where differences are summed as series. */
  @ParameterizedTest
  @CsvSource({"0, -1.5", "-3, -2", "-6, -1.7", "-8, -3", "2, 0"})
  void derivativesAreThoseOfTheValue(double logSpread, double logMean) {
    CountLikelihood likelihood = likelihood();
    double h = 1e-5;
    double[] d = likelihood.derivatives(logSpread, logMean);
    double[] up = likelihood.derivatives(logSpread + h, logMean);
    double[] down = likelihood.derivatives(logSpread - h, logMean);
    double[] more = likelihood.derivatives(logSpread, logMean + h);
    double[] less = likelihood.derivatives(logSpread, logMean - h);
    double slack = 1e-6;
    close(
        (likelihood.value(logSpread + h, logMean) - likelihood.value(logSpread - h, logMean))
            / (2 * h),
        d[0],
        slack);
    close(
        (likelihood.value(logSpread, logMean + h) - likelihood.value(logSpread, logMean - h))
            / (2 * h),
        d[1],
        slack);
    close((up[0] - down[0]) / (2 * h), d[2], slack);
    close((up[1] - down[1]) / (2 * h), d[3], slack);
    close((more[1] - less[1]) / (2 * h), d[4], slack);
  }

  private static void close(double expected, double got, double slack) {
    assertEquals(expected, got, slack * (1 + Math.abs(expected)));
  }

  @ParameterizedTest
  @ValueSource(doubles = {-9, -3, 0, 1.5, 6})
  void theBestMeanHasNoSlope(double logSpread) {
    CountLikelihood likelihood = likelihood();
    double best = likelihood.bestLogMean(logSpread);
    assertEquals(0, likelihood.derivatives(logSpread, best)[1], 1e-10);
  }

  @Test
  void figuresOfTheUnits() {
    CountLikelihood likelihood = likelihood();
    assertEquals(13, likelihood.events());
    assertEquals(65.5, likelihood.exposure());
    assertEquals(5, likelihood.exposedUnits());
    assertEquals(30 * 13 / 65.5, likelihood.greatestMean(), 1e-12);
    assertEquals(
        likelihood.value(-30, Math.log(13 / 65.5)), likelihood.poisson(), 1e-9, "no spread");
  }
}

package org.vaneward.stats.comparison;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.simple.RandomSource;
import org.junit.jupiter.api.Test;
import org.vaneward.stats.distribution.Weibull;

class ExpectedFailuresTest {
  private static final Weibull LIFE = new Weibull(2.1, 8500);

  @Test
  void anExactOrCensoredLifeExpectsTheHazardItWentThrough() {
    double expected = Math.pow(6000 / 8500.0, 2.1) - Math.pow(1000 / 8500.0, 2.1);
    assertEquals(expected, ExpectedFailures.of(LIFE, 1000, 6000, 6000), 1e-14);
    assertEquals(expected, ExpectedFailures.of(LIFE, 1000, 6000, Double.POSITIVE_INFINITY), 1e-14);
  }

  @Test
  void anIntervalExpectsItsMean() {
    double n = 100_000;
    double sum = 0;
    double weights = 0;
    for (int k = 0; k < n; k++) {
      double age = 2000 + 5000 * (k + 0.5) / n;
      double weight = LIFE.density(age);
      sum += weight * LIFE.cumulativeHazard(age);
      weights += weight;
    }
    assertEquals(sum / weights, ExpectedFailures.of(LIFE, 0, 2000, 7000), 1e-9);
    assertEquals(
        sum / weights - LIFE.cumulativeHazard(1000),
        ExpectedFailures.of(LIFE, 1000, 2000, 7000),
        1e-9);
    double narrow = ExpectedFailures.of(LIFE, 0, 5000, 5000.001);
    assertEquals(ExpectedFailures.of(LIFE, 0, 5000.0005, 5000.0005), narrow, 1e-12);
  }

  @Test
  void failuresLessTheExpectedAverageToZero() {
    UniformRandomProvider random = RandomSource.L64_X128_MIX.create(3);
    int n = 200_000;
    double sum = 0;
    double squares = 0;
    for (int i = 0; i < n; i++) {
      double age = LIFE.inverseSurvival(random.nextDouble());
      double end = 3000 + 9000 * random.nextDouble();
      double look = 1500 + 1000 * random.nextDouble();
      double residual;
      if (age > end) {
        residual = -ExpectedFailures.of(LIFE, 0, end, Double.POSITIVE_INFINITY);
      } else if (i % 2 == 0) {
        residual = 1 - ExpectedFailures.of(LIFE, 0, age, age);
      } else {
        double last = look * Math.floor(age / look);
        residual = 1 - ExpectedFailures.of(LIFE, 0, last, Math.min(end, last + look));
      }
      sum += residual;
      squares += residual * residual;
    }
    assertEquals(0, sum / Math.sqrt(squares), 3.5);
  }
}

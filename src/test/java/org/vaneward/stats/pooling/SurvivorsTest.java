package org.vaneward.stats.pooling;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.vaneward.stats.numeric.Integral;

class SurvivorsTest {
  @ParameterizedTest
  @CsvSource({"0,0.6", "-3,0.6", "2,0.6", "0,1", "-4,2", "3,2", "1,10", "-20,30", "5,100"})
  void theChanceIsThatOfBruteForce(double mean, double sd) {
    double[] splits = new double[400];
    for (int i = 0; i < splits.length; i++) {
      splits[i] = -10 + 0.05 * i;
    }
    Integral chance =
        Integral.of(
            v -> Math.exp(-Math.exp(mean + sd * v) - v * v / 2) / Math.sqrt(2 * Math.PI),
            -10,
            10,
            splits);
    double expected = Math.log(chance.value());
    assertEquals(expected, Survivors.logChance(mean, sd, true), 1e-9);
    assertEquals(expected, Survivors.logChance(mean, sd, false), 1e-9);
  }
}

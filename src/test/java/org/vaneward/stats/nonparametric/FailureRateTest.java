package org.vaneward.stats.nonparametric;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.vaneward.stats.Estimate;

/** Exact Poisson limits of a failure rate. */
class FailureRateTest {
  /**
   * NIST/SEMATECH e-Handbook 8.4.5.1: 2 failures in 800 h at 90%, mean time between failures
   * 127.069 to 2251.229 h. The handbook's lower limit of the mean, for a test ended by the clock,
   * is the reciprocal of this upper limit of the rate, and the other way round.
   */
  @Test
  void theHandbooksLimits() {
    Estimate rate = FailureRate.of(2, 800, 0.90);
    assertEquals(400, 1 / rate.estimate(), 1e-12);
    assertEquals(127.069, 1 / rate.upper(), 5e-4);
    assertEquals(2251.229, 1 / rate.lower(), 5e-4);
  }

  /** NUREG/CR-6823, section 6.2, from memory: 10 events in 6 years at 90%, 0.90 to 2.83 a year. */
  @Test
  void anEventRate() {
    Estimate rate = FailureRate.of(10, 6, 0.90);
    assertEquals(1.67, rate.estimate(), 0.005);
    assertEquals(0.90, rate.lower(), 0.005);
    assertEquals(2.83, rate.upper(), 0.005);
  }

  /** Without failures the upper limit is that of a one-sided statement: -log(tail) / exposure. */
  @Test
  void nothingFailed() {
    Estimate rate = FailureRate.of(0, 1000, 0.90);
    assertEquals(0, rate.estimate());
    assertEquals(0, rate.lower());
    assertEquals(-Math.log(0.05) / 1000, rate.upper(), 1e-14);
  }

  @ParameterizedTest
  @ValueSource(doubles = {0, -1, Double.NaN, Double.POSITIVE_INFINITY})
  void exposureIsPositiveAndFinite(double exposure) {
    assertThrows(IllegalArgumentException.class, () -> FailureRate.of(1, exposure, 0.90));
  }
}

package org.vaneward.stats.recurrence;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class LogAgeWindowTest {
  private static final double WIDTH = 2;

  /** Against the integrals that define them, on both sides of where series take over and at 0. */
  @ParameterizedTest
  @CsvSource({
    "-3", "-0.4", "-0.151", "-0.149", "-0.05", "-1e-9", "0", "1e-9", "0.02", "0.1", "0.149",
    "0.151", "0.4", "1.7", "9"
  })
  void momentsAreTheirIntegrals(double shape) {
    double whole = integral(below -> 1, shape);
    double mean = integral(below -> below, shape) / whole;
    double square = integral(below -> below * below, shape) / whole;
    assertEquals(mean, LogAgeWindow.meanBelowEnd(shape, WIDTH), 1e-11);
    assertEquals(square - mean * mean, LogAgeWindow.variance(shape, WIDTH), 1e-11);
  }

  @ParameterizedTest
  @CsvSource({"0.3", "1", "6"})
  void watchedFromTheStartItIsTheExponential(double shape) {
    assertEquals(1 / shape, LogAgeWindow.meanBelowEnd(shape, Double.POSITIVE_INFINITY));
    assertEquals(1 / (shape * shape), LogAgeWindow.variance(shape, Double.POSITIVE_INFINITY));
    assertEquals(1 / shape, LogAgeWindow.meanBelowEnd(shape, 200 / shape), 1e-12);
    assertEquals(1 / (shape * shape), LogAgeWindow.variance(shape, 200 / shape), 1e-12);
  }

  @ParameterizedTest
  @CsvSource({"0.3, 1", "1, 0.2", "6, 3"})
  void theShareIsThatOfTheMeanCount(double shape, double width) {
    double end = 7;
    double start = end * Math.exp(-width);
    double share = 1 - Math.pow(start / end, shape);
    assertEquals(Math.log(share), LogAgeWindow.logShare(shape, width), 1e-13);
  }

  @ParameterizedTest
  @CsvSource({"1e-300", "0.5", "3", "3.51", "6.9999999999", "7"})
  void logSharesAreLogsOfShares(double t) {
    assertEquals(Math.log(t) - Math.log(7), LogAgeWindow.logShareOf(t, 7), 1e-14 * 700);
  }

  /** By Simpson's rule over the distance below the end. */
  private static double integral(DoubleUnaryOperator of, double shape) {
    int steps = 4000;
    double h = WIDTH / steps;
    double sum = 0;
    for (int i = 0; i <= steps; i++) {
      double weight = i == 0 || i == steps ? 1 : 2 + 2 * (i % 2);
      sum += weight * of.applyAsDouble(i * h) * Math.exp(-shape * i * h);
    }
    return sum * h / 3;
  }
}

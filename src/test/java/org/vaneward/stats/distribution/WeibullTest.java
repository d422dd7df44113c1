package org.vaneward.stats.distribution;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.vaneward.stats.numeric.Integral;

class WeibullTest {
  /** Columns from mpmath with 30 digits of precision. */
  @ParameterizedTest
  @CsvSource({
    "2, 1000, 1e-5, 0.9999999999999999, 1.0000000000000001136e-16, -24.635288842374557233,"
        + " 886.22692545275801365, 463.25137517610424292",
    "2, 1000, 6200, 2.0217158486953420271e-17, 0.99999999999999997978, -42.830058806371145871,"
        + " 886.22692545275801365, 463.25137517610424292",
    "0.5, 3, 1e-8, 0.99994226663971562954, 0.000057733360284370462386, 7.9678293120552636079, 6,"
        + " 13.416407864998738178",
    "50, 1000, 1010, 0.19308363888676828793, 0.80691636111323171207, -4.1527978835926368338,"
        + " 988.84420326391326886, 25.006850773364161976",
    "1.7, 1e-6, 3e-6, 0.0015445729108965203536, 0.99845542708910347965, 8.6421595711703415445,"
        + " 8.9224450249932416878e-7, 5.4023589962705489315e-7",
    "3.5, 1e9, 2e8, 0.9964286836103767581, 0.0035713163896232419007, -23.49767535830029376,"
        + " 899747176.50283902599, 284732772.02018318542"
  })
  void points(
      double shape,
      double scale,
      double age,
      double survival,
      double failed,
      double logDensity,
      double mean,
      double sd) {
    Weibull w = new Weibull(shape, scale);
    close(survival, w.survival(age), 2e-14);
    close(failed, w.failed(age), 2e-14);
    close(logDensity, w.logDensity(age), 1e-14);
    close(mean, w.mean(), 2e-15 * 4);
    close(sd, w.standardDeviation(), 2e-14);
  }

  /** From mpmath with 60 digits; the textbook difference is off by a third at 1e8. */
  @ParameterizedTest
  @CsvSource({
    "20, 0.060334192610442550956",
    "200, 0.0063712407709016194686",
    "1e3, 0.0012808757478713503512",
    "1e6, 1.2825481526175600866e-6",
    "1e8, 1.2825498133863866899e-8"
  })
  void spreadAtLargeShapes(double shape, double sd) {
    close(sd, new Weibull(shape, 1).standardDeviation(), 1e-13);
  }

  @ParameterizedTest
  @CsvSource({"0.3, 7", "1, 1000", "2.2, 5e5", "30, 1e-3"})
  void identities(double shape, double scale) {
    Weibull w = new Weibull(shape, scale);
    for (double p : new double[] {1e-12, 0.01, 0.3, 0.5, 0.9, 0.999}) {
      double age = w.quantile(p);
      close(p, w.failed(age), 1e-13);
      close(1, w.failed(age) + w.survival(age), 1e-15);
      close(age, w.inverseSurvival(w.survival(age)), Math.max(1e-12, 1e-15 / p));
      close(w.hazard(age), w.density(age) / w.survival(age), 1e-12);
      close(Math.log(w.survival(age)), w.logSurvival(age), p < 1e-6 ? 1e-4 : 1e-13);
      close(w.failed(age), w.failedWithin(0, age), 1e-15);
      double after = age * 1.3;
      close(
          1 - w.survival(after) / w.survival(age),
          w.failedWithin(age, after - age),
          p < 1e-6 ? 1e-3 : 1e-12);
    }
    double far = w.inverseSurvival(1e-300);
    close(w.mean(), Integral.overAges(w::survival, far).value(), 1e-11);
    close(1e-300, w.survival(far), 1e-11);
  }

  @Test
  void shortStretchesKeepTheirDigits() {
    Weibull w = new Weibull(2, 1000);
    close(w.hazard(500) * 1e-9, w.failedWithin(500, 1e-9), 1e-10);
    assertEquals(0, w.failedWithin(1e9, 0));
    assertEquals(1, w.failedWithin(1e200, 1e200));
  }

  @Test
  void atAndBelowAgeZero() {
    assertEquals(0, new Weibull(2, 10).density(0));
    assertEquals(0.1, new Weibull(1, 10).density(0));
    assertEquals(Double.POSITIVE_INFINITY, new Weibull(0.5, 10).density(0));
    assertEquals(-Math.log(10), new Weibull(1, 10).logDensity(0), 1e-15);
    assertEquals(Double.NEGATIVE_INFINITY, new Weibull(2, 10).logDensity(0));
    assertEquals(Double.NEGATIVE_INFINITY, new Weibull(2, 10).logDensity(-1));
    assertEquals(0, new Weibull(0.5, 10).density(-1));
    assertEquals(1, new Weibull(2, 10).survival(-1));
  }

  @Test
  void misuseIsRefused() {
    assertThrows(IllegalArgumentException.class, () -> new Weibull(0, 1));
    assertThrows(IllegalArgumentException.class, () -> new Weibull(Double.NaN, 1));
    assertThrows(IllegalArgumentException.class, () -> new Weibull(1, Double.POSITIVE_INFINITY));
    IllegalArgumentException e =
        assertThrows(IllegalArgumentException.class, () -> new Weibull(2, 1).quantile(1));
    assertTrue(e.toString().contains("1.0"), e::toString);
    assertThrows(IllegalArgumentException.class, () -> new Weibull(2, 1).inverseSurvival(-0.5));
  }

  private static void close(double expected, double got, double relative) {
    assertEquals(expected, got, relative * Math.abs(expected));
  }
}

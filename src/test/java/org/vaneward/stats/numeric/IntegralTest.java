package org.vaneward.stats.numeric;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.DoubleUnaryOperator;
import org.apache.commons.numbers.gamma.LogGamma;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.vaneward.stats.distribution.Weibull;

class IntegralTest {
  @Test
  void closedForms() {
    holds(1.0 / 3, Integral.of(x -> x * x, 0, 1));
    holds(2, Integral.of(Math::sin, 0, Math.PI));
    holds(Math.E - 1, Integral.of(Math::exp, 0, 1));
    holds(Math.log(1e6), Integral.of(x -> 1 / x, 1, 1e6));
    holds(2.0 / 3, Integral.of(Math::sqrt, 0, 1), 1e-11);
    holds(Math.PI / 4, Integral.of(x -> 1 / (1 + x * x), 0, 1));
  }

  @Test
  void anEmptyStretchIsZero() {
    assertEquals(new Integral(0, 0, 0, true), Integral.of(Math::exp, 3, 3));
    assertEquals(0, Integral.overAges(Math::exp, 0).value());
  }

  @Test
  void splitsTameAKink() {
    DoubleUnaryOperator kinked = x -> Math.abs(x - 0.3);
    Integral split = Integral.of(kinked, 0, 1, 0.3, -5, 17);
    holds((0.09 + 0.49) / 2, split);
    assertTrue(split.evaluations() < 200, () -> "evaluations " + split.evaluations());
  }

  @Test
  void splitsOutsideAtTheEndsOrTwiceChangeNothing() {
    DoubleUnaryOperator kinked = x -> Math.abs(x - 0.3);
    assertEquals(Integral.of(kinked, 0, 1, 0.3), Integral.of(kinked, 0, 1, 1, 0.3, -5, 0.3, 0, 17));
    assertEquals(Integral.of(Math::exp, 0, 1), Integral.of(Math::exp, 0, 1, 0, 1, 2));
  }

  @Test
  void evaluationsAreCounted() {
    AtomicInteger calls = new AtomicInteger();
    DoubleUnaryOperator counted =
        x -> {
          calls.incrementAndGet();
          return Math.sqrt(x);
        };
    assertEquals(Integral.of(counted, 0, 1).evaluations(), calls.get());
  }

  /** A density integrates to its distribution function, however far the stretch runs. */
  @ParameterizedTest
  @CsvSource({
    "5, 1000, 1e4",
    "5, 1000, 1e5",
    "5, 1000, 1e6",
    "5, 1000, 1e9",
    "50, 1000, 1e7",
    "1, 20, 1e6",
    "2.5, 1000, 300",
    "0.7, 1000, 1e6"
  })
  void narrowPeaks(double shape, double scale, double high) {
    Weibull law = new Weibull(shape, scale);
    holds(law.failed(high), Integral.overAges(t -> law.hazard(t) * law.survival(t), high), 1e-10);
    holds(mean(shape, scale, high), Integral.overAges(law::survival, high), 1e-11);
  }

  private static double mean(double shape, double scale, double high) {
    double a = 1 / shape;
    return scale
        * a
        * Math.exp(LogGamma.value(a))
        * org.apache.commons.numbers.gamma.RegularizedGamma.P.value(
            a, Math.pow(high / scale, shape));
  }

  @Test
  void aFunctionThatIsNotFiniteIsNotCalledConverged() {
    assertFalse(Integral.of(x -> Double.NaN, 0, 1).converged());
    assertFalse(Integral.of(x -> 1 / ((x - 0.3) * (x - 0.3)), 0, 1).converged());
  }

  @Test
  void misuseIsRefused() {
    assertThrows(IllegalArgumentException.class, () -> Integral.of(x -> x, 1, 0));
    assertThrows(
        IllegalArgumentException.class, () -> Integral.of(x -> x, 0, Double.POSITIVE_INFINITY));
    assertThrows(IllegalArgumentException.class, () -> Integral.overAges(x -> x, -1));
  }

  private static void holds(double expected, Integral got) {
    holds(expected, got, 2e-13);
  }

  private static void holds(double expected, Integral got, double relative) {
    assertEquals(expected, got.value(), relative * Math.abs(expected), got::toString);
    assertTrue(got.converged(), got::toString);
  }
}

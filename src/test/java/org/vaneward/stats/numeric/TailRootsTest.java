package org.vaneward.stats.numeric;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.simple.RandomSource;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.vaneward.stats.Reference;

/**
 * Gamma and beta quantiles. The tables were computed with mpmath 1.3.0 at 40 to 60 digits, by
 * halving on the incomplete gamma function and on the hypergeometric series of the incomplete beta
 * function.
 */
class TailRootsTest {
  private static final double ACCURACY = 2e-14;

  @ParameterizedTest
  @CsvSource({
    "1e-10, 0.5, 7.85398163397448367e-21",
    "1e-10, 2.44, 0.000126981846038882",
    "1e-10, 10, 0.472722092606352305",
    "1e-10, 1000.5, 812.248528210393795",
    "0.05, 0.01, 4.46553501891040131e-131",
    "0.05, 0.5, 0.00196607000000976158",
    "0.05, 2.44, 0.545036601953730856",
    "0.05, 10, 5.42540569709129264",
    "0.05, 1000.5, 949.046845764075948",
    "0.5, 0.01, 4.46553501891035512e-31",
    "0.5, 0.5, 0.227468211559786376",
    "0.5, 2.44, 2.11598160828295622",
    "0.5, 10, 9.66871461471413115",
    "0.5, 1000.5, 1000.16668641708637",
    "0.95, 0.01, 0.00336262399807468989",
    "0.95, 0.5, 1.92072941034706223",
    "0.95, 2.44, 5.44211594129207269",
    "0.95, 10, 15.7052164221154614",
    "0.95, 1000.5, 1053.09012173264465",
    "0.999999, 0.01, 7.15125347808488263",
    "0.999999, 0.5, 11.9640634884397345",
    "0.999999, 2.44, 17.7975736979924001",
    "0.999999, 10, 32.7103405174848117",
    "0.999999, 1000.5, 1158.11547016217865"
  })
  void gammaQuantile(double p, double shape, double expected) {
    // a quantile of 1e-131 has the digits of its logarithm, 300, less
    double slack = expected < 1e-20 ? 10 * ACCURACY : ACCURACY;
    assertEquals(expected, Quantiles.gamma(p, shape), slack * expected);
    assertEquals(2 * expected, Quantiles.chiSquare(p, 2 * shape), 2 * slack * expected);
  }

  @ParameterizedTest
  @CsvSource({
    "0.5, 1, 1000000.0, 6.93146940333493854e-7",
    "0.5, 3.0289855072463765, 67.97101449275362, 0.0384285040650797884",
    "0.05, 7.25, 4.5, 0.381177132862819832",
    "1e-10, 2, 3, 4.08249401580833292e-6",
    "0.999999, 0.5, 0.5, 0.999999999997532599",
    "0.95, 40, 1, 0.998718489477124739",
    "0.5, 500.5, 500.5, 0.5",
    "0.05, 9999.5, 0.75, 0.999751005676044924",
    "0.5, 0.1, 20, 0.0000303487496758046581"
  })
  void betaQuantile(double p, double a, double b, double expected) {
    assertEquals(expected, Quantiles.beta(p, a, b), ACCURACY * expected);
  }

  /** First and last of n have closed forms: 1 - p^(1/n) and its mirror. */
  @ParameterizedTest
  @CsvSource({"1", "2", "7", "1000", "1000000", "1000000000"})
  void medianOfTheFirst(double n) {
    double expected = -Math.expm1(Math.log(0.5) / n);
    assertEquals(expected, Quantiles.beta(0.5, 1, n), ACCURACY * expected);
    assertEquals(Math.exp(Math.log(0.5) / n), Quantiles.beta(0.5, n, 1), 1e-15);
  }

  /** The share below the quantile is the share asked for, over twelve orders of magnitude. */
  @Test
  void roundTrips() {
    UniformRandomProvider random = RandomSource.L64_X128_MIX.create(31);
    for (int i = 0; i < 2000; i++) {
      double a = Math.pow(10, 8 * random.nextDouble() - 2);
      double b = Math.pow(10, 8 * random.nextDouble() - 2);
      double p = i % 2 == 0 ? random.nextDouble() : Math.pow(10, -12 * random.nextDouble());
      double x = Quantiles.gamma(p, a);
      if (x > 1e-300) {
        // a share moves by a * (relative error) at most; shapes of 1e6 keep fewer of its digits
        double slack = 1e-13 * Math.max(1, Math.max(a, Math.abs(Math.log(x)) * a));
        double miss =
            p < 0.5 ? Quantiles.gammaShare(x, a) / p - 1 : Quantiles.gammaTail(x, a) / (1 - p) - 1;
        assertEquals(0, miss, slack + (p < 0.5 ? 0 : 1e-16 / (1 - p)), "gamma " + p + " " + a);
      }
      double y = Quantiles.beta(p, a, b);
      if (y > 1e-300 && y < 1 - 1e-9) {
        double share = Quantiles.betaShare(y, a, b);
        double tail = Quantiles.betaTail(y, a, b);
        double miss = p < 0.5 ? share / p - 1 : tail / (1 - p) - 1;
        double slack = 1e-13 * (1 + Math.max(a, b)) * (1 + Math.abs(Math.log(y)) + 1 / (1 - y));
        assertEquals(
            0, miss, slack + (p < 0.5 ? 0 : 1e-16 / (1 - p)), "beta " + p + " " + a + " " + b);
        assertEquals(1, share + tail, 1e-14);
      }
    }
  }

  @Test
  void endsAndMisuse() {
    assertEquals(0, Quantiles.gamma(1e-10, 1e-3));
    assertEquals(1, Quantiles.gammaTail(0, 3));
    assertEquals(0, Quantiles.gammaShare(-1, 3));
    assertEquals(Math.exp(-2.5), Quantiles.gammaTail(2.5, 1), 1e-16);
    assertEquals(0, Quantiles.betaShare(0, 2, 3));
    assertEquals(1, Quantiles.betaShare(1, 2, 3));
    assertEquals(1, Quantiles.betaTail(0, 2, 3));
    assertEquals(0, Quantiles.betaTail(1, 2, 3));
    assertTrue(Quantiles.gamma(0.5, 1e12) / 1e12 < 1);
    assertThrows(IllegalArgumentException.class, () -> Quantiles.gamma(0, 1));
    assertThrows(IllegalArgumentException.class, () -> Quantiles.gamma(0.5, Double.NaN));
    assertThrows(IllegalArgumentException.class, () -> Quantiles.beta(1, 1, 1));
    assertThrows(IllegalArgumentException.class, () -> Quantiles.beta(0.5, 0, 1));
    assertThrows(IllegalArgumentException.class, () -> Quantiles.betaShare(0.5, 1, -1));
  }

  /** NUREG/CR-6823, section 6.2, from memory: Jeffreys' posterior of an event rate. */
  @Test
  void jeffreysPosterior() {
    JsonNode example = Reference.example("nureg6823-jeffreys");
    double years = example.get("inputs").get("exposure_years").asDouble();
    double shape = example.get("inputs").get("events").asDouble() + 0.5;
    Reference.holds(example, "jeffreys_mean", shape / years);
    Reference.holds(example, "jeffreys_5", Quantiles.gamma(0.05, shape) / years);
    Reference.holds(example, "jeffreys_95", Quantiles.gamma(0.95, shape) / years);
  }

  /** NIST/SEMATECH e-Handbook 8.3.1.5: test time for a mean life of 500 h with two failures. */
  @Test
  void handbookTestTime() {
    JsonNode example = Reference.example("nist-apr315-bayes-test-time");
    JsonNode in = example.get("inputs");
    double quantile =
        Quantiles.gamma(
            in.get("confidence").asDouble(),
            in.get("a").asDouble() + in.get("failures_allowed").asDouble());
    double time = quantile * in.get("target_mtbf_h").asDouble() - in.get("b").asDouble();
    Reference.holds(example, "test_time_h", time);
  }
}

package org.vaneward.stats.pooling;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.simple.RandomSource;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.vaneward.stats.numeric.Integral;

class ShapeCurveTest {
  private static final double SPACING = 0.1;
  private static final int FIRST = -20;

  /** A lopsided bell. */
  private static double log(double b) {
    double z = (b - 0.5) / 0.3;
    return 3 + 2 * z - Math.exp(z);
  }

  private static ShapeCurve curve() {
    double[] log = new double[40];
    for (int i = 0; i < log.length; i++) {
      log[i] = log((FIRST + i) * SPACING);
    }
    return new ShapeCurve(SPACING, FIRST, log);
  }

  @Test
  void betweenValuesItIsSmooth() {
    ShapeCurve curve = curve();
    assertEquals(log(0.3), curve.value(0.3), 1e-12);
    for (double b = -1.5; b < 1.2; b += 0.013) {
      assertEquals(log(b), curve.value(b), 0.01, "at " + b);
    }
  }

  @Test
  void beyondTheLastValueItFallsOn() {
    ShapeCurve curve = curve();
    assertTrue(curve.value(-4) < curve.value(-3));
    assertTrue(curve.value(-3) < curve.value(curve.from()));
    assertTrue(curve.value(4) < curve.value(curve.to()));
  }

  /** Narrow bells go by the rule, wide ones by sums over the nodes. */
  @ParameterizedTest
  @ValueSource(doubles = {0.01, 0.05, 0.11, 0.13, 0.3, 1})
  void theMeanOverABellIsThatOfBruteForce(double sd) {
    ShapeCurve curve = curve();
    for (double b : new double[] {-0.3, 0.4, 0.9}) {
      double middle = b;
      Integral mean =
          Integral.of(
              z -> Math.exp(log(middle + sd * z) - z * z / 2) / Math.sqrt(2 * Math.PI),
              -8,
              8,
              new double[] {-4, -2, -1, 0, 1, 2, 4});
      assertEquals(Math.log(mean.value()), curve.blurred(b, sd), 2e-3, "around " + b);
    }
  }

  /** Far from the likelihood a narrow bell still has a mean, and the farther the less. */
  @Test
  void wellApartTheMeanFalls() {
    ShapeCurve curve = curve();
    double near = curve.blurred(3.5, 0.15);
    double far = curve.blurred(4.5, 0.15);
    assertTrue(far < near && far > Double.NEGATIVE_INFINITY, near + " " + far);
  }

  /** Chi-square over ten parts of equal chance; 27.9 is exceeded once in a thousand. */
  @ParameterizedTest
  @ValueSource(doubles = {0.02, 0.2, 1})
  void drawsFollowLikelihoodTimesBell(double sd) {
    OwnShape.Nearby nearby =
        new OwnShape.Nearby(new ShapeCurve[] {curve(), curve()}, new double[] {0.25, 0.75});
    UniformRandomProvider rng = RandomSource.L64_X128_MIX.create(11);
    double b = 0.2;
    double all = below(b, sd, 6);
    int n = 5000;
    int[] counts = new int[10];
    for (int i = 0; i < n; i++) {
      double z = (OwnShape.draw(nearby, b, sd, rng) - b) / sd;
      counts[Math.min(9, (int) (10 * below(b, sd, z) / all))]++;
    }
    double chi = 0;
    for (int count : counts) {
      chi += (count - n / 10.0) * (count - n / 10.0) / (n / 10.0);
    }
    assertTrue(chi < 27.9, "chi-square " + chi);
  }

  private static double below(double b, double sd, double z) {
    return Integral.of(
            x -> Math.exp(log(b + sd * x) - x * x / 2 - 3), -6, z, new double[] {-3, -1, 0, 1, 3})
        .value();
  }
}

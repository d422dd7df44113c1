package org.vaneward.stats.pooling;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.function.DoubleUnaryOperator;
import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.simple.RandomSource;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.vaneward.stats.Observation;
import org.vaneward.stats.Observations;
import org.vaneward.stats.distribution.Weibull;
import org.vaneward.stats.numeric.Integral;
import org.vaneward.stats.numeric.LogSpace;

class GroupIntegralTest {
  private static final Observations MIXED =
      Observations.of(
          new Observation.Exact(0, 300, 1),
          new Observation.Exact(100, 700, 2),
          new Observation.RightCensored(0, 900, 3),
          new Observation.RightCensored(400, 800, 1),
          new Observation.Interval(0, 0, 500, 1),
          new Observation.Interval(50, 200, 600, 2));
  private static final Observations NO_FAILURES =
      Observations.of(new Observation.RightCensored(0, 900, 3));
  private static final Observations ONE =
      Observations.of(new Observation.Exact(0, 500, 1), new Observation.RightCensored(0, 800, 4));
  private static final Observations INTERVALS =
      Observations.of(
          new Observation.Interval(0, 0, 500, 1), new Observation.Interval(0, 300, 600, 2));

  /** Failed before the first look, and nothing was seen to run: no age is too short. */
  private static final Observations LEFT =
      Observations.of(
          new Observation.Interval(0, 0, 500, 2), new Observation.Interval(0, 0, 300, 1));

  static List<Observations> groups() {
    return List.of(MIXED, NO_FAILURES, ONE, INTERVALS, LEFT);
  }

  /** Straight from the definition, life by life. */
  private static double direct(Observations lives, double shape, double logScale) {
    Weibull weibull = new Weibull(shape, Math.exp(logScale));
    double sum = 0;
    for (int i = 0; i < lives.size(); i++) {
      double term =
          lives.isExact(i)
              ? weibull.logDensity(lives.upper(i))
              : lives.isRightCensored(i)
                  ? weibull.logSurvival(lives.lower(i))
                  : LogSpace.logDiffExp(
                      weibull.logSurvival(lives.lower(i)), weibull.logSurvival(lives.upper(i)));
      sum += lives.count(i) * (term - weibull.logSurvival(lives.entry(i)));
    }
    return sum;
  }

  @ParameterizedTest
  @MethodSource("groups")
  void theLikelihoodIsThatOfTheLives(Observations lives) {
    GroupLikelihood group = GroupLikelihood.of(lives);
    for (double b = -2; b <= 2.5; b += 0.137) {
      GroupLikelihood.Slice slice = group.slice(b);
      for (double logScale = 5; logScale <= 10; logScale += 0.31) {
        double expected = direct(lives, Math.exp(b), logScale);
        slice.at(Math.exp(b) * (logScale - group.centre));
        if (expected > -1e4) {
          assertEquals(expected, slice.value, 1e-9 * (1 + Math.abs(expected)));
        }
      }
    }
  }

  @ParameterizedTest
  @MethodSource("groups")
  void derivativesAreThoseOfTheValue(Observations lives) {
    GroupLikelihood.Slice slice = GroupLikelihood.of(lives).slice(0.4);
    for (double k = -2; k < 6; k += 0.37) {
      double h = 1e-3;
      double more = slice.valueAt(k + h);
      double less = slice.valueAt(k - h);
      slice.at(k);
      assertEquals((more - less) / (2 * h), slice.slope, 1e-4 * (1 + Math.abs(slice.slope)));
      double second = (more - 2 * slice.value + less) / (h * h);
      assertEquals(second, slice.curvature, 1e-4 * (1 + Math.abs(second)));
      assertTrue(slice.curvature <= 1e-9, "concave");
    }
  }

  @ParameterizedTest
  @MethodSource("groups")
  void theIntegralIsThatOfBruteForce(Observations lives) {
    GroupLikelihood group = GroupLikelihood.of(lives);
    GroupIntegral integral = new GroupIntegral(group);
    for (double b : new double[] {-1, 0.4, 1.7}) {
      for (double sd : new double[] {0, 0.05, 0.5, 2}) {
        for (double mean : new double[] {5, 6.5, 8, 12}) {
          GroupLikelihood.Slice slice = group.slice(b);
          int rule = integral.settle(slice, mean, sd, 1e-10);
          double got = integral.compute(slice, mean, sd, rule);
          double expected = bruteForce(lives, Math.exp(b), mean, sd);
          assertEquals(expected, got, 1e-8, () -> "b " + b + " mean " + mean + " sd " + sd);
          double twice = integral.compute(slice, mean, sd, rule + 1);
          assertEquals(got, twice, 1e-9);
        }
      }
    }
  }

  /** Where no rule would settle they are all there is. */
  @ParameterizedTest
  @MethodSource("groups")
  void evenlySpacedNodesAgreeAsWell(Observations lives) {
    GroupLikelihood group = GroupLikelihood.of(lives);
    GroupIntegral integral = new GroupIntegral(group);
    for (double b : new double[] {-1, 0.4, 1.7}) {
      GroupLikelihood.Slice slice = group.slice(b);
      for (double sd : new double[] {0.5, 2, 6}) {
        for (double mean : new double[] {5, 6.5, 9}) {
          double expected = bruteForce(lives, Math.exp(b), mean, sd);
          for (int rule : new int[] {GroupIntegral.EVENLY, GroupIntegral.TWICE_EVENLY}) {
            double got = integral.compute(slice, mean, sd, rule);
            assertEquals(expected, got, 1e-8, () -> "b " + b + " mean " + mean + " sd " + sd);
          }
        }
      }
    }
  }

  private static double bruteForce(Observations lives, double shape, double mean, double sd) {
    DoubleUnaryOperator log =
        v -> {
          double value = direct(lives, shape, mean + sd * v) - v * v / 2;
          // a hazard beyond the largest number
          return Double.isNaN(value) ? Double.NEGATIVE_INFINITY : value;
        };
    double top = Double.NEGATIVE_INFINITY;
    for (double v = -40; v <= 40; v += 0.01) {
      top = Math.max(top, log.applyAsDouble(v));
    }
    double peak = top;
    double[] splits = new double[160];
    for (int i = 0; i < splits.length; i++) {
      splits[i] = (i - 80) / 2.0;
    }
    Integral integral = Integral.of(v -> Math.exp(log.applyAsDouble(v) - peak), -40, 40, splits);
    return peak + Math.log(integral.value()) - Math.log(2 * Math.PI) / 2;
  }

  /** Shares of many draws below points close together and far out; 4.5 standard errors. */
  @ParameterizedTest
  @MethodSource("groups")
  void drawsFollowTheIntegrandIntoItsTails(Observations lives) {
    GroupLikelihood group = GroupLikelihood.of(lives);
    GroupIntegral integral = new GroupIntegral(group);
    GroupLikelihood.Slice slice = group.slice(0.6);
    double sd = 0.8;
    double mean = 6.8;
    double log = integral.compute(slice, mean, sd, integral.settle(slice, mean, sd, 1e-10));
    DoubleUnaryOperator density =
        v ->
            Math.exp(
                slice.valueAt(slice.shape * (mean + sd * v - group.centre))
                    - v * v / 2
                    - log
                    - Math.log(2 * Math.PI) / 2);
    UniformRandomProvider rng = RandomSource.L64_X128_MIX.create(7);
    double[] draws = new double[50_000];
    for (int i = 0; i < draws.length; i++) {
      draws[i] = integral.draw(rng);
    }
    for (double x = -3; x <= 3; x += 0.1) {
      double limit = x;
      double share = Integral.of(density, -12, x, -8, -6, -5, -4, -3.5).value();
      double got = Arrays.stream(draws).filter(v -> v <= limit).count() / (double) draws.length;
      double error = Math.sqrt(Math.max(share * (1 - share), 1e-6) / draws.length);
      assertEquals(share, got, 4.5 * error, "below " + x);
    }
  }

  @Test
  void farFromTheDataTheIntegralIsNothing() {
    GroupLikelihood group = GroupLikelihood.of(ONE);
    GroupIntegral integral = new GroupIntegral(group);
    double far = integral.compute(group.slice(1), -2000, 0.01, 1);
    assertEquals(Double.NEGATIVE_INFINITY, far);
  }
}

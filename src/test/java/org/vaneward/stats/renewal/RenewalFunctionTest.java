package org.vaneward.stats.renewal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.SplittableRandom;
import org.apache.commons.numbers.gamma.LogGamma;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.vaneward.stats.Reference;
import org.vaneward.stats.distribution.Exponential;
import org.vaneward.stats.distribution.Lognormal;
import org.vaneward.stats.distribution.TwoWeibulls;
import org.vaneward.stats.distribution.Weibull;
import org.vaneward.stats.numeric.Integral;

/** Against R, handbook cases, closed forms, and two other routes to the same function. */
class RenewalFunctionTest {

  @ParameterizedTest
  @ValueSource(strings = {"renewal-function-shape-1.2", "renewal-function-shape-2.5"})
  void agreesWithTheReference(String name) {
    Reference.Case reference =
        Reference.cases("decisions").stream()
            .filter(c -> c.name().equals(name))
            .findFirst()
            .orElseThrow();
    JsonNode expected = reference.expected();
    RenewalFunction renewals = RenewalFunction.of(new Weibull(expected.get("shape").asDouble(), 1));
    for (int i = 0; i < expected.get("t_over_scale").size(); i++) {
      double t = expected.get("t_over_scale").get(i).asDouble();
      reference.holds("M(" + t + ")", expected.get("renewal_function").get(i), renewals.at(t));
    }
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "renewal-weibull-b2-t0.5",
        "renewal-weibull-b2-t1",
        "renewal-weibull-b2-t2",
        "renewal-weibull-b3-t1",
        "renewal-weibull-b3-t2"
      })
  void agreesWithTheHandbook(String id) {
    JsonNode example = Reference.example(id);
    JsonNode in = example.get("inputs");
    Weibull life = new Weibull(in.get("shape").asDouble(), in.get("scale").asDouble());
    Reference.holds(example, "M", RenewalFunction.of(life).at(in.get("t").asDouble()));
  }

  @Test
  void theAsymptoteIsTheHandbooks() {
    JsonNode example = Reference.example("renewal-asymptote");
    Weibull life = new Weibull(2, 1);
    RenewalFunction renewals = RenewalFunction.of(life);
    Reference.holds(example, "exact_M", renewals.at(2));
    double far = 1e6;
    Reference.holds(example, "asymptotic_M", renewals.at(far) - (far - 2) / life.mean());
  }

  /** In closed form: M = t - 1/4 + exp(-4t)/4 for two stages of rate 2 (Cox 1962, from memory). */
  @Test
  void twoStagesHaveTheirClosedForm() {
    RenewalFunction renewals = RenewalFunction.of(new TwoStages(), 1, 0.5, Math.sqrt(0.5));
    JsonNode example = Reference.example("renewal-erlang2");
    for (int i = 0; i < 3; i++) {
      assertEquals(
          example.get("expected").get("M").get(i).asDouble(),
          renewals.at(example.get("inputs").get("t").get(i).asDouble()),
          example.get("tolerance").get("M").asDouble());
    }
    for (double t = 1e-3; t < 100; t *= 1.3) {
      assertEquals(t + Math.expm1(-4 * t) / 4, renewals.at(t), 1e-12 * Math.max(1, t));
    }
  }

  @Test
  void constantHazardRenewsEvenly() {
    RenewalFunction weibull = RenewalFunction.of(new Weibull(1, 7));
    RenewalFunction exponential = RenewalFunction.of(new Exponential(7), Double.POSITIVE_INFINITY);
    for (double t = 1e-6; t < 1e4; t *= 3) {
      assertEquals(t / 7, weibull.at(t), 1e-10 * Math.max(t / 7, 1e-3));
      assertEquals(t / 7, exponential.at(t), 1e-10 * Math.max(t / 7, 1e-3));
    }
  }

  /** The power series in t^shape of Smith and Leadbetter, Technometrics 5, 1963, where it works. */
  @ParameterizedTest
  @ValueSource(doubles = {0.3, 0.5, 0.8, 1.2, 1.74, 2.5, 4, 8, 20})
  void agreesWithThePowerSeries(double shape) {
    RenewalFunction renewals = RenewalFunction.of(new Weibull(shape, 1));
    for (double x : new double[] {1e-8, 1e-3, 0.1, 0.5, 1, 2}) {
      double t = Math.pow(x, 1 / shape);
      double series = PowerSeries.at(shape, x);
      assertEquals(series, renewals.at(t), 1e-10 * Math.max(1e-9, series), "x = " + x);
    }
  }

  /** Stieltjes sums on an even grid, halved and extrapolated: another route at later times. */
  @ParameterizedTest
  @ValueSource(doubles = {1.2, 1.74, 2.5, 5, 12})
  void agreesWithSumsOnAnEvenGrid(double shape) {
    Weibull life = new Weibull(shape, 1);
    RenewalFunction renewals = RenewalFunction.of(life);
    double[] sums = EvenGrid.extrapolated(life, 6, 3000);
    for (int i = 1; i < sums.length; i++) {
      assertEquals(sums[i], renewals.at(6.0 * i / (sums.length - 1)), 2e-7, "point " + i);
    }
  }

  @Test
  void aMixtureAndALognormalAgreeWithSumsOnAnEvenGrid() {
    TwoWeibulls two = new TwoWeibulls(0.3, new Weibull(2, 0.3), new Weibull(4, 1.5));
    RenewalFunction mixed = RenewalFunction.of(two, two.first().standardDeviation());
    double[] sums = EvenGrid.extrapolated(two, 5, 3000);
    for (int i = 1; i < sums.length; i++) {
      assertEquals(sums[i], mixed.at(5.0 * i / (sums.length - 1)), 1e-6);
    }
    Lognormal skew = new Lognormal(0, 0.6);
    RenewalFunction lognormal = RenewalFunction.of(skew, 0.6);
    double[] other = EvenGrid.extrapolated(skew, 5, 3000);
    for (int i = 1; i < other.length; i++) {
      assertEquals(other[i], lognormal.at(5.0 * i / (other.length - 1)), 1e-6);
    }
  }

  /** t/mu - 1 <= M and F <= M <= F / S (Barlow and Proschan 1965, ch. 3, from memory). */
  @Test
  void keepsWithinItsBounds() {
    SplittableRandom random = new SplittableRandom(11);
    for (int k = 0; k < 12; k++) {
      Weibull life = new Weibull(0.3 * Math.pow(20, random.nextDouble()), 5000);
      RenewalFunction renewals = RenewalFunction.of(life);
      double before = 0;
      for (double t = 1; t < 1e5; t *= 1.7) {
        double m = renewals.at(t);
        assertTrue(m >= before, () -> life + " falls");
        assertTrue(m >= t / life.mean() - 1 - 1e-9);
        assertTrue(m >= life.failed(t) * (1 - 1e-9));
        assertTrue(m <= life.failed(t) / life.survival(t) * (1 + 1e-8));
        before = m;
      }
    }
  }

  @Test
  void highShapesRippleOnAndSaySo() {
    assertTrue(RenewalFunction.of(new Weibull(2, 1)).rippleLeft() < 1e-9);
    double left = RenewalFunction.of(new Weibull(20, 1)).rippleLeft();
    assertTrue(left > 1e-6 && left < 0.05, "left " + left);
  }

  @Test
  void scalesWithTheUnitOfAge() {
    RenewalFunction one = RenewalFunction.of(new Weibull(1.7, 1));
    RenewalFunction hours = RenewalFunction.of(new Weibull(1.7, 5500));
    assertEquals(one.at(0.9), hours.at(0.9 * 5500), 1e-14);
    assertEquals(one.at(0.9), one.scaled(10).at(9), 1e-14);
    assertEquals(one.meanLife() * 10, one.scaled(10).meanLife(), 1e-12);
    assertEquals(0, one.at(0));
    assertEquals(0, one.at(-1));
    assertThrows(IllegalArgumentException.class, () -> one.scaled(0));
    assertThrows(IllegalArgumentException.class, () -> one.quietFrom(-1).chance(1));
  }

  @Test
  void aPositionNewAtTheStartIsQuietAsLongAsItsPartLasts() {
    Weibull life = new Weibull(2.2, 1);
    RenewalFunction renewals = RenewalFunction.of(life);
    for (double s : new double[] {0, 0.1, 0.7, 2}) {
      assertEquals(life.survival(s), renewals.quietFrom(0).chance(s), 1e-12);
      assertEquals(1, renewals.quietFrom(1.3).chance(0), 1e-11);
    }
    RenewalFunction even = RenewalFunction.of(new Weibull(1, 1));
    assertEquals(Math.exp(-0.4), even.quietFrom(3).chance(0.4), 1e-10);
  }

  /** Long after the start the residual life has density S / mu (Cox 1962, ch. 5, from memory). */
  @ParameterizedTest
  @ValueSource(doubles = {0.7, 1.5, 3})
  void longAfterTheStartQuietStretchesHaveTheirLimit(double shape) {
    Weibull life = new Weibull(shape, 1);
    RenewalFunction renewals = RenewalFunction.of(life);
    double start = shape < 1 ? 60 : 14;
    for (double s : new double[] {0.05, 0.4, 1.1}) {
      double overdue = Integral.overAges(life::survival, s).value();
      assertEquals(
          1 - overdue / life.mean(), renewals.quietFrom(start).chance(s), shape < 1 ? 1e-6 : 1e-9);
    }
  }

  @Test
  void quietStretchesAgreeWithRenewalsOneByOne() {
    Weibull life = new Weibull(1.6, 1);
    RenewalFunction renewals = RenewalFunction.of(life);
    SplittableRandom random = new SplittableRandom(5);
    int trials = 400_000;
    int quiet = 0;
    for (int k = 0; k < trials; k++) {
      double at = 0;
      while (at <= 0.8) {
        at += Math.pow(-Math.log1p(-random.nextDouble()), 1 / 1.6);
      }
      quiet += at > 1.3 ? 1 : 0;
    }
    double p = renewals.quietFrom(0.8).chance(0.5);
    assertEquals(p, (double) quiet / trials, 3 * Math.sqrt(p * (1 - p) / trials));
  }

  private static final class TwoStages implements Life {
    @Override
    public double failed(double age) {
      return age < 1e-4
          ? 2 * age * age * (1 - 4 * age / 3 + age * age)
          : 1 - Math.exp(-2 * age) * (1 + 2 * age);
    }

    @Override
    public double density(double age) {
      return 4 * age * Math.exp(-2 * age);
    }
  }

  /**
   * Long after the start, t / mu + (sigma^2 / mu^2 - 1) / 2 (Smith 1954; Barlow and Proschan 1965,
   * ch. 3, from memory), with the moments in closed form, far beyond where anything is solved.
   */
  @Test
  void farOutItIsTheAsymptoteByClosedMoments() {
    Lognormal life = new Lognormal(7, 0.5);
    double mean = Math.exp(7 + 0.125);
    double variation = Math.expm1(0.25);
    RenewalFunction renewals = RenewalFunction.of(life, 0.5 * mean);
    double t = 1e4 * mean;
    assertEquals(1e4 + (variation - 1) / 2, renewals.at(t), 1e-7);
    assertEquals(mean, renewals.meanLife(), 1e-9 * mean);
    TwoWeibulls two = new TwoWeibulls(0.3, new Weibull(1.5, 400), new Weibull(3, 6000));
    double first = 0.3 * new Weibull(1.5, 400).mean() + 0.7 * new Weibull(3, 6000).mean();
    double second = 0.3 * square(1.5, 400) + 0.7 * square(3, 6000);
    RenewalFunction mixed = RenewalFunction.of(two, 300);
    double far = 1e3 * first;
    double excess = (second / (first * first) - 2) / 2;
    assertEquals(1e3 + excess, mixed.at(far), 1e-6);
  }

  /** Mean square of a Weibull life. */
  private static double square(double shape, double scale) {
    return scale * scale * Math.exp(LogGamma.value(1 + 2 / shape));
  }
}

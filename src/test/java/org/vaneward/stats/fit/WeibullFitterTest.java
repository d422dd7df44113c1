package org.vaneward.stats.fit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.function.UnaryOperator;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.Observation;
import org.vaneward.stats.Observation.Exact;
import org.vaneward.stats.Observation.Interval;
import org.vaneward.stats.Observation.RightCensored;
import org.vaneward.stats.Observations;
import org.vaneward.stats.Reference;
import org.vaneward.stats.fit.WeibullFit.Fitted;
import org.vaneward.stats.fit.WeibullFit.LimitMethod;
import org.vaneward.stats.fit.WeibullFit.NotEstimable;
import org.vaneward.stats.numeric.Quantiles;

/** Published worked examples, a set solved by hand, and identities. */
class WeibullFitterTest {
  private static final FitSettings DEFAULTS = FitSettings.defaults();

  // ---- worked examples -------------------------------------------------------------------------

  @Test
  void handbookTwentyUnits() {
    JsonNode example = Reference.example("nist-apr413-weibull-mle");
    Fitted fit = fitted(lives(example.get("inputs")));
    Reference.holds(example, "eta", fit.weibull().scale());
    Reference.holds(example, "beta", fit.weibull().shape());
    Reference.holds(example, "loglik", fit.logLikelihood());
    Reference.holds(example, "aic_weibull", fit.aic());
    Reference.holds(example, "mean_h", fit.weibull().mean());
    Reference.holds(example, "sd_h", fit.weibull().standardDeviation());
  }

  @Test
  void generatorFans() {
    JsonNode example = Reference.example("nelson-generator-fans");
    Observations lives = lives(example.get("inputs"));
    Fitted fit = fitted(lives);
    Reference.holds(example, "beta", fit.weibull().shape());
    Reference.holds(example, "eta_h", fit.weibull().scale());
    Fitted exponential = fitted(lives, DEFAULTS.withFixedShape(1));
    Reference.holds(example, "exponential_mean_h", exponential.weibull().scale());
  }

  @Test
  void ballBearings() {
    JsonNode example = Reference.example("lieblein-zelen-weibull");
    Observations.Builder lives = Observations.builder();
    example
        .get("inputs")
        .get("life_million_revs")
        .forEach(t -> lives.addFailure(0, t.asDouble(), 1));
    Fitted fit = fitted(lives.build());
    assertEquals(23, fit.failures());
    Reference.holds(example, "beta", fit.weibull().shape());
    Reference.holds(example, "eta", fit.weibull().scale());
    Reference.holds(example, "loglik", fit.logLikelihood());
  }

  @Test
  void bearingCages() {
    JsonNode example = Reference.example("bearing-cage-2p");
    Observations lives = lives(example.get("inputs"));
    Fitted fit = fitted(lives);
    Reference.holds(example, "n", fit.lives());
    Reference.holds(example, "eta_h", fit.weibull().scale());
    Reference.holds(example, "beta", fit.weibull().shape());
    Reference.holds(example, "B10_h", fit.weibull().quantile(0.1));
  }

  @Test
  void bearingCagesAtAStatedShape() {
    JsonNode example = Reference.example("bearing-cage-fixed-shape-2");
    Observations lives = lives(Reference.example("bearing-cage-2p").get("inputs"));
    Fitted fit = fitted(lives, DEFAULTS.withFixedShape(2));
    Reference.holds(example, "eta_h", fit.weibull().scale());
    Reference.holds(example, "B10_h", fit.weibull().quantile(0.1));
    Reference.holds(
        example, "eta_lower95_time_terminated_h", WeibullFitter.scaleLowerLimit(lives, 2, 0.975));
    Reference.holds(example, "eta_upper95_h", WeibullFitter.scaleUpperLimit(lives, 2, 0.975));
    assertEquals(1, fit.parameters());
    assertEquals(new Estimate(2, 2, 2), fit.shape());
  }

  private static Observations lives(JsonNode inputs) {
    Observations.Builder lives = Observations.builder();
    inputs.get("failures_h").forEach(t -> lives.addFailure(0, t.asDouble(), 1));
    JsonNode censored = inputs.get("censored_h");
    if (censored.isArray()) {
      censored.forEach(t -> lives.addRightCensored(0, t.asDouble(), 1));
    } else {
      censored
          .properties()
          .forEach(
              e ->
                  lives.addRightCensored(
                      0, Double.parseDouble(e.getKey()), e.getValue().asDouble()));
    }
    return lives.build();
  }

  // ---- a set solved by hand --------------------------------------------------------------------

  /**
   * Eight lives: failed at 1 and, two of them, at 2; censored at 2 and at 4; failed in (1, 2]; came
   * under observation at 1 and failed at 4; came at 2 and was censored at 4.
   */
  private static Observations eight() {
    return Observations.of(
        new Exact(0, 1, 1),
        new Exact(0, 2, 2),
        new RightCensored(0, 2, 1),
        new RightCensored(0, 4, 1),
        new Interval(0, 1, 2, 1),
        new Exact(1, 4, 1),
        new RightCensored(2, 4, 1));
  }

  /**
   * At scale 1 and shape 1 every cumulative hazard is the age. Exposure: 1 + 2*2 + 2 + 4 + 1 (start
   * of the interval) + (4 - 1) + (4 - 2) = 17; the interval adds log(1 - exp(-1)). With L = log 2,
   * sum of log age over exact failures = 2L + 2L = 4L, and the derivatives in log shape of the
   * exposure are sums of t log t: 4L + 2L + 8L + 0 + 8L + (8L - 2L) = 28L, and of t log t (1 + log
   * t): 28L + 4L^2 + 2L^2 + 16L^2 + 0 + 16L^2 + 14L^2 = 28L + 52L^2.
   */
  @Test
  void byHandAtTheStart() {
    double l = Math.log(2);
    double q = 1 / Math.expm1(1);
    double[] d = WeibullLikelihood.of(eight()).derivatives(0, 0);
    assertEquals(-17 + Math.log1p(-Math.exp(-1)), d[0], 1e-14);
    // In log scale: each cumulative hazard H falls by H; an exact failure loses 1 (its density).
    assertEquals(-4 + 17 - q, d[1], 1e-13);
    // In log shape: 1 + log t for each exact failure; the interval's hazard grows by 2L.
    assertEquals(4 + 4 * l - 28 * l + q * 2 * l, d[2], 1e-13);
    // Second derivatives: D = 2 - 1 of the interval has derivatives -1 and 2L, and second ones 1,
    // -(1 + 2L) and 2L + 2L^2, from t, t log t and t (log t)^2 at 1 and 2.
    double qq = q * (1 + q);
    assertEquals(-17 + q - qq, d[3], 1e-13);
    assertEquals(-4 + 17 + 28 * l - q * (1 + 2 * l) + qq * 2 * l, d[4], 1e-12);
    assertEquals(
        4 * l - 28 * l - 52 * l * l + q * (2 * l + 2 * l * l) - qq * 4 * l * l, d[5], 1e-12);
  }

  /** Shape 1 stated: the score 4 - 17/x + ... = 0 is solved for the interval's share by hand. */
  @Test
  void byHandAtTheOptimum() {
    Observations lives =
        Observations.of(
            new Exact(0, 1, 1),
            new Exact(0, 2, 2),
            new RightCensored(0, 2, 1),
            new RightCensored(0, 4, 1),
            new Exact(1, 4, 1),
            new RightCensored(2, 4, 1));
    Fitted fit = fitted(lives, DEFAULTS.withFixedShape(1));
    assertEquals(16.0 / 4, fit.weibull().scale(), 1e-14);
    assertEquals(-4 * Math.log(4) - 4, fit.logLikelihood(), 1e-14);
    assertEquals(0.25, fit.covariance().scaleScale(), 1e-14);
    // One interval (0, 1] and one life censored at 1: half have failed by 1.
    Fitted half =
        fitted(
            Observations.of(new Interval(0, 0, 1, 1), new RightCensored(0, 1, 1)),
            DEFAULTS.withFixedShape(1));
    assertEquals(1 / Math.log(2), half.weibull().scale(), 1e-14);
    assertEquals(2 * Math.log(0.5), half.logLikelihood(), 1e-14);
  }

  /**
   * Profile limits at a stated shape solve x - 1 - log x = drop / failures, x =
   * (estimate/limit)^shape.
   */
  @ParameterizedTest
  @ValueSource(doubles = {0.5, 1, 3})
  void statedShapeLimitsSolveTheirEquation(double shape) {
    Observations lives = eight();
    Observations exact =
        Observations.of(lives.asList().stream().filter(o -> !(o instanceof Interval)).toList());
    Fitted fit = fitted(exact, DEFAULTS.withFixedShape(shape).withConfidence(0.95));
    for (double limit : new double[] {fit.scale().lower(), fit.scale().upper()}) {
      double x = Math.pow(fit.weibull().scale() / limit, shape);
      assertEquals(3.841458820694124 / 2 / 4, x - 1 - Math.log(x), 1e-12);
    }
    assertTrue(fit.scale().lower() < fit.weibull().scale());
    assertTrue(fit.scale().upper() > fit.weibull().scale());
  }

  // ---- identities ------------------------------------------------------------------------------

  static Stream<Observations> samples() {
    return Stream.of(
        eight(),
        Reference.cases("right_censored_fits").get(0).lives(),
        Reference.cases("interval_censored_fits").get(2).lives(),
        Reference.cases("delayed_entry_fits").get(0).lives(),
        Reference.cases("delayed_entry_fits").get(2).lives());
  }

  @ParameterizedTest
  @MethodSource("samples")
  void scoreIsZeroAndDerivativesAreTheDifferences(Observations lives) {
    Fitted fit = fitted(lives);
    WeibullLikelihood likelihood = WeibullLikelihood.of(lives);
    double u = Math.log(fit.weibull().scale());
    double s = Math.log(fit.weibull().shape());
    double[] top = likelihood.derivatives(u, s);
    assertEquals(0, top[1], 1e-9 * fit.failures());
    assertEquals(0, top[2], 1e-9 * fit.failures());
    double determinant = top[3] * top[5] - top[4] * top[4];
    assertEquals(-top[5] / determinant, fit.covariance().scaleScale(), 1e-9);
    for (double[] at : new double[][] {{u, s}, {u + 0.3, s - 0.2}, {u - 0.2, s + 0.3}}) {
      differences(likelihood, at[0], at[1]);
    }
  }

  private static void differences(WeibullLikelihood likelihood, double u, double s) {
    double h = 1e-5;
    double[] d = likelihood.derivatives(u, s);
    double[] right = likelihood.derivatives(u + h, s);
    double[] left = likelihood.derivatives(u - h, s);
    double[] up = likelihood.derivatives(u, s + h);
    double[] down = likelihood.derivatives(u, s - h);
    double size = 1 + Math.abs(d[0]) + Math.abs(d[1]) + Math.abs(d[2]);
    assertEquals((right[0] - left[0]) / (2 * h), d[1], 1e-7 * size);
    assertEquals((up[0] - down[0]) / (2 * h), d[2], 1e-7 * size);
    double curve = size + Math.abs(d[3]) + Math.abs(d[5]);
    assertEquals((right[1] - left[1]) / (2 * h), d[3], 1e-7 * curve);
    assertEquals((up[1] - down[1]) / (2 * h), d[4], 1e-7 * curve);
    assertEquals((right[2] - left[2]) / (2 * h), d[4], 1e-7 * curve);
    assertEquals((up[2] - down[2]) / (2 * h), d[5], 1e-7 * curve);
  }

  @ParameterizedTest
  @MethodSource("samples")
  void countsAreRepeatedRows(Observations lives) {
    Observations.Builder rows = Observations.builder();
    for (Observation o : lives.asList()) {
      for (int i = 0; i < o.count(); i++) {
        rows.add(counted(o, 1));
      }
    }
    same(fitted(lives), fitted(rows.build()), 1, 1e-9);
  }

  @ParameterizedTest
  @MethodSource("samples")
  void orderDoesNotMatter(Observations lives) {
    List<Observation> shuffled = new ArrayList<>(lives.asList());
    Collections.shuffle(shuffled, new Random(7));
    same(fitted(lives), fitted(Observations.of(shuffled)), 1, 1e-9);
  }

  @ParameterizedTest
  @ValueSource(doubles = {1e-9, 1.0 / 24, 3600, 1e12})
  void theUnitOfAgeDoesNotMatter(double unit) {
    List<Observations> all = samples().toList();
    assertEquals(5, all.size());
    for (Observations lives : all) {
      Observations other = mapped(lives, o -> scaled(o, unit));
      same(fitted(lives), fitted(other), unit, 1e-8);
    }
  }

  /** A life seen to an age and again from there on is the one life. */
  @ParameterizedTest
  @MethodSource("samples")
  void splittingALifeChangesNothing(Observations lives) {
    Observations.Builder split = Observations.builder();
    for (Observation o : lives.asList()) {
      double end =
          o instanceof Exact x
              ? x.age()
              : o instanceof RightCensored x ? x.age() : ((Interval) o).lower();
      double cut = (o.entry() + end) / 2;
      if (!(cut > o.entry() && cut < end)) {
        split.add(o);
        continue;
      }
      split.addRightCensored(o.entry(), cut, o.count());
      if (o instanceof Exact x) {
        split.add(new Exact(cut, x.age(), x.count()));
      } else if (o instanceof RightCensored x) {
        split.add(new RightCensored(cut, x.age(), x.count()));
      } else if (o instanceof Interval x) {
        split.add(new Interval(cut, x.lower(), x.upper(), x.count()));
      }
    }
    assertTrue(split.build().size() > lives.size());
    same(fitted(lives), fitted(split.build()), 1, 1e-7);
  }

  @ParameterizedTest
  @MethodSource("samples")
  void narrowIntervalsAreExact(Observations lives) {
    Observations narrow =
        mapped(
            lives,
            o ->
                o instanceof Exact x
                    ? new Interval(x.entry(), x.age() * (1 - 5e-7), x.age() * (1 + 5e-7), x.count())
                    : o);
    Fitted exact = fitted(lives);
    Fitted interval = fitted(narrow);
    assertEquals(exact.weibull().shape(), interval.weibull().shape(), 1e-8 * 10);
    assertEquals(
        exact.weibull().scale(), interval.weibull().scale(), 1e-7 * exact.weibull().scale());
    assertEquals(exact.shape().upper(), interval.shape().upper(), 1e-6 * exact.shape().upper());
  }

  /** A narrow interval's probability is its width times the density. */
  @ParameterizedTest
  @ValueSource(doubles = {1e-3, 1e-6, 1e-9, 1e-12})
  void narrowIntervalsKeepTheirDigits(double width) {
    double lower = 100;
    double upper = lower * (1 + width);
    double[] d =
        WeibullLikelihood.of(Observations.of(new Interval(0, lower, upper, 1)))
            .derivatives(Math.log(90), Math.log(2.5));
    double[] e =
        WeibullLikelihood.of(Observations.of(new Exact(0, lower, 1)))
            .derivatives(Math.log(90), Math.log(2.5));
    assertEquals(e[0] + Math.log(upper - lower), d[0], 4 * width + 1e-12);
    for (int i = 1; i < 6; i++) {
      assertEquals(e[i], d[i], 20 * width + 1e-9);
    }
  }

  @ParameterizedTest
  @MethodSource("samples")
  void aShapeStatedAtTheBestChangesNothing(Observations lives) {
    Fitted free = fitted(lives);
    Fitted stated = fitted(lives, DEFAULTS.withFixedShape(free.weibull().shape()));
    assertEquals(free.logLikelihood(), stated.logLikelihood(), 1e-10);
    assertEquals(free.weibull().scale(), stated.weibull().scale(), 1e-8 * free.weibull().scale());
    assertTrue(stated.scale().upper() <= free.scale().upper() * (1 + 1e-9));
    assertTrue(stated.scale().lower() >= free.scale().lower() * (1 - 1e-9));
  }

  /**
   * At a limit, the best log-likelihood with the quantity held there has dropped by just so much.
   */
  @ParameterizedTest
  @MethodSource("samples")
  void profileLimitsDropByTheRightAmount(Observations lives) {
    Fitted fit = fitted(lives, DEFAULTS.withConfidence(0.95));
    WeibullLikelihood likelihood = WeibullLikelihood.of(lives);
    double target = fit.logLikelihood() - 3.841458820694124 / 2;
    for (double limit : new double[] {fit.shape().lower(), fit.shape().upper()}) {
      assertEquals(target, likelihood.at(Math.log(limit)).value(), 1e-9);
    }
    for (double limit : new double[] {fit.scale().lower(), fit.scale().upper()}) {
      assertEquals(target, bestAlong(likelihood, fit, s -> Math.log(limit)), 1e-8);
    }
    for (WeibullFit.Quantile q : fit.quantiles()) {
      double c = Math.log(-Math.log1p(-q.p()));
      for (double limit : new double[] {q.age().lower(), q.age().upper()}) {
        assertEquals(
            target, bestAlong(likelihood, fit, s -> Math.log(limit) - c * Math.exp(-s)), 1e-8);
      }
    }
  }

  private static double bestAlong(
      WeibullLikelihood likelihood, Fitted fit, java.util.function.DoubleUnaryOperator logScale) {
    double s = Math.log(fit.weibull().shape());
    return -org.vaneward.stats.numeric.Minimum.between(
            x -> -likelihood.derivatives(logScale.applyAsDouble(x), x)[0], s - 3, s + 2, 201)
        .value();
  }

  @ParameterizedTest
  @EnumSource(LimitMethod.class)
  void survivalLimitsMirrorQuantileLimits(LimitMethod method) {
    Observations lives = eight();
    Fitted fit = fitted(lives, DEFAULTS.withLimits(method));
    Estimate age = WeibullFitter.quantiles(lives, fit, 0.3).get(0).age();
    if (method == LimitMethod.PROFILE) {
      // The lower limit of the age by which 30% failed is where the lower band crosses 70%.
      assertEquals(0.7, WeibullFitter.survival(lives, fit, age.lower()).get(0).lower(), 1e-9);
      assertEquals(0.7, WeibullFitter.survival(lives, fit, age.upper()).get(0).upper(), 1e-9);
    }
    Estimate at = WeibullFitter.survival(lives, fit, age.estimate()).get(0);
    assertEquals(0.7, at.estimate(), 1e-12);
    assertTrue(at.lower() < 0.7 && at.upper() > 0.7);
    assertThrows(IllegalArgumentException.class, () -> WeibullFitter.survival(lives, fit, 0));
  }

  @ParameterizedTest
  @EnumSource(value = LimitMethod.class, names = "LIFTED", mode = EnumSource.Mode.EXCLUDE)
  void atAStatedShapeEveryLimitFollowsTheScale(LimitMethod method) {
    Observations lives = eight();
    Fitted fit = fitted(lives, DEFAULTS.withLimits(method).withFixedShape(1.7));
    Estimate survival = WeibullFitter.survival(lives, fit, 3).get(0);
    Estimate median = fit.quantiles().get(3).age();
    double toMedian = Math.pow(Math.log(2), 1 / 1.7);
    close(fit.scale().lower() * toMedian, median.lower(), 1e-12);
    close(fit.scale().upper() * toMedian, median.upper(), 1e-12);
    close(Math.exp(-Math.pow(3 / fit.scale().lower(), 1.7)), survival.lower(), 1e-12);
    close(Math.exp(-Math.pow(3 / fit.scale().upper(), 1.7)), survival.upper(), 1e-12);
  }

  // ---- where there is nothing to find, and where there is ---------------------------------------

  @Test
  void plainReasons() {
    says("no failures", Observations.of(Observation.rightCensoredAt(5)));
    says("no failures", Observations.builder().build());
    says("one failure, at the greatest age", Observations.of(Observation.failedAt(5)));
    says(
        "all failures at one age and nothing ran longer",
        Observations.of(new Exact(0, 5, 4), Observation.rightCensoredAt(3)));
    says(
        "all failures at one age and nothing ran longer",
        Observations.of(new Exact(2, 5, 4), new RightCensored(1, 3, 1)));
    says("no life was seen to run", Observations.of(new Interval(0, 0, 100, 5)));
    says("no life was seen to run", Observations.of(new Interval(7, 7, 100, 5)));
    says("one look", Observations.of(new Interval(0, 0, 9, 3), new RightCensored(0, 9, 4)));
    says("one age", Observations.of(new Interval(0, 50, 100, 5)));
    says("one age", Observations.of(new Interval(0, 50, 100, 5), new Exact(0, 70, 1)));
    says("one age", Observations.of(new Interval(0, 50, 100, 2), new RightCensored(0, 40, 1)));
  }

  /**
   * Failures of newly observed lives at once, then none: the hazard falls faster than any shape.
   */
  @Test
  void aShapeThatFallsToZeroIsSaid() {
    says(
        "falls to zero",
        Observations.of(
            new Interval(0, 0, 1, 3), new RightCensored(0, 1000, 5), new RightCensored(0, 10, 1)));
  }

  private static void says(String part, Observations lives) {
    NotEstimable none =
        assertInstanceOf(NotEstimable.class, WeibullFitter.fit(lives, DEFAULTS), part);
    assertTrue(none.reason().contains(part), none::reason);
    assertEquals(lives.lives(), none.lives());
  }

  @Test
  void twoLooksAreEnough() {
    // Shares outliving 1 and 2 are 2/3 and 1/3, both met exactly by two parameters.
    Fitted fit =
        fitted(
            Observations.of(
                new Interval(0, 0, 1, 1), new Interval(0, 1, 2, 1), new RightCensored(0, 2, 1)));
    assertEquals(2.0 / 3, fit.weibull().survival(1), 1e-12);
    assertEquals(1.0 / 3, fit.weibull().survival(2), 1e-12);
  }

  /**
   * Looks at age 1 found 5 of 10 failed, at age 2 6 of 10: the fit meets both shares, but "half
   * fail at once and the rest never" is not ruled out, so the shape has no lower limit and the
   * scale none on either side. Shares that outlive an age have limits all the same.
   */
  @Test
  void anUnboundedProfileHasNoLimit() {
    Observations lives =
        Observations.of(
            new Interval(0, 0, 1, 5),
            new RightCensored(0, 1, 5),
            new Interval(0, 0, 2, 6),
            new RightCensored(0, 2, 4));
    Fitted fit = fitted(lives);
    assertEquals(0.5, fit.weibull().survival(1), 1e-12);
    assertEquals(0.4, fit.weibull().survival(2), 1e-12);
    double flat = 11 * Math.log(11.0 / 20) + 9 * Math.log(9.0 / 20);
    assertTrue(fit.logLikelihood() - flat < WeibullFitter.drop(0.9));
    assertEquals(flat, WeibullLikelihood.of(lives).at(Math.log(1e-9)).value(), 1e-8);
    assertEquals(0, fit.shape().lower());
    assertTrue(fit.shape().upper() > 1 && fit.shape().upper() < 10, () -> fit.shape().toString());
    assertEquals(0, fit.scale().lower());
    assertEquals(Double.POSITIVE_INFINITY, fit.scale().upper());
    Estimate survival = WeibullFitter.survival(lives, fit, 1.5).get(0);
    assertTrue(survival.lower() > 0.2 && survival.upper() < 0.8, survival::toString);
    double[] at = {survival.lower(), survival.upper()};
    assertTrue(at[0] < survival.estimate() && survival.estimate() < at[1]);
    // With ten times the lives it is ruled out.
    Observations more = mapped(lives, o -> counted(o, 20 * o.count()));
    assertTrue(fitted(more).shape().lower() > 0);
    assertTrue(fitted(more).scale().upper() < Double.POSITIVE_INFINITY);
  }

  /** Late entry alone leaves the power law t^-1 possible: no lower limit of the shape. */
  @Test
  void lateEntryAloneMayLeaveTheShapeWithoutALowerLimit() {
    Observations lives =
        Observations.of(
            new Exact(10, 10.2, 1),
            new Exact(10, 11, 1),
            new Exact(10, 12.5, 1),
            new RightCensored(10, 13, 3),
            new RightCensored(9, 11, 2));
    Fitted fit = fitted(lives);
    assertEquals(0, fit.shape().lower());
    assertTrue(fit.shape().upper() < 100);
    assertEquals(0, fit.scale().lower());
  }

  @Test
  void noFailureLimitCountsOnlyTimeUnderObservation() {
    Observations whole = Observations.of(new RightCensored(0, 10, 1));
    Observations spans = Observations.of(new RightCensored(0, 4, 1), new RightCensored(4, 10, 1));
    double expected = Math.sqrt(100 / -Math.log(0.1));
    assertEquals(expected, WeibullFitter.scaleLowerLimit(whole, 2, 0.9), 1e-12 * expected);
    assertEquals(expected, WeibullFitter.scaleLowerLimit(spans, 2, 0.9), 1e-12 * expected);
    double late = Math.sqrt((100 - 16) / -Math.log(0.1));
    assertEquals(
        late,
        WeibullFitter.scaleLowerLimit(Observations.of(new RightCensored(4, 10, 1)), 2, 0.9),
        1e-12 * late);
    assertEquals(Double.POSITIVE_INFINITY, WeibullFitter.scaleUpperLimit(whole, 2, 0.9));
    assertEquals(0, WeibullFitter.scaleLowerLimit(Observations.builder().build(), 2, 0.9));
    assertThrows(
        IllegalArgumentException.class, () -> WeibullFitter.scaleLowerLimit(whole, 0, 0.9));
    assertThrows(IllegalArgumentException.class, () -> WeibullFitter.scaleLowerLimit(whole, 2, 1));
  }

  /** A failure in an interval ran to its start for the lower limit, to its end for the upper. */
  @Test
  void anIntervalKeepsALimitOnTheSafeSide() {
    RightCensored survivor = new RightCensored(0, 30, 1);
    Observations looked = Observations.of(new Interval(0, 10, 20, 1), survivor);
    Observations early = Observations.of(new Exact(0, 10, 1), survivor);
    Observations late = Observations.of(new Exact(0, 20, 1), survivor);
    double lower = WeibullFitter.scaleLowerLimit(early, 2, 0.9);
    double upper = WeibullFitter.scaleUpperLimit(late, 2, 0.9);
    assertEquals(lower, WeibullFitter.scaleLowerLimit(looked, 2, 0.9), 1e-12 * lower);
    assertEquals(upper, WeibullFitter.scaleUpperLimit(looked, 2, 0.9), 1e-12 * upper);
    assertTrue(lower < WeibullFitter.scaleLowerLimit(late, 2, 0.9));
  }

  /** The scale's relative variance is 1 / (failures shape²): each failure tells as much. */
  @Test
  void atAStatedShapeTheScalesVarianceIsThatOfItsFailures() {
    Observations lives =
        Observations.of(new Exact(0, 3, 2), new Exact(1, 5, 1), new RightCensored(0, 7, 4));
    Fitted fit = fitted(lives, DEFAULTS.withFixedShape(1.7));
    assertEquals(1 / (3 * 1.7 * 1.7), fit.covariance().scaleScale(), 1e-12);
    assertEquals(0, fit.covariance().scaleShape());
    assertEquals(0, fit.covariance().shapeShape());
    assertEquals(1, fit.proof().smallestCurvature());
  }

  /** Two parameters scaled to unit variance: the eigenvalues are 1 ± their correlation. */
  @Test
  void theProofsCurvatureIsThatOfTheCovariance() {
    for (Observations lives : samples().toList()) {
      Fitted fit = fitted(lives);
      WeibullFit.Covariance c = fit.covariance();
      double correlation = c.scaleShape() / Math.sqrt(c.scaleScale() * c.shapeShape());
      assertEquals(1 - Math.abs(correlation), fit.proof().smallestCurvature(), 1e-9);
    }
  }

  @Test
  void settingsAreChecked() {
    assertThrows(IllegalArgumentException.class, () -> DEFAULTS.withConfidence(95));
    assertThrows(IllegalArgumentException.class, () -> DEFAULTS.withShares(List.of(0.0)));
    assertThrows(IllegalArgumentException.class, () -> DEFAULTS.withFixedShape(Double.NaN));
    assertEquals(DEFAULTS, DEFAULTS.withFixedShape(3).withFreeShape());
  }

  // ---- tools ------------------------------------------------------------------------------------

  /** Lifted limits are profile limits of the confidence whose critical value is the lifted one. */
  @Test
  void liftedLimitsAreProfileLimitsOfMoreConfidence() {
    Observations lives = lives(Reference.example("nelson-generator-fans").get("inputs"));
    FitSettings settings = FitSettings.defaults();
    double critical = Quantiles.chiSquare(settings.confidence(), 1) * (1 + 1.25 / 12);
    double confidence = 1 - Quantiles.chiSquareTail(critical, 1);
    Fitted lifted = fitted(lives, settings.withLimits(LimitMethod.LIFTED));
    Fitted wider = fitted(lives, settings.withConfidence(confidence));
    assertEquals(LimitMethod.LIFTED, lifted.method());
    close(wider.shape().lower(), lifted.shape().lower(), 1e-9);
    close(wider.shape().upper(), lifted.shape().upper(), 1e-9);
    close(wider.scale().upper(), lifted.scale().upper(), 1e-9);
    Estimate one = WeibullFitter.survival(lives, wider, 3000).get(0);
    Estimate other = WeibullFitter.survival(lives, lifted, 3000).get(0);
    close(one.lower(), other.lower(), 1e-9);
    assertThrows(
        IllegalArgumentException.class,
        () -> settings.withFixedShape(2).withLimits(LimitMethod.LIFTED));
  }

  private static void same(Fitted expected, Fitted got, double unit, double relative) {
    assertEquals(expected.failures(), got.failures(), 1e-9);
    close(expected.weibull().shape(), got.weibull().shape(), relative);
    close(expected.weibull().scale() * unit, got.weibull().scale(), relative);
    close(expected.covariance().scaleScale(), got.covariance().scaleScale(), relative * 10);
    close(expected.covariance().shapeShape(), got.covariance().shapeShape(), relative * 10);
    close(expected.shape().lower(), got.shape().lower(), relative);
    close(expected.shape().upper(), got.shape().upper(), relative);
    close(expected.scale().upper() * unit, got.scale().upper(), relative * 10);
    close(
        expected.quantiles().get(0).age().lower() * unit,
        got.quantiles().get(0).age().lower(),
        relative * 100);
  }

  private static void close(double expected, double got, double relative) {
    assertEquals(expected, got, relative * Math.abs(expected));
  }

  private static Observations mapped(Observations lives, UnaryOperator<Observation> map) {
    return Observations.of(lives.asList().stream().map(map).toList());
  }

  private static Observation counted(Observation o, double count) {
    if (o instanceof Exact x) {
      return new Exact(x.entry(), x.age(), count);
    }
    if (o instanceof RightCensored x) {
      return new RightCensored(x.entry(), x.age(), count);
    }
    Interval x = (Interval) o;
    return new Interval(x.entry(), x.lower(), x.upper(), count);
  }

  private static Observation scaled(Observation o, double by) {
    if (o instanceof Exact x) {
      return new Exact(x.entry() * by, x.age() * by, x.count());
    }
    if (o instanceof RightCensored x) {
      return new RightCensored(x.entry() * by, x.age() * by, x.count());
    }
    Interval x = (Interval) o;
    return new Interval(x.entry() * by, x.lower() * by, x.upper() * by, x.count());
  }

  private static Fitted fitted(Observations lives) {
    return fitted(lives, DEFAULTS);
  }

  private static Fitted fitted(Observations lives, FitSettings settings) {
    return assertInstanceOf(Fitted.class, WeibullFitter.fit(lives, settings));
  }
}

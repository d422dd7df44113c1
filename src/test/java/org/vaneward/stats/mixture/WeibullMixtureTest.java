package org.vaneward.stats.mixture;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.SplittableRandom;
import org.apache.commons.math3.distribution.NormalDistribution;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.Observation;
import org.vaneward.stats.Observation.Exact;
import org.vaneward.stats.Observation.Interval;
import org.vaneward.stats.Observation.RightCensored;
import org.vaneward.stats.Observations;
import org.vaneward.stats.Reference;
import org.vaneward.stats.distribution.TwoWeibulls;
import org.vaneward.stats.distribution.Weibull;
import org.vaneward.stats.mixture.MixtureFit.Fitted;
import org.vaneward.stats.mixture.MixtureFit.NotEstimable;

/** Identities, the plain definition of the likelihood, known truths and hard data. */
class WeibullMixtureTest {
  private static final MixtureSettings DEFAULTS = MixtureSettings.defaults();

  private static Fitted fitted(Observations lives) {
    return assertInstanceOf(Fitted.class, WeibullMixture.fit(lives, DEFAULTS));
  }

  private static void refused(String part, Observations lives) {
    NotEstimable none =
        assertInstanceOf(NotEstimable.class, WeibullMixture.fit(lives, DEFAULTS), part);
    assertTrue(none.reason().contains(part), none::reason);
    assertEquals(lives.failures(), none.failures());
  }

  // ---- the likelihood ---------------------------------------------------------------------------

  @Test
  void theLikelihoodIsThePlainDefinition() {
    Observations lives = Lives.mixed(150, 3);
    MixtureLikelihood likelihood = new MixtureLikelihood(Rows.of(lives));
    SplittableRandom random = new SplittableRandom(4);
    for (int i = 0; i < 50; i++) {
      Point p = near(truth(likelihood), random, 0.5);
      double expected = Lives.logLikelihood(lives, p.law(likelihood.rows.centre));
      assertEquals(expected, likelihood.value(p), 1e-9 * Math.abs(expected));
      assertEquals(expected, likelihood.derivatives(p).value, 1e-9 * Math.abs(expected));
    }
  }

  @Test
  void derivativesAreTheDifferences() {
    MixtureLikelihood likelihood = new MixtureLikelihood(Rows.of(Lives.mixed(80, 5)));
    SplittableRandom random = new SplittableRandom(6);
    double h = 1e-5;
    for (int i = 0; i < 20; i++) {
      Point p = near(truth(likelihood), random, 0.5);
      MixtureLikelihood.At at = likelihood.derivatives(p);
      double size = 1 + Math.abs(at.value) + Climb.steepest(at);
      for (int j = 0; j < 5; j++) {
        double[] step = new double[5];
        step[j] = h;
        MixtureLikelihood.At up = likelihood.derivatives(p.plus(step, 1));
        MixtureLikelihood.At down = likelihood.derivatives(p.plus(step, -1));
        assertEquals((up.value - down.value) / (2 * h), at.gradient[j], 1e-7 * size, "" + j);
        for (int k = 0; k < 5; k++) {
          double difference = (up.gradient[k] - down.gradient[k]) / (2 * h);
          assertEquals(difference, at.hessian[j][k], 1e-6 * size, j + " " + k);
        }
      }
    }
  }

  private static Point truth(MixtureLikelihood likelihood) {
    double c = likelihood.rows.centre;
    TwoWeibulls law = Lives.LAW;
    return new Point(
        Math.log(law.share() / (1 - law.share())),
        Math.log(law.first().shape()),
        Math.log(law.first().scale()) - c,
        Math.log(law.second().shape()),
        Math.log(law.second().scale()) - c);
  }

  private static Point near(Point p, SplittableRandom random, double by) {
    double[] step = new double[5];
    for (int j = 0; j < 5; j++) {
      step[j] = random.nextDouble(-by, by);
    }
    return p.plus(step, 1);
  }

  /** A plain EM, run to the end, arrives at the maximum too: late entry and all. */
  @Test
  void theEmStepsLeadToTheSameMaximum() {
    Observations lives = Lives.mixed(150, 7);
    Fitted fit = fitted(lives);
    MixtureLikelihood likelihood = new MixtureLikelihood(Rows.of(lives));
    Point end = new EmStep(likelihood).run(truth(likelihood), 6_000).ordered();
    TwoWeibulls law = end.law(likelihood.rows.centre);
    assertEquals(fit.logLikelihood(), likelihood.value(end), 1e-8);
    assertEquals(fit.law().share(), law.share(), 1e-4);
    assertEquals(fit.law().first().shape(), law.first().shape(), 1e-4);
    assertEquals(fit.law().second().scale(), law.second().scale(), 1);
  }

  // ---- the maximum ------------------------------------------------------------------------------

  @ParameterizedTest
  @ValueSource(longs = {11, 12, 13})
  void nothingNearByIsBetter(long seed) {
    Observations lives = Lives.mixed(200, seed);
    Fitted fit = fitted(lives);
    double top = Lives.logLikelihood(lives, fit.law());
    assertEquals(fit.logLikelihood(), top, 1e-8 * Math.abs(top));
    SplittableRandom random = new SplittableRandom(seed);
    TwoWeibulls law = fit.law();
    for (int i = 0; i < 1000; i++) {
      double by = Math.pow(10, random.nextDouble(-4, -0.5));
      double odds = law.share() / (1 - law.share()) * Math.exp(random.nextDouble(-by, by));
      TwoWeibulls other =
          new TwoWeibulls(
              odds / (1 + odds), moved(law.first(), random, by), moved(law.second(), random, by));
      assertTrue(Lives.logLikelihood(lives, other) <= top + 1e-9 * Math.abs(top), other::toString);
    }
  }

  private static Weibull moved(Weibull law, SplittableRandom random, double by) {
    return new Weibull(
        law.shape() * Math.exp(random.nextDouble(-by, by)),
        law.scale() * Math.exp(random.nextDouble(-by, by)));
  }

  /** Within five standard errors of the truth: by chance one in 350,000 for each of the five. */
  @Test
  void largeSamplesFindTheTruth() {
    Fitted fit = fitted(Lives.mixed(3000, 17));
    TwoWeibulls law = fit.law();
    double[] off = {
      Math.log(law.share() / (1 - law.share()) * 0.7 / 0.3),
      Math.log(law.first().shape() / 0.9),
      Math.log(law.first().scale() / 800),
      Math.log(law.second().shape() / 4),
      Math.log(law.second().scale() / 5000)
    };
    for (int i = 0; i < 5; i++) {
      assertEquals(0, off[i], 5 * Math.sqrt(fit.covariance().get(i).get(i)), "parameter " + i);
      assertTrue(Math.sqrt(fit.covariance().get(i).get(i)) < 0.2);
    }
    assertTrue(fit.share().lower() < law.share() && law.share() < fit.share().upper());
    assertTrue(fit.ratio().bicGain() > 100);
  }

  // ---- identities -------------------------------------------------------------------------------

  @ParameterizedTest
  @ValueSource(doubles = {1e-9, 1.0 / 24, 3600, 1e12})
  void theUnitOfAgeChangesTheScalesOnly(double unit) {
    Observations lives = Lives.mixed(200, 21);
    Observations other =
        Observations.of(lives.asList().stream().map(o -> Lives.scaled(o, unit)).toList());
    Fitted a = fitted(lives);
    Fitted b = fitted(other);
    assertEquals(a.law().share(), b.law().share(), 1e-8);
    assertEquals(a.law().first().shape(), b.law().first().shape(), 1e-8);
    assertEquals(a.law().second().shape(), b.law().second().shape(), 1e-7);
    close(a.law().first().scale() * unit, b.law().first().scale());
    close(a.law().second().scale() * unit, b.law().second().scale());
    close(a.second().scale().upper() * unit, b.second().scale().upper());
    assertEquals(a.ratio().statistic(), b.ratio().statistic(), 1e-7);
    double exact = 0;
    for (int i = 0; i < lives.size(); i++) {
      exact += lives.isExact(i) ? lives.count(i) : 0;
    }
    assertEquals(a.logLikelihood() - exact * Math.log(unit), b.logLikelihood(), 1e-6);
  }

  private static void close(double expected, double got) {
    assertEquals(expected, got, 1e-7 * expected);
  }

  @Test
  void orderDoesNotMatter() {
    List<Observation> lives = new ArrayList<>(Lives.mixed(200, 22).asList());
    Fitted a = fitted(Observations.of(lives));
    Collections.shuffle(lives, new Random(5));
    Fitted b = fitted(Observations.of(lives));
    assertEquals(a.law(), b.law());
    assertEquals(a.covariance(), b.covariance());
  }

  @Test
  void countsAreRepeatedRows() {
    Observations once = Lives.mixed(60, 23);
    Observations.Builder counted = Observations.builder();
    Observations.Builder repeated = Observations.builder();
    for (Observation o : once.asList()) {
      counted.add(times(o, 4));
      for (int k = 0; k < 4; k++) {
        repeated.add(o);
      }
    }
    Fitted a = fitted(counted.build());
    Fitted b = fitted(repeated.build());
    assertEquals(a.law().share(), b.law().share(), 1e-9);
    assertEquals(a.law().second().shape(), b.law().second().shape(), 1e-8);
    assertEquals(a.logLikelihood(), b.logLikelihood(), 1e-8);
    assertEquals(a.bic(), b.bic(), 1e-8);
  }

  private static Observation times(Observation o, double n) {
    if (o instanceof Exact x) {
      return new Exact(x.entry(), x.age(), n);
    }
    if (o instanceof RightCensored x) {
      return new RightCensored(x.entry(), x.age(), n);
    }
    Interval x = (Interval) o;
    return new Interval(x.entry(), x.lower(), x.upper(), n);
  }

  @Test
  void membershipsAddUpToTheFailuresOfTheComponents() {
    Observations lives = Lives.mixed(300, 24);
    Fitted fit = fitted(lives);
    double[] chances = WeibullMixture.memberships(lives, fit.law());
    double first = 0;
    for (int i = 0; i < chances.length; i++) {
      assertTrue(chances[i] >= 0 && chances[i] <= 1);
      first += lives.isRightCensored(i) ? 0 : chances[i];
    }
    assertEquals(first, fit.first().failures(), 1e-9 * lives.size());
    assertEquals(fit.failures(), fit.first().failures() + fit.second().failures(), 1e-9);
  }

  @Test
  void standardErrorsAreThoseOfTheDifferences() {
    Observations lives = Lives.mixed(300, 25);
    Fitted fit = fitted(lives);
    double b = fit.law().second().shape();
    double se = Math.sqrt(fit.covariance().get(3).get(3));
    assertEquals(b * Math.exp(1.6448536269514722 * se), fit.second().shape().upper(), 1e-9 * b);
    assertTrue(fit.proof().gradientNorm() < 1e-8 && fit.proof().newtonStep() < 1e-9);
  }

  /** Limits are symmetric in log odds and in logs; the normal law is that of Commons Math 3.6.1. */
  @Test
  void limitsAndCriteriaAreThoseOfTheirDefinitions() {
    Observations lives = Lives.mixed(300, 25);
    Fitted fit =
        assertInstanceOf(Fitted.class, WeibullMixture.fit(lives, DEFAULTS.withConfidence(0.8)));
    double z = new NormalDistribution().inverseCumulativeProbability(0.9);
    double odds = fit.law().share() / (1 - fit.law().share());
    double byShare = Math.exp(z * Math.sqrt(fit.covariance().get(0).get(0)));
    assertEquals(odds / byShare / (1 + odds / byShare), fit.share().lower(), 1e-9);
    assertEquals(odds * byShare / (1 + odds * byShare), fit.share().upper(), 1e-9);
    limited(fit.law().first().shape(), z, fit.covariance().get(1).get(1), fit.first().shape());
    limited(fit.law().first().scale(), z, fit.covariance().get(2).get(2), fit.first().scale());
    limited(fit.law().second().shape(), z, fit.covariance().get(3).get(3), fit.second().shape());
    limited(fit.law().second().scale(), z, fit.covariance().get(4).get(4), fit.second().scale());
    double gain = 2 * (fit.logLikelihood() - fit.single().logLikelihood());
    assertEquals(gain, fit.ratio().statistic(), 1e-9);
    assertEquals(fit.single().aic() - fit.aic(), fit.ratio().aicGain(), 1e-9);
    assertEquals(gain - 3 * Math.log(300), fit.ratio().bicGain(), 1e-9);
    assertEquals(10 - 2 * fit.logLikelihood(), fit.aic(), 1e-9);
    assertEquals(fit.aic() + 60 / 294.0, fit.aicc().orElseThrow(), 1e-9);
    assertEquals(5 * Math.log(300) - 2 * fit.logLikelihood(), fit.bic(), 1e-9);
  }

  private static void limited(double estimate, double z, double variance, Estimate got) {
    double factor = Math.exp(z * Math.sqrt(variance));
    assertEquals(estimate, got.estimate(), 1e-9 * estimate);
    assertEquals(estimate / factor, got.lower(), 1e-9 * estimate);
    assertEquals(estimate * factor, got.upper(), 1e-9 * estimate);
  }

  /** Every start ends somewhere, and is told as one thing. */
  @Test
  void startsAddUp() {
    Fitted fit = fitted(Lives.mixed(150, 7));
    MixtureFit.Starts starts = fit.starts();
    assertTrue(starts.reachedBest() > 0);
    assertTrue(
        starts.otherMaxima() >= 0
            && starts.closed() >= 0
            && starts.elsewhere() >= 0
            && starts.elsewhere() < starts.starts());
    assertEquals(
        starts.starts(),
        starts.reachedBest() + starts.otherMaxima() + starts.closed() + starts.elsewhere());
    Fitted more =
        assertInstanceOf(
            Fitted.class,
            WeibullMixture.fit(
                Lives.mixed(150, 7), DEFAULTS.withRandomStarts(DEFAULTS.randomStarts() + 7)));
    assertEquals(starts.starts() + 7, more.starts().starts());
    assertEquals(fit.logLikelihood(), more.logLikelihood(), 1e-7);
  }

  /** Kish's effective number of failure ages, with the memberships as weights. */
  @Test
  void effectiveNumberOfAges() {
    Observations.Builder builder = Observations.builder();
    builder.addFailure(0, 900, 1).addFailure(100, 900, 3).addFailure(0, 2000, 2);
    builder.add(new Interval(0, 4000, 5000, 1)).add(new Interval(0, 4000, 4500, 2));
    builder.addFailure(0, 5200, 1).addRightCensored(0, 700, 9);
    Observations lives = builder.build();
    MixtureLikelihood likelihood = new MixtureLikelihood(Rows.of(lives));
    Point p = truth(likelihood);
    double[] chances = WeibullMixture.memberships(lives, Lives.LAW);
    for (boolean first : new boolean[] {true, false}) {
      Map<String, Double> byAge = new HashMap<>();
      double sum = 0;
      for (int i = 0; i < lives.size(); i++) {
        if (!lives.isRightCensored(i)) {
          double weight = lives.count(i) * (first ? chances[i] : 1 - chances[i]);
          byAge.merge(lives.lower(i) + " " + lives.upper(i), weight, Double::sum);
          sum += weight;
        }
      }
      double squares = byAge.values().stream().mapToDouble(w -> w * w).sum();
      assertEquals(sum * sum / squares, likelihood.distinctAges(p, first), 1e-9);
    }
  }

  /** Intervals from wide to so narrow that series take over: values and derivatives. */
  @ParameterizedTest
  @ValueSource(doubles = {1.5, 1e-2, 1e-3, 1e-5, 1e-9})
  void narrowIntervals(double width) {
    Observations.Builder builder = Observations.builder();
    for (double age : new double[] {300, 900, 3000, 5200}) {
      builder.add(new Interval(0, age, age * (1 + width), 1));
    }
    Observations lives = builder.build();
    MixtureLikelihood likelihood = new MixtureLikelihood(Rows.of(lives));
    Point p = truth(likelihood);
    MixtureLikelihood.At at = likelihood.derivatives(p);
    double expected = 0;
    for (double age : new double[] {300, 900, 3000, 5200}) {
      // Simpson's rule in log age, over the density
      double h = Math.log1p((age * (1 + width) - age) / age) / 400;
      double sum = 0;
      for (int k = 0; k <= 400; k++) {
        double t = age * Math.exp(k * h);
        double weight = k == 0 || k == 400 ? 1 : 2 + 2 * (k % 2);
        sum += weight * t * Math.exp(Lives.LAW.logDensity(t));
      }
      expected += Math.log(sum * h / 3);
    }
    assertEquals(expected, at.value, 1e-8);
    double step = 1e-5;
    for (int j = 0; j < 5; j++) {
      double[] by = new double[5];
      by[j] = step;
      MixtureLikelihood.At up = likelihood.derivatives(p.plus(by, 1));
      MixtureLikelihood.At down = likelihood.derivatives(p.plus(by, -1));
      assertEquals(
          (up.value - down.value) / (2 * step),
          at.gradient[j],
          1e-6 * (1 + Math.abs(at.gradient[j])));
      for (int k = 0; k < 5; k++) {
        assertEquals(
            (up.gradient[k] - down.gradient[k]) / (2 * step),
            at.hessian[j][k],
            1e-5 * (1 + Math.abs(at.hessian[j][k])));
      }
    }
  }

  // ---- where there is nothing to find -----------------------------------------------------------

  @Test
  void plainReasons() {
    refused("no failures", Observations.of(Observation.rightCensoredAt(5)));
    refused("not even one Weibull", Observations.builder().build());
    refused("not even one Weibull", Observations.of(new Exact(0, 500, 30)));
    refused("fewer than 10 failures", Lives.failures(10, 20));
    refused("fewer than 10 failures", Lives.failures(1, 2, 3, 4, 50, 60, 70, 80, 90));
  }

  /** Twenty failures at one age and a few others: the likelihood closes on the twenty. */
  @Test
  void manyFailuresAtOneAgeAreNoComponent() {
    Observations.Builder lives = Observations.builder().addFailure(0, 1000, 20);
    for (double age : new double[] {200, 450, 700, 950, 1300, 1500, 1900, 2400}) {
      lives.addFailure(0, age, 1);
    }
    refused("closes on one failure", lives.build());
  }

  /** Lives of one Weibull: a second component is either a spike or not worth its parameters. */
  @Test
  void oneWeibullIsSeldomTwo() {
    int mixtures = 0;
    for (int seed = 1; seed <= 20; seed++) {
      MixtureFit fit =
          WeibullMixture.fit(Lives.single(new Weibull(2, 1000), 60, 1500, seed), DEFAULTS);
      if (fit instanceof Fitted f) {
        mixtures += f.ratio().bicGain() > 0 ? 1 : 0;
        assertTrue(f.first().failures() >= 3 && f.second().failures() >= 3);
      }
    }
    assertTrue(mixtures <= 2, "mixtures by BIC: " + mixtures);
  }

  /** A bad lot fails early and nothing else does: the second scale has no upper end. */
  @Test
  void aShareThatNeverFailsIsSaid() {
    Observations.Builder lives = Observations.builder().addRightCensored(0, 9000, 180);
    for (int i = 0; i < 20; i++) {
      lives.addFailure(0, new Weibull(3, 800).quantile((i + 0.5) / 20), 1);
    }
    refused("never fails", lives.build());
  }

  /** All failures of one kind in one interval: where in it they lie is anyone's guess. */
  @Test
  void wideIntervalsLeaveAFlatLikelihood() {
    Observations.Builder lives = Observations.builder();
    for (int i = 0; i < 6; i++) {
      lives.add(new Interval(0, 0, 100, 1));
      lives.add(new Interval(0, 4000 + 300 * i, 5500 + 400 * i, 2));
    }
    NotEstimable none =
        assertInstanceOf(NotEstimable.class, WeibullMixture.fit(lives.build(), DEFAULTS));
    assertTrue(none.reason().contains("flat") || none.reason().contains("closes"), none::reason);
  }

  @Test
  void agesOverTwelveOrdersOfMagnitude() {
    SplittableRandom random = new SplittableRandom(31);
    Observations.Builder lives = Observations.builder();
    for (int i = 0; i < 200; i++) {
      Weibull law = i % 2 == 0 ? new Weibull(1.2, 1e-5) : new Weibull(0.7, 1e7);
      lives.addFailure(0, law.quantile(random.nextDouble(1e-9, 1)), 1);
    }
    Fitted fit = fitted(lives.build());
    assertEquals(0.5, fit.law().share(), 1e-3);
    assertEquals(1.2, fit.law().first().shape(), 0.5);
    assertEquals(0.7, fit.law().second().shape(), 0.3);
    assertEquals(1, fit.law().second().scale() / 1e7, 0.6);
  }

  /** Whatever comes in, out comes a checked maximum or a reason. */
  @Test
  void anyLivesGiveAProvenFitOrAReason() {
    SplittableRandom random = new SplittableRandom(20260202);
    int fits = 0;
    int reasons = 0;
    for (int i = 0; i < 60; i++) {
      Observations lives = hard(random);
      MixtureFit fit = WeibullMixture.fit(lives, DEFAULTS.withRandomStarts(4));
      if (fit instanceof Fitted f) {
        fits++;
        assertTrue(f.logLikelihood() > f.single().logLikelihood());
        assertTrue(f.law().first().scale() <= f.law().second().scale());
        assertTrue(f.proof().gradientNorm() <= 1e-8 && f.proof().smallestCurvature() > 0);
        assertTrue(f.starts().reachedBest() >= 1);
        double q = f.law().quantile(0.1);
        assertEquals(0.1, f.law().failed(q), 1e-9);
      } else if (fit instanceof NotEstimable none) {
        reasons++;
        assertTrue(none.reason().length() > 10, none::reason);
        assertTrue(!none.reason().contains("could be proved"), none::reason);
      }
    }
    assertEquals(60, fits + reasons);
    assertTrue(fits > 10 && reasons > 10, fits + " fits");
  }

  private static Observations hard(SplittableRandom random) {
    double shape = Math.exp(random.nextDouble(Math.log(0.3), Math.log(20)));
    Weibull late = new Weibull(shape, Math.pow(10, random.nextDouble(-4, 4)));
    Weibull early = new Weibull(shape / 2, late.scale() / random.nextDouble(1, 30));
    double share = random.nextDouble();
    double censored = random.nextDouble(0, 0.9);
    boolean coarse = random.nextBoolean();
    double looked = random.nextBoolean() ? 0 : random.nextDouble();
    int n = 10 + (int) Math.pow(10, random.nextDouble(0, 2.3));
    Observations.Builder lives = Observations.builder();
    for (int i = 0; i < n; i++) {
      double age =
          (random.nextDouble() < share ? early : late).quantile(random.nextDouble(1e-9, 1));
      age = coarse ? late.scale() / 5 * Math.ceil(5 * age / late.scale()) : age;
      double entry = random.nextInt(4) == 0 ? age * random.nextDouble() : 0;
      if (random.nextDouble() < censored) {
        lives.addRightCensored(entry, entry + (age - entry) * random.nextDouble(1e-3, 1), 1);
      } else if (random.nextDouble() < looked) {
        lives.add(new Interval(entry, entry, age * (1 + random.nextDouble(0.01, 1)), 1));
      } else {
        lives.addFailure(entry, age, 1);
      }
    }
    return lives.build();
  }

  // ---- the test against one Weibull
  // ---------------------------------------------------------------

  @Test
  @Tag("long")
  void theBootstrapTellsTwoFromOne() {
    Observations two = Reference.cases("mixture").get(0).lives();
    MixtureSettings settings = DEFAULTS.withRandomStarts(2).withBootstrap(19);
    Fitted fit = assertInstanceOf(Fitted.class, WeibullMixture.fit(two, settings));
    assertEquals(0.05, fit.ratio().bootstrap().orElseThrow().p(), 1e-12);
    assertEquals(fit, WeibullMixture.fit(two, settings));
    Observations one = Lives.single(new Weibull(2, 1000), 60, 1500, 2);
    MixtureSettings plain = settings.withBootstrap(39);
    for (int seed = 1; seed < 20; seed++) {
      one = Lives.single(new Weibull(2, 1000), 60, 1500, seed);
      if (WeibullMixture.fit(one, DEFAULTS) instanceof Fitted) {
        break;
      }
    }
    Fitted spurious = assertInstanceOf(Fitted.class, WeibullMixture.fit(one, plain));
    assertTrue(spurious.ratio().bootstrap().orElseThrow().p() > 0.05);
  }

  @Test
  void partsOfALifeHaveNoBootstrap() {
    Observations.Builder lives = Observations.builder().addRightCensored(0, 4000, 1.5);
    Lives.mixed(200, 41).asList().forEach(lives::add);
    MixtureFit fit = WeibullMixture.fit(lives.build(), DEFAULTS.withBootstrap(5));
    assertTrue(assertInstanceOf(Fitted.class, fit).ratio().bootstrap().isEmpty());
  }

  @Test
  void settingsAreChecked() {
    assertThrows(IllegalArgumentException.class, () -> DEFAULTS.withConfidence(1));
    assertThrows(IllegalArgumentException.class, () -> DEFAULTS.withRandomStarts(-1));
    assertThrows(IllegalArgumentException.class, () -> DEFAULTS.withBootstrap(-1));
    assertThrows(IllegalArgumentException.class, () -> DEFAULTS.withLeast(4, 3));
    assertThrows(IllegalArgumentException.class, () -> DEFAULTS.withLeast(10, Double.NaN));
    assertEquals(7, DEFAULTS.withSeed(7).seed());
  }
}

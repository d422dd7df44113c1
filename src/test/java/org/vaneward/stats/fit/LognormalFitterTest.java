package org.vaneward.stats.fit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.Observation;
import org.vaneward.stats.Observation.Exact;
import org.vaneward.stats.Observation.Interval;
import org.vaneward.stats.Observation.RightCensored;
import org.vaneward.stats.Observations;
import org.vaneward.stats.Reference;
import org.vaneward.stats.Reference.Case;
import org.vaneward.stats.distribution.Family;
import org.vaneward.stats.distribution.Lognormal;
import org.vaneward.stats.fit.LifeFit.Fitted;
import org.vaneward.stats.fit.LifeFit.NotEstimable;
import org.vaneward.stats.fit.WeibullFit.LimitMethod;
import org.vaneward.stats.fit.WeibullLikelihood.Derivatives;

class LognormalFitterTest {
  /** All kinds: narrow, wide and left-censored intervals, entries, counts. */
  private static final List<Observation> MIXED =
      List.of(
          new Exact(0, 900, 1),
          new Exact(0, 1500, 2),
          new Exact(400, 1200, 1),
          new RightCensored(0, 2000, 3),
          new RightCensored(800, 1700, 1),
          new Interval(0, 0, 600, 1),
          new Interval(0, 500, 501, 1),
          new Interval(0, 700, 1900, 1),
          new Interval(300, 300, 800, 1),
          new Interval(650, 1100, 2600, 2),
          new Interval(650, 2500, 2500.01, 1));

  @ParameterizedTest
  @CsvSource({
    "0, 0",
    "0.3, 1",
    "-2, 0.5",
    "3, 1.5",
    "-7, -1",
    "7, 0.2",
    "-40, -2",
    "-300, -3",
    "25, 2"
  })
  void derivativesAreThoseOfTheValue(double k, double logShape) {
    LognormalLikelihood likelihood = LognormalLikelihood.of(Observations.of(MIXED));
    Derivatives d = at(likelihood, k, logShape);
    double h = 1e-4;
    Derivatives left = at(likelihood, k - h, logShape);
    Derivatives right = at(likelihood, k + h, logShape);
    close(d.k(), (right.value() - left.value()) / (2 * h), "k", d.value());
    close(d.kk(), (right.k() - left.k()) / (2 * h), "kk", d.k());
    close(d.ks(), (right.s() - left.s()) / (2 * h), "ks", d.s());
    Derivatives below = at(likelihood, k, logShape - h);
    Derivatives above = at(likelihood, k, logShape + h);
    close(d.s(), (above.value() - below.value()) / (2 * h), "s", d.value());
    close(d.ss(), (above.s() - below.s()) / (2 * h), "ss", d.s());
    close(d.ks(), (above.k() - below.k()) / (2 * h), "sk", d.k());
    assertTrue(d.kk() < 0);
  }

  private static Derivatives at(LognormalLikelihood likelihood, double k, double logShape) {
    return likelihood.slice(logShape).derivatives(k);
  }

  private static void close(double expected, double got, String what, double size) {
    assertEquals(expected, got, 3e-6 * (1 + Math.abs(expected)) + 1e-10 * Math.abs(size), what);
  }

  /** Away from the peak, too, where a term of the wrong sign does not vanish. */
  @ParameterizedTest
  @CsvSource({"0.3, 1", "-2, 0.5", "3, 1.5"})
  void theProofLooksAtTheGradientInLocationAndSpread(double k, double logShape) {
    LognormalLikelihood likelihood = LognormalLikelihood.of(Observations.of(MIXED));
    double spread = Math.exp(-logShape);
    double location = k * spread;
    double h = 1e-5;
    double[] gradient = LognormalFitter.gradient(at(likelihood, k, logShape), k);
    double inLocation =
        (value(likelihood, location + h * spread, spread)
                - value(likelihood, location - h * spread, spread))
            / (2 * h);
    double inSpread =
        (value(likelihood, location, spread * Math.exp(h))
                - value(likelihood, location, spread * Math.exp(-h)))
            / (2 * h);
    assertEquals(inLocation, gradient[0], 1e-6 * (1 + Math.abs(inLocation)));
    assertEquals(inSpread, gradient[1], 1e-6 * (1 + Math.abs(inSpread)));
  }

  private static double value(LognormalLikelihood likelihood, double location, double spread) {
    return at(likelihood, location / spread, -Math.log(spread)).value();
  }

  /** A complete sample: mean and root mean square of the logs. */
  @Test
  void completeSampleInClosedForm() {
    Observations lives =
        Observations.builder()
            .addFailure(0, 10, 1)
            .addFailure(0, 100, 1)
            .addFailure(0, 1e5, 1)
            .build();
    Fitted fit = fitted(lives, FitSettings.defaults().withLimits(LimitMethod.WALD));
    Lognormal law = (Lognormal) fit.distribution();
    double ten = Math.log(10);
    assertEquals(8 * ten / 3, law.location(), 1e-13);
    double spread = ten * Math.sqrt(26) / 3;
    assertEquals(spread, law.spread(), 1e-13);
    assertEquals(spread * spread / 3, fit.covariance()[0][0], 1e-12);
    assertEquals(0, fit.covariance()[0][1], 1e-12);
    assertEquals(1.0 / 6, fit.covariance()[1][1], 1e-13);
    double half = 1.6448536269514722 * Math.sqrt(spread * spread / 3 + Math.pow(spread, 4) / 6);
    assertEquals(Math.exp(law.location() + spread * spread / 2), fit.mean().estimate(), 1e-6);
    assertEquals(Math.exp(half), fit.mean().upper() / fit.mean().estimate(), 1e-9 * Math.exp(half));
  }

  @Test
  void aNarrowIntervalIsNearlyAnExactLife() {
    List<Observation> exact = new ArrayList<>();
    List<Observation> narrow = new ArrayList<>();
    double widths = 0;
    for (double age : new double[] {300, 500, 900, 1400}) {
      exact.add(new Exact(100, age, 1));
      double half = age * 1e-7;
      narrow.add(new Interval(100, age - half, age + half, 1));
      widths += Math.log(2 * half);
    }
    Fitted one = fitted(Observations.of(exact), FitSettings.defaults());
    Fitted other = fitted(Observations.of(narrow), FitSettings.defaults());
    assertEquals(one.logLikelihood() + widths, other.logLikelihood(), 1e-8);
    one.parameters()
        .forEach(
            (name, e) -> {
              Estimate got = other.parameter(name);
              assertEquals(e.estimate(), got.estimate(), 1e-7 * Math.abs(e.estimate()));
              assertEquals(e.lower(), got.lower(), 1e-6 * Math.abs(e.lower()));
            });
  }

  @Test
  void countsAreRepeatedRowsOrderDoesNotMatterSpansCanBeSplit() {
    Fitted whole = fitted(Observations.of(MIXED), FitSettings.defaults());
    List<Observation> rows = new ArrayList<>();
    for (Observation o : MIXED) {
      for (int i = 0; i < o.count(); i++) {
        if (o instanceof Exact e) {
          rows.add(new Exact(e.entry(), e.age(), 1));
        } else if (o instanceof RightCensored r) {
          double cut = (r.entry() + r.age()) / 2;
          rows.add(new RightCensored(r.entry(), cut, 1));
          rows.add(new RightCensored(cut, r.age(), 1));
        } else if (o instanceof Interval in) {
          rows.add(new Interval(in.entry(), in.lower(), in.upper(), 1));
        }
      }
    }
    Collections.shuffle(rows, new Random(3));
    Fitted split = fitted(Observations.of(rows), FitSettings.defaults());
    assertEquals(whole.logLikelihood(), split.logLikelihood(), 1e-10);
    near(whole.parameter("location"), split.parameter("location"), 1);
    near(whole.parameter("spread"), split.parameter("spread"), 1);
    near(whole.mean(), split.mean(), 1);
  }

  @Test
  void theUnitOfAgeDoesNotMatter() {
    Fitted hours = fitted(Observations.of(MIXED), FitSettings.defaults());
    double unit = 1 / 8766.0;
    List<Observation> scaled = new ArrayList<>();
    for (Observation o : MIXED) {
      if (o instanceof Exact e) {
        scaled.add(new Exact(e.entry() * unit, e.age() * unit, e.count()));
      } else if (o instanceof RightCensored r) {
        scaled.add(new RightCensored(r.entry() * unit, r.age() * unit, r.count()));
      } else if (o instanceof Interval in) {
        scaled.add(
            new Interval(in.entry() * unit, in.lower() * unit, in.upper() * unit, in.count()));
      }
    }
    Fitted years = fitted(Observations.of(scaled), FitSettings.defaults());
    near(hours.parameter("spread"), years.parameter("spread"), 1);
    near(hours.mean(), years.mean(), unit);
    for (int i = 0; i < hours.quantiles().size(); i++) {
      near(hours.quantiles().get(i).age(), years.quantiles().get(i).age(), unit);
    }
  }

  private static void near(Estimate expected, Estimate got, double unit) {
    assertEquals(expected.estimate() * unit, got.estimate(), 1e-9 * got.estimate());
    assertEquals(expected.lower() * unit, got.lower(), 1e-8 * got.lower());
    assertEquals(expected.upper() * unit, got.upper(), 1e-8 * got.upper());
  }

  @Test
  void limitsDropByTheRightAmount() {
    Observations lives = Observations.of(MIXED);
    HardFamiliesTest.limitsDropByTheRightAmount(
        fitted(lives, FitSettings.defaults()), lives, "lives of all kinds");
  }

  /** Two parameters scaled to unit variance: the eigenvalues are 1 ± their correlation. */
  @Test
  void theProofsCurvatureIsThatOfTheCovariance() {
    Fitted fit = fitted(Observations.of(MIXED), FitSettings.defaults());
    double[][] c = fit.covariance();
    double correlation = c[0][1] / Math.sqrt(c[0][0] * c[1][1]);
    assertTrue(Math.abs(correlation) > 0.01, "correlation " + correlation);
    assertEquals(1 - Math.abs(correlation), fit.proof().smallestCurvature(), 1e-9);
  }

  @Test
  void plainReasons() {
    says("no failures", Observations.of(Observation.rightCensoredAt(5)));
    says(
        "one failure, at the greatest age",
        Observations.of(Observation.failedAt(5), Observation.rightCensoredAt(3)));
    says(
        "all failures at one age and nothing ran longer",
        Observations.of(new Exact(2, 5, 4), new RightCensored(1, 3, 1)));
    says("one look", Observations.of(new Interval(0, 0, 9, 3), new RightCensored(0, 9, 4)));
    says("may have come at one age", Observations.of(new Interval(0, 50, 100, 5)));
    says(
        "may have come at one age",
        Observations.of(
            new Interval(0, 10, 1000, 5),
            new Interval(0, 900, 1200, 1),
            new RightCensored(30, 890, 2)));
  }

  private static void says(String part, Observations lives) {
    LifeFit fit = LifeFits.fit(Family.LOGNORMAL, lives, FitSettings.defaults());
    String reason = assertInstanceOf(NotEstimable.class, fit, part).reason();
    assertTrue(reason.contains(part), reason);
  }

  static Stream<Case> notEstimable() {
    return Reference.cases("not_estimable").stream();
  }

  /** On these constructed lives a lognormal maximum exists exactly where a Weibull one does. */
  @ParameterizedTest
  @MethodSource("notEstimable")
  void refusesWhereThereIsNoMaximum(Case c) {
    LifeFit fit = LifeFits.fit(Family.LOGNORMAL, c.lives(), FitSettings.defaults());
    if (c.expected().get("finite_maximum").asBoolean()) {
      assertInstanceOf(Fitted.class, fit, c::name);
    } else {
      NotEstimable none = assertInstanceOf(NotEstimable.class, fit, c::name);
      assertTrue(none.reason().length() > 10, none::reason);
    }
  }

  /** Truncated at entry, logs more spread than an exponential's: the power law is the limit. */
  @Test
  void lateEntriesWithALongTailHaveNoMaximum() {
    Observations.Builder lives = Observations.builder();
    for (double excess : new double[] {0.01, 0.02, 0.03, 0.05, 0.1, 3, 4}) {
      lives.addFailure(100, 100 * Math.exp(excess), 1);
    }
    LifeFit fit = LifeFits.fit(Family.LOGNORMAL, lives.build(), FitSettings.defaults());
    assertTrue(assertInstanceOf(NotEstimable.class, fit).reason().contains("spread grows"));
    Observations.Builder even = Observations.builder();
    for (double excess : new double[] {0.8, 0.9, 1, 1.1, 1.3, 1.5, 1.9}) {
      even.addFailure(100, 100 * Math.exp(excess), 1);
    }
    assertInstanceOf(
        Fitted.class, LifeFits.fit(Family.LOGNORMAL, even.build(), FitSettings.defaults()));
  }

  @Test
  void noLifeThatRan() {
    Observations lives = Observations.of(Observation.failedBetween(0, 10));
    assertEquals(
        Reasons.NO_EXPOSURE,
        assertInstanceOf(
                NotEstimable.class, LifeFits.fit(Family.LOGNORMAL, lives, FitSettings.defaults()))
            .reason());
  }

  @Test
  void aStatedShapeIsForWeibullOnly() {
    FitSettings stated = FitSettings.defaults().withFixedShape(2);
    Observations lives = Observations.of(MIXED);
    IllegalArgumentException refused =
        assertThrows(
            IllegalArgumentException.class, () -> LifeFits.fit(Family.LOGNORMAL, lives, stated));
    assertTrue(refused.toString().contains("2.0"), refused::toString);
    assertThrows(
        IllegalArgumentException.class, () -> LifeFits.fit(Family.EXPONENTIAL, lives, stated));
    assertInstanceOf(Fitted.class, LifeFits.fit(Family.WEIBULL, lives, stated));
  }

  @Test
  void liftedLimitsAreForWeibullOnly() {
    FitSettings lifted = FitSettings.defaults().withLimits(LimitMethod.LIFTED);
    Observations lives = Observations.of(MIXED);
    for (Family family : List.of(Family.LOGNORMAL, Family.EXPONENTIAL)) {
      String said =
          assertThrows(IllegalArgumentException.class, () -> LifeFits.fit(family, lives, lifted))
              .toString();
      assertTrue(said.contains(family.word()), said);
    }
  }

  private static Fitted fitted(Observations lives, FitSettings settings) {
    return assertInstanceOf(Fitted.class, LifeFits.fit(Family.LOGNORMAL, lives, settings));
  }
}

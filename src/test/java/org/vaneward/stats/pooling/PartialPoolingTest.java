package org.vaneward.stats.pooling;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.simple.RandomSource;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.Observation;
import org.vaneward.stats.Observations;
import org.vaneward.stats.distribution.Weibull;
import org.vaneward.stats.fit.FitSettings;
import org.vaneward.stats.fit.WeibullFit;
import org.vaneward.stats.fit.WeibullFitter;
import org.vaneward.stats.pooling.PooledFit.Fitted;
import org.vaneward.stats.pooling.PooledFit.Group;
import org.vaneward.stats.pooling.PooledFit.NotEstimable;
import org.vaneward.stats.pooling.PoolingSettings.Priors;

class PartialPoolingTest {
  private static final PoolingSettings SETTINGS = PoolingSettings.defaults();

  private static Fitted fitted(List<Observations> groups, PoolingSettings settings) {
    return assertInstanceOf(Fitted.class, PartialPooling.fit(groups, settings));
  }

  private static Fitted fitted(List<Observations> groups) {
    return fitted(groups, SETTINGS);
  }

  private static String refused(List<Observations> groups) {
    return assertInstanceOf(NotEstimable.class, PartialPooling.fit(groups, SETTINGS)).reason();
  }

  /** A group of lives, about half of them censored when {@code cut} is the scale. */
  static Observations drawn(
      UniformRandomProvider rng, int lives, double shape, double scale, double cut) {
    Observations.Builder group = Observations.builder();
    for (int i = 0; i < lives; i++) {
      double age = scale * Math.pow(-Math.log(1 - rng.nextDouble()), 1 / shape);
      double end = cut * (0.3 + 1.2 * rng.nextDouble());
      if (age <= end) {
        group.addFailure(0, age, 1);
      } else {
        group.addRightCensored(0, end, 1);
      }
    }
    return group.build();
  }

  private static List<Observations> fleet(int groups, int lives) {
    UniformRandomProvider rng = RandomSource.L64_X128_MIX.create(77);
    List<Observations> fleet = new ArrayList<>();
    for (int s = 0; s < groups; s++) {
      fleet.add(drawn(rng, lives, 2, 1000 * (0.6 + 0.2 * (s % 5)), 1000));
    }
    return fleet;
  }

  private static Observations survivors(double... ages) {
    return Observations.of(Arrays.stream(ages).mapToObj(Observation::rightCensoredAt).toList());
  }

  private static Observations changed(Observations lives, double factor, int times) {
    List<Observation> rows = new ArrayList<>();
    for (int i = 0; i < lives.size(); i++) {
      double lower = lives.lower(i) * factor;
      for (int k = 0; k < times; k++) {
        rows.add(
            lives.isExact(i)
                ? new Observation.Exact(0, lower, lives.count(i))
                : new Observation.RightCensored(0, lower, lives.count(i)));
      }
    }
    return Observations.of(rows);
  }

  private static void near(Estimate expected, Estimate got, double relative) {
    assertEquals(1, got.estimate() / expected.estimate(), relative);
    assertEquals(1, got.lower() / expected.lower(), relative);
    assertEquals(1, got.upper() / expected.upper(), relative);
  }

  @Test
  void theUnitOfAgeOnlyMovesTheScales() {
    List<Observations> fleet = fleet(4, 9);
    Fitted hours = fitted(fleet);
    for (double factor : new double[] {1e-9, 1 / 24.0, 3600}) {
      Fitted other = fitted(fleet.stream().map(g -> changed(g, factor, 1)).toList());
      double failures = hours.groups().stream().mapToDouble(Group::failures).sum();
      assertEquals(
          hours.diagnostics().logMarginalLikelihood() - failures * Math.log(factor),
          other.diagnostics().logMarginalLikelihood(),
          1e-7);
      near(hours.populationShape(), other.populationShape(), 1e-3);
      near(hours.betweenSd(), other.betweenSd(), 1e-3);
      for (int s = 0; s < 4; s++) {
        assertEquals(
            factor,
            other.groups().get(s).scale().estimate() / hours.groups().get(s).scale().estimate(),
            factor * 1e-3);
      }
    }
  }

  @Test
  void countsAreRepeatedRows() {
    List<Observations> fleet = fleet(3, 8);
    List<Observations> repeated = fleet.stream().map(g -> changed(g, 1, 3)).toList();
    List<Observations> counted = new ArrayList<>();
    for (Observations group : fleet) {
      List<Observation> rows = new ArrayList<>();
      for (int i = 0; i < group.size(); i++) {
        double age = group.lower(i);
        rows.add(
            group.isExact(i)
                ? new Observation.Exact(0, age, 3)
                : new Observation.RightCensored(0, age, 3));
      }
      counted.add(Observations.of(rows));
    }
    assertEquals(
        fitted(repeated).diagnostics().logMarginalLikelihood(),
        fitted(counted).diagnostics().logMarginalLikelihood(),
        1e-8);
  }

  @Test
  @Tag("long")
  void theOrderOfLivesAndOfGroupsDoesNotMatter() {
    List<Observations> fleet = fleet(4, 9);
    List<Observations> turned = new ArrayList<>();
    for (Observations group : fleet) {
      List<Observation> rows = new ArrayList<>(group.asList());
      Collections.reverse(rows);
      turned.add(0, Observations.of(rows));
    }
    Fitted one = fitted(fleet, SETTINGS.withDraws(20_000));
    Fitted other = fitted(turned, SETTINGS.withDraws(20_000));
    assertEquals(
        one.diagnostics().logMarginalLikelihood(),
        other.diagnostics().logMarginalLikelihood(),
        1e-8);
    for (int s = 0; s < 4; s++) {
      near(one.groups().get(s).scale(), other.groups().get(3 - s).scale(), 0.03);
    }
  }

  /** A life in two spans is one life: the spans enter as delayed entry. */
  @Test
  void aSplitLifeIsOneLife() {
    List<Observations> fleet = fleet(3, 8);
    List<Observations> split = new ArrayList<>();
    for (Observations group : fleet) {
      List<Observation> rows = new ArrayList<>();
      for (Observation life : group.asList()) {
        double age =
            life instanceof Observation.Exact exact
                ? exact.age()
                : ((Observation.RightCensored) life).age();
        double cut = 0.4 * age;
        rows.add(Observation.rightCensoredAt(cut));
        rows.add(
            life instanceof Observation.Exact
                ? new Observation.Exact(cut, age, 1)
                : new Observation.RightCensored(cut, age, 1));
      }
      split.add(Observations.of(rows));
    }
    assertEquals(
        fitted(fleet).diagnostics().logMarginalLikelihood(),
        fitted(split).diagnostics().logMarginalLikelihood(),
        1e-8);
  }

  @Test
  void theSameSeedGivesTheSameDraws() {
    List<Observations> fleet = fleet(3, 8);
    Draws one = fitted(fleet).draws();
    Draws same = fitted(fleet).draws();
    assertArrayEquals(one.shapes(1), same.shapes(1));
    assertArrayEquals(one.scales(2), same.scales(2));
    assertArrayEquals(one.newGroupScales(), same.newGroupScales());
    assertTrue(one.shape(0, 0) != fitted(fleet, SETTINGS.withSeed(2)).draws().shape(0, 0));
  }

  @Test
  void noDrawRepeatsAnother() {
    Draws draws = fitted(fleet(3, 8)).draws();
    assertEquals(draws.size(), Arrays.stream(draws.shapes(0)).distinct().count());
    assertEquals(draws.size(), Arrays.stream(draws.scales(0)).distinct().count());
  }

  @Test
  void limitsAreQuantilesOfTheDraws() {
    Fitted fit = fitted(fleet(4, 9), SETTINGS.withConfidence(0.8));
    for (int s = 0; s < 4; s++) {
      Estimate scale = fit.groups().get(s).scale();
      double below = 0;
      double above = 0;
      double log = 0;
      for (double x : fit.draws().scales(s)) {
        below += x < scale.lower() ? 1 : 0;
        above += x > scale.upper() ? 1 : 0;
        log += Math.log(x) / fit.draws().size();
      }
      assertEquals(0.1, below / fit.draws().size(), 1e-3);
      assertEquals(0.1, above / fit.draws().size(), 1e-3);
      assertEquals(log, Math.log(scale.estimate()), 1e-9);
    }
  }

  @Test
  void quantilesAreThoseOfEachDraw() {
    Fitted fit = fitted(fleet(3, 8), SETTINGS.withShares(List.of(1 - Math.exp(-1), 0.1)));
    for (int s = 0; s < 3; s++) {
      Group group = fit.groups().get(s);
      near(group.scale(), group.quantiles().get(0).age(), 1e-9);
      double log = 0;
      for (int i = 0; i < fit.draws().size(); i++) {
        double age = new Weibull(fit.draws().shape(s, i), fit.draws().scale(s, i)).quantile(0.1);
        log += Math.log(age) / fit.draws().size();
      }
      assertEquals(log, Math.log(group.quantiles().get(1).age().estimate()), 1e-9);
    }
  }

  /** Standardised by the draw's own standard deviations: standard normal, to 4.5 errors. */
  @Test
  void newGroupsScatterAsTheStandardDeviationsSay() {
    Draws draws = fitted(fleet(6, 12), SETTINGS.withDraws(4000)).draws();
    double[] sums = new double[2];
    double[] squares = new double[2];
    for (int i = 0; i < draws.size(); i++) {
      double[] z = {
        Math.log(draws.newGroupShape(i) / draws.populationShape(i)) / draws.shapesBetweenSd(i),
        Math.log(draws.newGroupScale(i) / draws.populationScale(i)) / draws.betweenSd(i)
      };
      for (int q = 0; q < 2; q++) {
        sums[q] += z[q];
        squares[q] += z[q] * z[q];
      }
    }
    double n = draws.size();
    for (int q = 0; q < 2; q++) {
      assertEquals(0, sums[q] / n, 4.5 / Math.sqrt(n));
      assertEquals(1, squares[q] / n, 4.5 * Math.sqrt(2 / n));
    }
  }

  /**
   * Of failures alone the information on the effect is near their number times the square of shape
   * and standard deviation between groups; the prior's is 1.
   */
  @Test
  void theFleetsShareIsWhatTheGroupsOwnLivesLeaveIt() {
    List<Observations> fleet = new ArrayList<>(fleet(4, 9));
    Observations.Builder failed = Observations.builder();
    for (int i = 0; i < 40; i++) {
      failed.addFailure(0, 900 * Math.pow(-Math.log1p(-(i + 0.5) / 40), 0.5), 1);
    }
    fleet.add(failed.build());
    fleet.add(Observations.builder().build());
    Fitted fit = fitted(fleet);
    double expected = 0;
    for (int i = 0; i < fit.draws().size(); i++) {
      double sd = fit.draws().shape(4, i) * fit.draws().betweenSd(i);
      expected += 1 / (1 + 40 * sd * sd) / fit.draws().size();
    }
    assertEquals(1, fit.groups().get(4).fleetShare() / expected, 0.03);
    assertEquals(1, fit.groups().get(5).fleetShare(), 1e-12);
  }

  /** Two hundred failures outweigh the fleet: within 0.15 standard errors of the own fit. */
  @Test
  @Tag("long")
  void aGroupWithManyFailuresSitsOnItsOwnFit() {
    UniformRandomProvider rng = RandomSource.L64_X128_MIX.create(8);
    List<Observations> fleet = new ArrayList<>(fleet(5, 6));
    fleet.add(drawn(rng, 420, 2.2, 1500, 1500));
    Fitted pooled = fitted(fleet, SETTINGS.withDraws(20_000));
    Group group = pooled.groups().get(5);
    assertTrue(group.failures() >= 200, "failures: " + group.failures());
    WeibullFit.Fitted own =
        assertInstanceOf(
            WeibullFit.Fitted.class, WeibullFitter.fit(fleet.get(5), FitSettings.defaults()));
    double error = Math.sqrt(own.covariance().scaleScale());
    assertEquals(
        Math.log(own.scale().estimate()), Math.log(group.scale().estimate()), 0.15 * error);
    assertTrue(group.fleetShare() < 0.05, "fleet's share: " + group.fleetShare());
  }

  @Test
  @Tag("long")
  void aGroupWithoutFailuresSitsNearTheFleetWithWideLimits() {
    List<Observations> fleet = new ArrayList<>(fleet(6, 12));
    fleet.add(survivors(200, 300, 150));
    fleet.add(Observations.builder().build());
    Fitted fit = fitted(fleet, SETTINGS.withDraws(20_000));
    Group quiet = fit.groups().get(6);
    double fleetScale = fit.populationScale().estimate();
    assertEquals(1, quiet.scale().estimate() / fleetScale, 0.25);
    assertTrue(quiet.scale().estimate() > fleetScale, "survivors speak for a longer life");
    for (int s = 0; s < 6; s++) {
      Estimate scale = fit.groups().get(s).scale();
      assertTrue(
          quiet.scale().upper() / quiet.scale().lower() > 1.2 * scale.upper() / scale.lower());
    }
    assertTrue(quiet.fleetShare() > 0.75 && quiet.fleetShare() < 1, "" + quiet.fleetShare());
    Group unknown = fit.groups().get(7);
    assertEquals(1, unknown.fleetShare(), 1e-12);
    near(fit.newGroupScale(), unknown.scale(), 0.06);
  }

  /** The more a group survives without failing, the longer its scale. */
  @Test
  void survivorsPullUpwards() {
    double before = 0;
    for (double age : new double[] {100, 1000, 4000}) {
      List<Observations> fleet = new ArrayList<>(fleet(5, 10));
      fleet.add(survivors(age, age, age, age));
      double scale = fitted(fleet).groups().get(5).scale().estimate();
      assertTrue(scale > before, age + " " + scale);
      before = scale;
    }
  }

  @Test
  void oneGroupAloneWorksAndItsScatterIsThePriors() {
    Fitted fit = fitted(List.of(fleet(1, 12).get(0)), SETTINGS.withDraws(20_000));
    double mean = SETTINGS.priors().betweenScale() * Math.sqrt(2 / Math.PI);
    assertEquals(mean, fit.betweenSd().estimate(), 0.03);
    assertTrue(fit.newGroupScale().upper() > 2 * fit.groups().get(0).scale().upper());
  }

  @Test
  void oneFailureInTwoGroupsHasHonestLimits() {
    Fitted fit =
        fitted(
            List.of(
                Observations.of(Observation.failedAt(700), Observation.rightCensoredAt(800)),
                survivors(900)));
    Estimate scale = fit.groups().get(1).scale();
    assertTrue(scale.upper() > 6 * scale.lower(), scale::toString);
    assertTrue(scale.lower() > 300 && scale.upper() < 1e6, scale::toString);
  }

  @Test
  void withoutFailuresThereIsNoFit() {
    assertEquals("no failures in any group", refused(List.of(survivors(1, 2), survivors(3))));
    assertEquals("no groups", refused(List.of()));
    assertEquals("no failures in any group", refused(List.of(Observations.builder().build())));
  }

  @Test
  void withoutRunningTimeThereIsNoFit() {
    assertTrue(
        refused(List.of(Observations.of(Observation.failedBetween(0, 5)))).contains("seen to run"));
  }

  @Test
  void failuresAllAtOneAgeAreRefused() {
    Observations tied =
        Observations.of(new Observation.Exact(0, 500, 4), new Observation.RightCensored(0, 300, 2));
    assertTrue(refused(List.of(tied, tied)).contains("no shape is too large"));
    assertTrue(refused(List.of(tied, survivors(700), tied)).contains("no shape is too large"));
  }

  @ParameterizedTest
  @ValueSource(doubles = {1e-6, 1, 1e6})
  @Tag("long")
  void groupsOfVeryDifferentAgesAreFittedOrRefusedInWords(double factor) {
    List<Observations> fleet = new ArrayList<>(fleet(3, 10));
    fleet.add(changed(fleet.get(0), factor, 1));
    fleet.add(survivors(1e-3, 1e9));
    PooledFit fit = PartialPooling.fit(fleet, SETTINGS);
    if (fit instanceof Fitted fitted) {
      for (Group group : fitted.groups()) {
        Estimate scale = group.scale();
        assertTrue(scale.lower() > 0 && scale.upper() < 1e300 && scale.lower() < scale.upper());
      }
    } else {
      assertTrue(((NotEstimable) fit).reason().length() > 10);
    }
  }

  @Test
  void thousandsOfSurvivorsAndOneFailure() {
    Fitted fit =
        fitted(
            List.of(
                Observations.of(
                    new Observation.Exact(0, 900, 1),
                    new Observation.RightCensored(0, 1000, 20_000)),
                survivors(500)));
    Estimate scale = fit.groups().get(0).scale();
    assertTrue(scale.lower() > 3000, scale::toString);
    assertTrue(fit.diagnostics().acceptance() > 0.2);
  }

  @Test
  void alikeGroupsAreFoundAlikeAndDifferentOnesDifferent() {
    UniformRandomProvider rng = RandomSource.L64_X128_MIX.create(12);
    List<Observations> alike = new ArrayList<>();
    List<Observations> different = new ArrayList<>();
    for (int s = 0; s < 8; s++) {
      alike.add(drawn(rng, 60, 2, 1000, 1000));
      double scale = 1000 * Math.exp(s % 2 == 0 ? 0.6 : -0.6);
      different.add(drawn(rng, 60, 2, scale, scale));
    }
    assertTrue(fitted(alike).betweenSd().upper() < 0.3);
    Estimate sd = fitted(different).betweenSd();
    assertTrue(sd.lower() > 0.3 && sd.upper() < 1.3, sd::toString);
  }

  /** The finer integral says the same. */
  @Test
  @Tag("long")
  void theUsualPrecisionIsEnough() {
    for (List<Observations> fleet : List.of(fleet(2, 3), fleet(5, 8), fleet(4, 60))) {
      Fitted usual = fitted(fleet);
      Fitted fine = fitted(fleet, SETTINGS.withPrecision(Precision.FINE));
      assertEquals(
          fine.diagnostics().logMarginalLikelihood(),
          usual.diagnostics().logMarginalLikelihood(),
          1e-4);
      assertTrue(fine.diagnostics().nodesChange() < 1e-8, fine.diagnostics()::toString);
    }
  }

  @Test
  void withNothingBetweenShapesAllHaveOne() {
    Priors priors = Priors.defaults().withShapesBetweenScale(0);
    Fitted fit = fitted(fleet(3, 8), SETTINGS.withPriors(priors));
    for (int i = 0; i < fit.draws().size(); i++) {
      for (int s = 0; s < 3; s++) {
        assertEquals(fit.draws().populationShape(i), fit.draws().shape(s, i));
      }
      assertEquals(fit.draws().populationShape(i), fit.draws().newGroupShape(i));
    }
    assertEquals(new Estimate(0, 0, 0), fit.shapesBetweenSd());
  }

  /** With many failures a group keeps to its own shape, with few it leans on the others'. */
  @Test
  void anotherShapeIsKeptAsFarAsFailuresSaySo() {
    double before = Double.POSITIVE_INFINITY;
    for (int lives : new int[] {2, 20, 600}) {
      List<Observations> fleet = new ArrayList<>();
      for (int s = 0; s < 5; s++) {
        fleet.add(spread(80, 3));
      }
      fleet.add(spread(lives, 1));
      Estimate shape = fitted(fleet).groups().get(5).shape();
      assertTrue(shape.estimate() < before, lives + " lives: " + shape);
      assertTrue(lives > 2 || shape.lower() > 2, "two lives say next to nothing: " + shape);
      before = shape.estimate();
    }
    assertEquals(1, before, 0.1);
  }

  /** Lives as evenly spread as their distribution is, watched to 1,000 h. */
  private static Observations spread(int lives, double shape) {
    Observations.Builder group = Observations.builder();
    for (int i = 0; i < lives; i++) {
      double age = 1000 * Math.pow(-Math.log(1 - (i + 0.5) / lives), 1 / shape);
      if (age <= 1000) {
        group.addFailure(0, age, 1);
      } else {
        group.addRightCensored(0, 1000, 1);
      }
    }
    return group.build();
  }

  @Test
  void theIntegralsAreCheckedAndTheCandidatesGood() {
    for (List<Observations> fleet : List.of(fleet(2, 5), fleet(12, 8), fleet(6, 300))) {
      PooledFit.Diagnostics d = fitted(fleet).diagnostics();
      assertTrue(d.nodesChange() > 0 && d.nodesChange() < 1e-5, d::toString);
      assertTrue(d.mostNodes() >= 20 && d.mostNodes() <= 80, d::toString);
      assertTrue(d.effectiveSampleSize() > 0.8 * 2000, d::toString);
      assertTrue(d.effectiveSampleSize() <= 2000, d::toString);
      assertTrue(d.acceptance() > 0.4 && d.acceptance() < 1, d::toString);
    }
  }

  @Test
  void settingsAreChecked() {
    assertThrows(IllegalArgumentException.class, () -> SETTINGS.withConfidence(1));
    assertThrows(IllegalArgumentException.class, () -> SETTINGS.withDraws(5));
    assertThrows(IllegalArgumentException.class, () -> SETTINGS.withShares(List.of(0.0)));
    Priors priors = Priors.defaults();
    assertThrows(IllegalArgumentException.class, () -> priors.withBetweenScale(0));
    assertThrows(IllegalArgumentException.class, () -> priors.withShapeLogSd(Double.NaN));
    assertThrows(IllegalArgumentException.class, () -> priors.withShapesBetweenScale(-0.1));
    assertThrows(IllegalArgumentException.class, () -> priors.withScaleLogSd(-1));
    assertThrows(IllegalArgumentException.class, () -> priors.withShapeMedian(0));
    assertThrows(IllegalArgumentException.class, () -> priors.withTypicalScale(0));
    assertTrue(priors.typicalScale().isEmpty());
    assertEquals(900, priors.withTypicalScale(900).withShapeMedian(2).typicalScale().orElseThrow());
    assertEquals(7, SETTINGS.withSeed(7).withPriors(priors.withShapeMedian(2)).seed());
  }
}

package org.vaneward.stats.mixture;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.vaneward.stats.Observation;
import org.vaneward.stats.Observations;
import org.vaneward.stats.bootstrap.ParametricSampler;
import org.vaneward.stats.bootstrap.Replicates;
import org.vaneward.stats.distribution.Weibull;
import org.vaneward.stats.fit.WeibullFit;
import org.vaneward.stats.mixture.MixtureFit.Bootstrap;
import org.vaneward.stats.mixture.MixtureFit.Fitted;

class MixtureBootstrapTest {
  private static final MixtureSettings SETTINGS =
      MixtureSettings.defaults().withRandomStarts(0).withBootstrap(9).withSeed(4);
  private static final Weibull LAW = new Weibull(2, 1000);

  private static Bootstrap test(double statistic) {
    return MixtureBootstrap.test(Lives.single(LAW, 25, 1500, 3), LAW, statistic, SETTINGS)
        .orElseThrow();
  }

  /** The share of samples that gain as much, the lives themselves counted among them. */
  @Test
  void countsSamplesOfTheOneWeibullThatGainAsMuch() {
    assertEquals(new Bootstrap(9, 9, 1), test(-1));
    assertEquals(new Bootstrap(9, 0, 0.1), test(1e9));
    ParametricSampler sampler = ParametricSampler.of(Lives.single(LAW, 25, 1500, 3), LAW);
    List<Double> drawn =
        Replicates.of(9, 4, random -> MixtureBootstrap.statistic(sampler.draw(random), SETTINGS));
    double middle = drawn.stream().sorted().toList().get(5);
    int atLeast = (int) drawn.stream().filter(x -> x >= middle).count();
    assertEquals(new Bootstrap(9, atLeast, (atLeast + 1) / 10.0), test(middle));
  }

  @Test
  void theStatisticIsTwiceTheGain() {
    Observations two = Lives.mixed(150, 7);
    Fitted fit = assertInstanceOf(Fitted.class, WeibullMixture.fit(two, SETTINGS.withBootstrap(0)));
    assertEquals(fit.ratio().statistic(), MixtureBootstrap.statistic(two, SETTINGS), 1e-7);
    assertEquals(0, MixtureBootstrap.statistic(Lives.failures(5), SETTINGS));
    Observations none = Observations.of(Observation.rightCensoredAt(5));
    assertEquals(0, MixtureBootstrap.statistic(none, SETTINGS));
  }

  @Test
  void aFitIsTestedByItsOwnStatistic() {
    Observations two = Lives.mixed(150, 7);
    Fitted fit = assertInstanceOf(Fitted.class, WeibullMixture.fit(two, SETTINGS));
    assertEquals(
        MixtureBootstrap.test(
            Rows.sorted(two), fit.single().weibull(), fit.ratio().statistic(), SETTINGS),
        fit.ratio().bootstrap());
    assertTrue(fit.proof().gradientNorm() >= 0);
  }

  /** A bad lot beside parts that never fail: its log-likelihood in two parameters and a share. */
  @Test
  void aShareThatNeverFailsCountsAsAGain() {
    Observations.Builder lives = Observations.builder().addRightCensored(0, 9000, 180);
    double[] ages = new double[20];
    for (int i = 0; i < ages.length; i++) {
      ages[i] = new Weibull(3, 800).quantile((i + 0.5) / 20);
      lives.addFailure(0, ages[i], 1);
    }
    Observations all = lives.build();
    WeibullFit.Fitted single = Search.plainSingle(all).orElseThrow();
    // long before 9000 the bad lot is gone: its Weibull is that of the twenty, its share a tenth
    Observations.Builder lot = Observations.builder();
    for (double age : ages) {
      lot.addFailure(0, age, 1);
    }
    WeibullFit.Fitted early = Search.plainSingle(lot.build()).orElseThrow();
    double never = 20 * Math.log(0.1) + 180 * Math.log(0.9) + early.logLikelihood();
    // the climb stops where the second scale is as good as endless
    assertEquals(
        2 * (never - single.logLikelihood()), MixtureBootstrap.statistic(all, SETTINGS), 1e-3);
  }

  @Test
  void livesThatCannotBeDrawnOneByOneHaveNoTest() {
    Observations many = Observations.of(new Observation.Exact(0, 1, 2e6));
    assertEquals(Optional.empty(), MixtureBootstrap.test(many, LAW, 1, SETTINGS));
    Observations part = Observations.of(new Observation.Exact(0, 1, 3.5));
    assertEquals(Optional.empty(), MixtureBootstrap.test(part, LAW, 1, SETTINGS));
  }
}

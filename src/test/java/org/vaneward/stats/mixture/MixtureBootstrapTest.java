package org.vaneward.stats.mixture;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.vaneward.stats.Observation;
import org.vaneward.stats.Observations;
import org.vaneward.stats.bootstrap.ParametricSampler;
import org.vaneward.stats.bootstrap.Replicates;
import org.vaneward.stats.distribution.Weibull;
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
  void livesThatCannotBeDrawnOneByOneHaveNoTest() {
    Observations many = Observations.of(new Observation.Exact(0, 1, 2e6));
    assertEquals(Optional.empty(), MixtureBootstrap.test(many, LAW, 1, SETTINGS));
    Observations part = Observations.of(new Observation.Exact(0, 1, 3.5));
    assertEquals(Optional.empty(), MixtureBootstrap.test(part, LAW, 1, SETTINGS));
  }
}

package org.vaneward.stats.mixture;

import java.util.List;
import java.util.Optional;
import org.vaneward.stats.Observations;
import org.vaneward.stats.bootstrap.ParametricSampler;
import org.vaneward.stats.bootstrap.Replicates;
import org.vaneward.stats.distribution.Weibull;

/**
 * Likelihood-ratio test of two Weibulls against one by parametric bootstrap (G. McLachlan, Applied
 * Statistics 36, 1987, 318–324, from memory): samples of the one Weibull, seen as the lives were
 * ({@link ParametricSampler}), each searched in the same way as the lives.
 */
final class MixtureBootstrap {
  private MixtureBootstrap() {}

  /**
   * The test; empty when a count is not a whole number, so that no sample is like the lives, and
   * when there are too many lives to draw one by one.
   *
   * @param law the one Weibull
   * @param statistic of the lives
   */
  static Optional<MixtureFit.Bootstrap> test(
      Observations lives, Weibull law, double statistic, MixtureSettings settings) {
    if (hasPartsOfLives(lives) || lives.lives() > ParametricSampler.MOST_LIVES) {
      return Optional.empty();
    }
    ParametricSampler sampler = ParametricSampler.of(lives, law);
    List<Double> drawn =
        Replicates.of(
            settings.bootstrapReplicates(),
            settings.seed(),
            random -> statistic(sampler.draw(random), settings));
    int atLeast = (int) drawn.stream().filter(one -> one >= statistic).count();
    return Optional.of(
        new MixtureFit.Bootstrap(drawn.size(), atLeast, (atLeast + 1.0) / (drawn.size() + 1.0)));
  }

  private static boolean hasPartsOfLives(Observations lives) {
    for (int i = 0; i < lives.size(); i++) {
      if (lives.count(i) != Math.rint(lives.count(i))) {
        return true;
      }
    }
    return false;
  }

  /** Twice what two Weibulls gain on a sample; 0 where not even one can be fitted. */
  static double statistic(Observations sample, MixtureSettings settings) {
    return Search.plainSingle(sample)
        .map(single -> Search.of(sample, single, settings).statistic())
        .orElse(0.0);
  }
}

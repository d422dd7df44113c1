package org.vaneward.stats.comparison;

import java.util.Arrays;
import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.simple.RandomSource;
import org.apache.commons.statistics.distribution.DiscreteDistribution;
import org.apache.commons.statistics.distribution.PoissonDistribution;

/**
 * The period in which failures exceed the expected number most, and whether such a period would
 * come of chance: a bad lot, a new crew, a changed product show in it without being named.
 *
 * <p>The periods in order have failures O and expected numbers E, these scaled to the same sum. Of
 * all stretches of periods the one with the greatest sum of O - E is taken; a lasting change for
 * the worse is a stretch that runs to the end. The p-value is by simulation: each period's failures
 * are drawn from the Poisson distribution of its expected number, scaled again, and searched the
 * same way, so that having searched is paid for (the greatest rise of a sum that runs along: E. S.
 * Page, Biometrika 41, 1954, from memory).
 *
 * @param first index of the first period of the stretch
 * @param last index of its last period
 * @param observed failures in it
 * @param expected failures to be expected in it
 * @param p chance of a stretch that stands out as much or more, no less than 1 / (draws + 1)
 */
public record ExcessPeriod(int first, int last, double observed, double expected, double p) {
  /** Draws behind a p-value: 0.001 is then uncertain by a third of itself. */
  public static final int DRAWS = 9_999;

  /**
   * Searches.
   *
   * @param observed failures of each period. Not modified.
   * @param expected its expected number, at least 0 and not all 0. Not modified.
   * @param dispersion how many times the variance of chance the failures have, at least 1
   * @param draws how many, {@link #DRAWS} for a p-value to report
   * @param seed of the draws
   * @throws IllegalArgumentException when there are no periods or nothing is expected
   */
  public static ExcessPeriod search(
      double[] observed, double[] expected, double dispersion, int draws, long seed) {
    double failures = Arrays.stream(observed).sum();
    double sum = Arrays.stream(expected).sum();
    if (!(failures > 0 && sum > 0 && sum < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException(
          "failures and expected failures are positive, not " + failures + " and " + sum);
    }
    Stretch found = greatest(observed, expected, failures / sum);
    UniformRandomProvider random = RandomSource.L64_X128_MIX.create(seed);
    DiscreteDistribution.Sampler[] samplers = new DiscreteDistribution.Sampler[expected.length];
    for (int i = 0; i < samplers.length; i++) {
      double mean = expected[i] * failures / sum;
      samplers[i] = mean > 0 ? PoissonDistribution.of(mean).createSampler(random) : () -> 0;
    }
    int asGreat = 0;
    double[] drawn = new double[expected.length];
    for (int draw = 0; draw < draws; draw++) {
      double drawnSum = 0;
      for (int i = 0; i < drawn.length; i++) {
        drawn[i] = samplers[i].sample();
        drawnSum += drawn[i];
      }
      double chance = greatest(drawn, expected, drawnSum / sum).excess * Math.sqrt(dispersion);
      asGreat += chance * Math.sqrt(failures) >= found.excess * Math.sqrt(drawnSum) ? 1 : 0;
    }
    return new ExcessPeriod(
        found.first,
        found.last,
        Arrays.stream(observed, found.first, found.last + 1).sum(),
        Arrays.stream(expected, found.first, found.last + 1).sum() * failures / sum,
        (asGreat + 1.0) / (draws + 1));
  }

  private record Stretch(int first, int last, double excess) {}

  private static Stretch greatest(double[] observed, double[] expected, double scale) {
    Stretch best = new Stretch(0, 0, Double.NEGATIVE_INFINITY);
    double running = 0;
    int from = 0;
    for (int i = 0; i < observed.length; i++) {
      if (running <= 0) {
        running = 0;
        from = i;
      }
      running += observed[i] - scale * expected[i];
      if (running > best.excess) {
        best = new Stretch(from, i, running);
      }
    }
    return best;
  }
}

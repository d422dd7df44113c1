package org.vaneward.stats.bootstrap;

import java.util.Arrays;
import org.apache.commons.rng.UniformRandomProvider;
import org.vaneward.stats.Observations;

/**
 * The bootstrap that assumes no distribution: as many lives as there are, picked from them with
 * replacement, each with its entry age and the way it ended (B. Efron, Journal of the American
 * Statistical Association 76, 1981, 312–319; from memory).
 *
 * <p>A row of count n is n lives. A life picked k times is one row of count k. Counts that are not
 * whole weight the picks, whose number is then the sum of the counts rounded.
 *
 * <p>Immutable; draws may run on several threads, each with its own generator.
 */
public final class CaseResample {
  private final Observations lives;
  private final int picks;

  /** Counts added up; not used when every count is 1. */
  private final double[] sums;

  private final boolean single;

  private CaseResample(Observations lives, int picks) {
    this.lives = lives;
    this.picks = picks;
    sums = new double[lives.size()];
    double sum = 0;
    boolean ones = true;
    for (int i = 0; i < sums.length; i++) {
      sum += lives.count(i);
      sums[i] = sum;
      ones &= lives.count(i) == 1;
    }
    single = ones;
  }

  /**
   * A source of samples.
   *
   * @throws IllegalArgumentException when there are no lives, or more than {@link
   *     ParametricSampler#MOST_LIVES}
   */
  public static CaseResample of(Observations lives) {
    double n = lives.lives();
    if (!(n > 0 && n <= ParametricSampler.MOST_LIVES)) {
      throw new IllegalArgumentException("lives to pick from are 1 to 1000000, not " + n);
    }
    return new CaseResample(lives, (int) Math.max(1, Math.rint(n)));
  }

  /** One sample; rows keep the order of the lives, those not picked are left out. */
  public Observations draw(UniformRandomProvider random) {
    int[] picked = new int[sums.length];
    for (int k = 0; k < picks; k++) {
      picked[single ? random.nextInt(picked.length) : row(random.nextDouble())]++;
    }
    Observations.Builder sample = Observations.builder();
    for (int i = 0; i < picked.length; i++) {
      if (picked[i] > 0) {
        Rows.add(lives, i, picked[i], sample);
      }
    }
    return sample.build();
  }

  private int row(double u) {
    int at = Arrays.binarySearch(sums, u * sums[sums.length - 1]);
    int first = at >= 0 ? at + 1 : -at - 1;
    return Math.min(first, sums.length - 1);
  }

  /**
   * Fits of samples picked from the lives. Same seed, same fits, on any number of threads.
   *
   * @param replicates how many samples, positive
   * @param refit fits a sample
   * @throws IllegalArgumentException as {@link #of}, or when there are no replicates to run
   */
  public static Refits refits(Observations lives, int replicates, long seed, Refit refit) {
    CaseResample source = of(lives);
    return Refits.of(Replicates.of(replicates, seed, random -> refit.fit(source.draw(random))));
  }
}

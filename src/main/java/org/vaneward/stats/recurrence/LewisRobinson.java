package org.vaneward.stats.recurrence;

import java.util.List;
import org.vaneward.stats.numeric.Quantiles;

/**
 * Renewal against trend: are the gaps between events of one distribution, whatever it is, or do
 * they change along the way? (P. A. W. Lewis and D. W. Robinson, in Reliability and Biometry, 1974,
 * 363–382, from memory.)
 *
 * <p>For one unit the statistic is Laplace's, made as if observation ended with the last event and
 * divided by the gaps' coefficient of variation (standard deviation with divisor n - 1):
 * approximately standard normal when the gaps are alike. Positive: gaps get shorter. For several
 * units it is the sum over units of (mean place - place) times gap over its standard deviation when
 * each unit's gaps may stand in any order; with one unit that is the former times root of (n / (n +
 * 1)).
 *
 * <p>The permutation p-value is exact but for its draws (fixed seed), also for few gaps: prefer it.
 * Events at one age count as one; of a unit watched from later than age 0, the gap up to its first
 * event is left out.
 */
public sealed interface LewisRobinson {
  /**
   * A test that could be made.
   *
   * @param statistic positive when gaps get shorter
   * @param units units with two complete gaps or more
   * @param gaps their complete gaps
   * @param p two-sided, by the normal law
   * @param permutationP two-sided, by permuting the gaps within units
   */
  record Tested(double statistic, int units, int gaps, double p, double permutationP)
      implements LewisRobinson {}

  /**
   * A test that could not be made.
   *
   * @param reason why, in one short phrase
   */
  record NotTestable(String reason) implements LewisRobinson {}

  /** Permutations drawn. */
  int DRAWS = 9_999;

  /** Start of the generator that draws them. */
  long SEED = 1974;

  /** The test. */
  static LewisRobinson test(EventHistories histories) {
    return test(new Gaps(histories).complete);
  }

  /** The test of each unit's complete gaps in their order. */
  static LewisRobinson test(List<double[]> gaps) {
    GapPermutation permutation = new GapPermutation(gaps);
    if (permutation.units() == 0) {
      return new NotTestable("no unit has two complete gaps");
    }
    if (!(permutation.variance > 0)) {
      return new NotTestable("all gaps of a unit are equal");
    }
    double n = permutation.total();
    double classical = permutation.units() == 1 ? Math.sqrt((n + 1) / n) : 1;
    double statistic = -classical * permutation.z();
    return new Tested(
        statistic,
        permutation.units(),
        permutation.total(),
        2 * Quantiles.normalShare(-Math.abs(statistic)),
        permutation.p(DRAWS, SEED));
  }
}

package org.vaneward.stats.comparison;

/** Runs of one outcome in a row of independent trials. */
public final class Runs {
  private Runs() {}

  /**
   * Chance that somewhere in a row of independent trials at least {@code length} in succession come
   * out: the lengths of the run in hand form a Markov chain (W. Feller, An Introduction to
   * Probability Theory and Its Applications, vol. 1, 3rd ed. 1968, section XIII.7, from memory, has
   * the case of equal chances).
   *
   * @param chance of each trial, between 0 and 1, in order. Not modified.
   * @param length at least 1
   * @throws IllegalArgumentException when an argument is out of its range
   */
  public static double chance(double[] chance, int length) {
    if (length < 1) {
      throw new IllegalArgumentException("a run has a length of at least 1, not " + length);
    }
    double[] inHand = new double[length];
    inHand[0] = 1;
    double reached = 0;
    for (double p : chance) {
      if (!(p >= 0 && p <= 1)) {
        throw new IllegalArgumentException("a chance is between 0 and 1, not " + p);
      }
      double broken = 0;
      reached += p * inHand[length - 1];
      for (int run = length - 1; run >= 0; run--) {
        broken += (1 - p) * inHand[run];
        inHand[run] = run > 0 ? p * inHand[run - 1] : 0;
      }
      inHand[0] = broken;
    }
    return Math.min(1, reached);
  }
}

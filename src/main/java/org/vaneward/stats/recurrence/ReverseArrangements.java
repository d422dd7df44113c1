package org.vaneward.stats.recurrence;

import java.util.OptionalInt;
import org.vaneward.stats.numeric.Quantiles;

/**
 * The reverse-arrangement test of a trend in the gaps between events: in how many pairs the later
 * gap is longer (NIST/SEMATECH e-Handbook of Statistical Methods, 8.2.3.4; H. B. Mann, Econometrica
 * 13, 1945, 245–259, from memory). Equal gaps count for neither side.
 *
 * <p>Without a trend every order of r gaps is as likely: the law of the count is exact up to
 * {@value #EXACT} gaps, and beyond that normal with mean r (r - 1) / 4 and variance (2 r + 5)(r -
 * 1) r / 72, with half a count of continuity. It holds for gaps of any one distribution, hence
 * tests a renewal process, and not only a constant rate.
 *
 * @param gaps number of gaps r
 * @param reversals pairs in which the later gap is longer
 * @param pUpper chance of so many or more without a trend: small when gaps grow
 * @param pLower chance of so many or fewer: small when gaps shrink
 */
public record ReverseArrangements(int gaps, long reversals, double pUpper, double pLower) {
  /** Greatest number of gaps for which the exact law is used. */
  public static final int EXACT = 60;

  /** Two-sided p: twice the smaller tail. */
  public double p() {
    return Math.min(1, 2 * Math.min(pUpper, pLower));
  }

  /**
   * The test of some gaps in the order in which they came.
   *
   * @param gaps at least one. Not modified.
   * @throws IllegalArgumentException when there is none or one is not a number
   */
  public static ReverseArrangements of(double... gaps) {
    if (gaps.length == 0) {
      throw new IllegalArgumentException("at least one gap is needed, not 0");
    }
    for (double gap : gaps) {
      if (Double.isNaN(gap)) {
        throw new IllegalArgumentException("a gap is a number, not " + gap);
      }
    }
    int r = gaps.length;
    long count = rising(gaps.clone(), new double[r], 0, r);
    return r <= EXACT ? exact(r, count) : normal(r, count);
  }

  /** Pairs that rise strictly, counted while the stretch is merged into order. */
  private static long rising(double[] x, double[] spare, int from, int to) {
    if (to - from < 2) {
      return 0;
    }
    int middle = (from + to) >>> 1;
    long count = rising(x, spare, from, middle) + rising(x, spare, middle, to);
    int left = from;
    for (int right = middle, out = from; out < to; out++) {
      boolean takeLeft = left < middle && (right == to || x[left] < x[right]);
      if (!takeLeft) {
        count += left - from;
      }
      spare[out] = takeLeft ? x[left++] : x[right++];
    }
    System.arraycopy(spare, from, x, from, to - from);
    return count;
  }

  private static ReverseArrangements exact(int r, long count) {
    double[] law = law(r);
    double upper = 0;
    double lower = 0;
    for (int k = 0; k < law.length; k++) {
      upper += k >= count ? law[k] : 0;
      lower += k <= count ? law[k] : 0;
    }
    return new ReverseArrangements(r, count, Math.min(1, upper), Math.min(1, lower));
  }

  private static ReverseArrangements normal(double r, long count) {
    double off = count - r * (r - 1) / 4;
    double deviation = Math.sqrt((2 * r + 5) * (r - 1) * r / 72);
    return new ReverseArrangements(
        (int) r,
        count,
        Quantiles.normalShare(-(off - 0.5) / deviation),
        Quantiles.normalShare((off + 0.5) / deviation));
  }

  /** Chances of 0, 1, … reversals: each further gap adds 0 to r - 1 of them, all as likely. */
  private static double[] law(int r) {
    double[] law = {1};
    for (int i = 2; i <= r; i++) {
      double[] next = new double[law.length + i - 1];
      for (int k = 0; k < law.length; k++) {
        for (int add = 0; add < i; add++) {
          next[k + add] += law[k] / i;
        }
      }
      law = next;
    }
    return law;
  }

  /**
   * The least number of reversals that has at most a given chance to be reached without a trend.
   *
   * @param gaps from 1 to {@link #EXACT}
   * @param level the chance, between 0 and 1
   * @return empty when even all pairs rising is more likely than that
   * @throws IllegalArgumentException when an argument is out of its range
   */
  public static OptionalInt critical(int gaps, double level) {
    if (gaps < 1 || gaps > EXACT) {
      throw new IllegalArgumentException("1 to " + EXACT + " gaps have an exact law, not " + gaps);
    }
    if (!(level > 0 && level < 1)) {
      throw new IllegalArgumentException("a level is between 0 and 1, not " + level);
    }
    double[] law = law(gaps);
    double tail = 0;
    int k = law.length;
    while (k > 0 && tail + law[k - 1] <= level) {
      tail += law[--k];
    }
    return k < law.length ? OptionalInt.of(k) : OptionalInt.empty();
  }
}

package org.vaneward.stats.comparison;

import java.util.Arrays;
import java.util.OptionalDouble;
import java.util.function.DoubleUnaryOperator;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.numeric.Quantiles;
import org.vaneward.stats.numeric.Roots;

/**
 * Failures of a group against those of the rest, stratum by stratum: how many times as often it
 * fails as its expected failures would have it.
 *
 * <p>Each side of a stratum has failures and an expected number: time watched or, better, the
 * cumulative hazard its lives went through, which takes their ages into account. Only the
 * proportion of the two expected numbers of a stratum matters. Given the failures of a stratum, the
 * number that falls to the group is binomial with chance r g / (r g + h), for expected numbers g of
 * the group and h of the rest and a ratio r common to all strata. The ratio is found by conditional
 * maximum likelihood; the p-values are exact tails of the sum over strata, and limits are where
 * these tails are (1 - confidence) / 2 (with one stratum: C. J. Clopper and E. S. Pearson,
 * Biometrika 26, 1934; comparing Poisson rates so: J. Przyborowski and H. Wilenski, Biometrika 31,
 * 1940; both from memory). Exact tails are cautious: with few failures they are rather too great.
 * {@link FailureShare} says when the normal distribution stands in for them.
 *
 * <p>Where units within the group differ from each other more than chance, failures come in
 * clusters and the exact tails would be too small. {@code dispersion} is by how much the variance
 * of the group's number exceeds the binomial one; the normal deviate of each tail is divided by its
 * root.
 */
public sealed interface RateRatio {
  /** Failures of the group in strata that can be compared. */
  double observed();

  /** Failures it would have there if it were like the rest. */
  double expected();

  /**
   * A comparison.
   *
   * @param observed failures of the group in strata that can be compared
   * @param expected failures it would have there if it were like the rest
   * @param ratio how many times as often it fails as the rest, with limits; 0 without failures in
   *     the group, infinite without failures in the rest
   * @param pMore chance of as many failures in the group or more if it were like the rest
   * @param pFewer chance of as many or fewer
   */
  record Compared(double observed, double expected, Estimate ratio, double pMore, double pFewer)
      implements RateRatio {
    /** Two-sided p-value: twice the smaller tail, at most 1. */
    public double p() {
      return Math.min(1, 2 * Math.min(pMore, pFewer));
    }
  }

  /**
   * Nothing can be compared.
   *
   * @param observed failures of the group in strata that can be compared
   * @param expected failures it would have there if it were like the rest
   * @param reason why, in one short phrase
   */
  record NotComparable(double observed, double expected, String reason) implements RateRatio {}

  /** A comparison to be made of so many strata at the most. */
  static Builder builder(int strata) {
    return new Builder(strata);
  }

  /** Sums up strata. Not for use by several threads. */
  final class Builder {
    private static final double FARTHEST = 46;

    private final int[] failures;
    private final double[] chance;
    private int strata;
    private int observed;
    private double dispersion = 1;
    private double confidence = 0.90;
    private boolean limits = true;

    private Builder(int strata) {
      failures = new int[strata];
      chance = new double[strata];
    }

    /**
     * Adds a stratum; one without failures, or in which one side has nothing expected, tells
     * nothing and is passed over.
     *
     * @param groupFailures failures of the group, a whole number
     * @param groupExpected its expected number, at least 0
     * @param restFailures failures of the rest, a whole number
     * @param restExpected its expected number, at least 0
     * @throws IllegalArgumentException when a number is out of its range
     */
    public Builder add(
        double groupFailures, double groupExpected, double restFailures, double restExpected) {
      int inside = whole(groupFailures);
      int outside = whole(restFailures);
      if (!(groupExpected >= 0 && restExpected >= 0 && groupExpected + restExpected < 1e300)) {
        throw new IllegalArgumentException(
            "expected failures are 0 or more, not " + groupExpected + " and " + restExpected);
      }
      if (inside + outside > 0 && groupExpected > 0 && restExpected > 0) {
        failures[strata] = inside + outside;
        chance[strata] = groupExpected / (groupExpected + restExpected);
        observed += inside;
        strata++;
      }
      return this;
    }

    /** A count of lives weighted by a fraction is taken to the nearest whole number. */
    private static int whole(double count) {
      if (!(count >= 0 && count <= 1e9)) {
        throw new IllegalArgumentException("a number of failures is 0 to 1e9, not " + count);
      }
      return (int) Math.round(count);
    }

    /**
     * How many times the binomial variance the group's number has, at least 1, which is taken else.
     */
    public Builder dispersion(double times) {
      if (!(times >= 1 && times < Double.POSITIVE_INFINITY)) {
        throw new IllegalArgumentException("a dispersion is at least 1, not " + times);
      }
      dispersion = times;
      return this;
    }

    /** Confidence of two-sided limits, between 0 and 1; 0.90 is taken else. */
    public Builder confidence(double level) {
      if (!(level > 0 && level < 1)) {
        throw new IllegalArgumentException("a confidence is between 0 and 1, not " + level);
      }
      confidence = level;
      return this;
    }

    /** Leaves out the limits, which take most of the time: they are then 0 and infinity. */
    public Builder withoutLimits() {
      limits = false;
      return this;
    }

    /** The comparison. */
    public RateRatio compare() {
      FailureShare alike = share(0);
      double expected = alike.mean();
      if (strata == 0) {
        return new NotComparable(
            observed, expected, "no failures where both the group and the rest were watched");
      }
      double pMore = spread(alike.atLeast(observed));
      double pFewer = spread(alike.atMost(observed));
      return new Compared(observed, expected, ratio(), pMore, pFewer);
    }

    private double spread(double tail) {
      return dispersion == 1 || !(tail > 0) || !(tail < 1)
          ? tail
          : Quantiles.normalShare(Quantiles.normal(tail) / Math.sqrt(dispersion));
    }

    private int total() {
      return Arrays.stream(failures, 0, strata).sum();
    }

    private Estimate ratio() {
      double tail =
          Quantiles.normalShare(Quantiles.normal((1 - confidence) / 2) * Math.sqrt(dispersion));
      double lower = limits && observed > 0 ? root(r -> share(r).atLeast(observed) - tail, 0) : 0;
      double upper =
          limits && observed < total()
              ? root(r -> tail - share(r).atMost(observed), Double.POSITIVE_INFINITY)
              : Double.POSITIVE_INFINITY;
      return new Estimate(middle(), lower, upper);
    }

    private double middle() {
      if (observed == 0) {
        return 0;
      }
      return observed == total()
          ? Double.POSITIVE_INFINITY
          : root(r -> mean(r) - observed, Double.NaN);
    }

    /** Where a function of log ratio that rises crosses 0. */
    private static double root(DoubleUnaryOperator f, double otherwise) {
      for (double far = 3; far <= FARTHEST; far *= 2) {
        if (f.applyAsDouble(-far) <= 0 && f.applyAsDouble(far) >= 0) {
          OptionalDouble found = Roots.between(f, -far, far);
          return found.isPresent() ? Math.exp(found.getAsDouble()) : otherwise;
        }
      }
      return otherwise;
    }

    private double mean(double logRatio) {
      double sum = 0;
      for (int s = 0; s < strata; s++) {
        sum += failures[s] * chance(s, logRatio);
      }
      return sum;
    }

    private FailureShare share(double logRatio) {
      double[] tilted = new double[strata];
      for (int s = 0; s < strata; s++) {
        tilted[s] = chance(s, logRatio);
      }
      return FailureShare.of(Arrays.copyOf(failures, strata), tilted);
    }

    private double chance(int s, double logRatio) {
      double odds = Math.exp(logRatio) * chance[s] / (1 - chance[s]);
      return odds == Double.POSITIVE_INFINITY ? 1 : odds / (1 + odds);
    }
  }
}

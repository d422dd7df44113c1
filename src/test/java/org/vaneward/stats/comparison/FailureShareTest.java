package org.vaneward.stats.comparison;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.apache.commons.math3.distribution.BinomialDistribution;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class FailureShareTest {
  /**
   * One stratum is a binomial (Commons Math 3.6.1): exact while narrow, by the normal law beyond.
   */
  @ParameterizedTest
  @CsvSource({
    "12, 0.3, 1e-12",
    "900, 0.02, 1e-12",
    "5000, 0.5, 1e-11",
    "9000, 0.5, 2e-5",
    "20000, 0.2, 1e-3"
  })
  void oneStratumIsABinomial(int n, double chance, double slack) {
    FailureShare share = FailureShare.of(new int[] {n}, new double[] {chance});
    BinomialDistribution binomial = new BinomialDistribution(n, chance);
    assertEquals(n * chance, share.mean(), 1e-9);
    assertEquals(n * chance * (1 - chance), share.variance(), 1e-9);
    double deviation = Math.sqrt(n * chance * (1 - chance));
    for (double off : new double[] {-3, -1.2, 0, 0.7, 2.5}) {
      int k = (int) Math.round(n * chance + off * deviation);
      assertEquals(binomial.cumulativeProbability(k), share.atMost(k), slack, "at most " + k);
      assertEquals(1 - binomial.cumulativeProbability(k - 1), share.atLeast(k), slack);
    }
  }

  /** Two strata by adding up all pairs of their counts. */
  @ParameterizedTest
  @CsvSource({"3, 0.2, 4, 0.7", "1, 0, 5, 0.5", "2, 1, 2, 0.1"})
  void twoStrataAddUp(int n, double one, int m, double other) {
    FailureShare share = FailureShare.of(new int[] {n, m}, new double[] {one, other});
    BinomialDistribution first = new BinomialDistribution(n, one);
    BinomialDistribution second = new BinomialDistribution(m, other);
    for (int k = 0; k <= n + m; k++) {
      double atMost = 0;
      for (int i = 0; i <= Math.min(k, n); i++) {
        atMost += first.probability(i) * second.cumulativeProbability(k - i);
      }
      assertEquals(atMost, share.atMost(k), 1e-14);
    }
  }
}

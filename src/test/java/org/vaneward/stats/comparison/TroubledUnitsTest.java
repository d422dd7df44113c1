package org.vaneward.stats.comparison;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import org.apache.commons.numbers.gamma.LogGamma;
import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.simple.RandomSource;
import org.apache.commons.statistics.distribution.PoissonDistribution;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

/** Most alike, a few troubled: told apart where the counts tell, and sure as often as stated. */
class TroubledUnitsTest {
  @Test
  void oneOutlierAmongAlikeUnitsIsTold() {
    double[] counts = new double[60];
    double[] expected = new double[60];
    Arrays.fill(counts, 5);
    Arrays.fill(expected, 5);
    counts[7] = 17;
    TroubledUnits fit = TroubledUnits.fit(counts, expected, 0.90);
    TroubledUnits.Ranked first = fit.ranked().get(0);
    assertEquals(7, first.unit());
    assertTrue(first.probabilityTroubled() > 0.9, fit.toString());
    assertEquals(3.1, first.rate().estimate(), 0.5);
    assertTrue(first.rate().lower() > 1.4 && first.rate().upper() < 6);
    assertTrue(fit.ranked().get(1).probabilityTroubled() < 0.05);
    // The distribution for all draws it almost wholly to the rest.
    GammaPoisson all = GammaPoisson.fit(counts, expected, 0.90);
    double drawn = all instanceof GammaPoisson.Spread s ? s.units().get(7).rate().estimate() : 1.05;
    assertTrue(drawn < 1.5, "rate drawn by one distribution for all: " + drawn);
  }

  @Test
  @Tag("long")
  void itsChancesAreAsOftenTrueAsStated() {
    UniformRandomProvider random = RandomSource.L64_X128_MIX.create(11);
    double stated = 0;
    double troubled = 0;
    double certain = 0;
    double statedSquares = 0;
    for (int fleet = 0; fleet < 150; fleet++) {
      double[] counts = new double[80];
      double[] expected = new double[80];
      boolean[] few = new boolean[80];
      for (int i = 0; i < counts.length; i++) {
        expected[i] = 1 + 9 * random.nextDouble();
        few[i] = random.nextDouble() < 0.04;
        double factor = few[i] ? 1.5 * Math.pow(10 / 1.5, random.nextDouble()) : 1;
        counts[i] = PoissonDistribution.of(factor * expected[i]).createSampler(random).sample();
      }
      TroubledUnits fit = TroubledUnits.fit(counts, expected, 0.90);
      for (int i = 0; i < counts.length; i++) {
        double p = fit.units().get(i).probabilityTroubled();
        if (p > 0.5) {
          stated += p;
          troubled += few[i] ? 1 : 0;
          certain++;
          statedSquares += p * (1 - p);
        }
      }
    }
    assertTrue(certain > 150, "only " + certain);
    // Three standard deviations of a sum of independent draws, and half as much again for units of
    // one fleet that share a fit.
    assertEquals(stated, troubled, 4.5 * Math.sqrt(statedSquares));
  }

  private static final double[] COUNTS = {0, 3, 9, 2, 1, 4, 12, 3};
  private static final double[] EXPECTED = {2, 3, 3, 2.5, 0, 4, 3, 3};

  @Test
  void theRateIsThePosteriorsMean() {
    TroubledUnits fit = TroubledUnits.fit(COUNTS, EXPECTED, 0.90);
    for (int i = 0; i < COUNTS.length; i++) {
      double mean = 0;
      double troubled = 0;
      for (TroubledUnits.Spread spread : fit.spreads()) {
        double[] sums = sums(spread, EXPECTED[i] > 0 ? COUNTS[i] : 0, EXPECTED[i], 1e9);
        mean += spread.weight() * sums[2] / sums[1];
        troubled += spread.weight() * sums[3] / sums[1];
      }
      assertEquals(mean, fit.units().get(i).rate().estimate(), 0.003 * mean, "unit " + i);
      assertEquals(troubled, fit.units().get(i).probabilityTroubled(), 0.003, "unit " + i);
    }
  }

  /** Likelihood of the counts at share and mean times both priors, times the cell of the grid. */
  @Test
  void theWeightsAreLikelihoodTimesPrior() {
    TroubledUnits fit = TroubledUnits.fit(COUNTS, EXPECTED, 0.90);
    double[] variation =
        fit.spreads().stream().mapToDouble(TroubledUnits.Spread::variation).toArray();
    double[] log = new double[variation.length];
    for (int c = 0; c < log.length; c++) {
      double from = c == 0 ? 0 : (variation[c - 1] + variation[c]) / 2;
      double to =
          c + 1 < log.length ? (variation[c] + variation[c + 1]) / 2 : 2 * variation[c] - from;
      log[c] = Math.log(to - from) + logPosterior(fit.spreads().get(c));
    }
    for (int c = 1; c < log.length; c++) {
      double ratio = Math.log(fit.spreads().get(c).weight() / fit.spreads().get(0).weight());
      assertEquals(log[c] - log[0], ratio, 0.01, "variation " + variation[c]);
    }
  }

  private static double logPosterior(TroubledUnits.Spread spread) {
    double z = spread.variation() / TroubledUnits.USUAL_VARIATION;
    double log =
        -z * z / 2
            + TroubledUnits.TROUBLED_BEFORE * Math.log(spread.share())
            + (TroubledUnits.UNITS_BEFORE - TroubledUnits.TROUBLED_BEFORE)
                * Math.log1p(-spread.share());
    for (int i = 0; i < COUNTS.length; i++) {
      if (EXPECTED[i] > 0) {
        double[] sums = sums(spread, COUNTS[i], EXPECTED[i], 1e9);
        log += Math.log(sums[1]);
      }
    }
    return log;
  }

  @Test
  void theRankedListCountsWhatItExpectsToBeFalse() {
    TroubledUnits fit = TroubledUnits.fit(COUNTS, EXPECTED, 0.90);
    double before = 1;
    double sum = 0;
    int listed = 0;
    for (TroubledUnits.Ranked one : fit.ranked()) {
      assertEquals(fit.units().get(one.unit()).probabilityTroubled(), one.probabilityTroubled(), 0);
      assertTrue(one.probabilityTroubled() <= before);
      before = one.probabilityTroubled();
      sum += 1 - before;
      assertEquals(sum / ++listed, one.expectedFalseShare(), 1e-12);
    }
    assertEquals(COUNTS.length, listed);
    assertEquals(6, fit.ranked().get(0).unit());
  }

  @Test
  void theLimitsHoldTheStatedShareOfThePosterior() {
    TroubledUnits fit = TroubledUnits.fit(COUNTS, EXPECTED, 0.90);
    for (int i : new int[] {0, 2, 6}) {
      double below = share(fit, COUNTS[i], EXPECTED[i], fit.units().get(i).rate().lower());
      double above = share(fit, COUNTS[i], EXPECTED[i], fit.units().get(i).rate().upper());
      assertEquals(0.05, below, 0.003);
      assertEquals(0.95, above, 0.003);
    }
  }

  /** Posterior share below a rate, by summing prior times likelihood on a fine grid. */
  private static double share(TroubledUnits fit, double y, double t, double rate) {
    double share = 0;
    for (TroubledUnits.Spread spread : fit.spreads()) {
      share += spread.weight() * share(spread, y, t, rate);
    }
    return share;
  }

  private static final int POINTS = 200_000;

  private static double share(TroubledUnits.Spread spread, double y, double t, double rate) {
    double[] sums = sums(spread, y, t, rate);
    return sums[0] / sums[1];
  }

  /** Prior times likelihood below a rate and in all, that times the rate, and of the few. */
  private static double[] sums(TroubledUnits.Spread spread, double y, double t, double rate) {
    double shape = 1 / (spread.variation() * spread.variation());
    double constant = shape * Math.log(shape) - LogGamma.value(shape);
    double[] sums = new double[4];
    // evenly along log rate, where a shape below 1 has no pole
    double step = (Math.log(20) + 40) / POINTS;
    for (int k = 0; k < POINTS; k++) {
      double u = Math.exp(Math.log(20) - (k + 0.5) * step);
      double x = spread.mean() * u;
      double many =
          (1 - spread.share()) * Math.exp((shape - 1) * Math.log(u) - shape * u + constant);
      double few =
          u > TroubledUnits.LEAST_FACTOR && u < TroubledUnits.GREATEST_FACTOR
              ? spread.share()
                  / (u * Math.log(TroubledUnits.GREATEST_FACTOR / TroubledUnits.LEAST_FACTOR))
              : 0;
      double likelihood = u * step * Math.exp(y * Math.log(x) - x * t);
      double weight = (many + few) * likelihood;
      sums[0] += x <= rate ? weight : 0;
      sums[1] += weight;
      sums[2] += weight * x;
      sums[3] += few * likelihood;
    }
    return sums;
  }

  @Test
  void withFewEventsLittleIsKnownOfAnyUnit() {
    TroubledUnits fit =
        TroubledUnits.fit(new double[] {0, 1, 2}, new double[] {0.2, 0.9, 1.9}, 0.90);
    for (TroubledUnits.Unit unit : fit.units()) {
      assertTrue(unit.rate().lower() < 0.8 && unit.rate().upper() > 1.5, unit.toString());
      assertTrue(unit.probabilityTroubled() > 0.01 && unit.probabilityTroubled() < 0.2);
    }
    double weights = fit.spreads().stream().mapToDouble(TroubledUnits.Spread::weight).sum();
    assertEquals(1, weights, 1e-12);
  }

  @Test
  void refusesWhatDoesNotFit() {
    assertThrows(
        IllegalArgumentException.class, () -> TroubledUnits.fit(new double[2], new double[3], 0.9));
  }
}

package org.vaneward.stats.pooling;

import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.sampling.distribution.ZigguratSampler;
import org.apache.commons.rng.simple.RandomSource;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.vaneward.stats.Observations;
import org.vaneward.stats.pooling.PoolingSettings.Priors;

/**
 * When the truth is drawn from the prior, its rank among the posterior draws is uniform (S. Talts
 * and others, simulation-based calibration, 2018, from memory). The typical scale is held: its
 * prior is so wide that it is as good as flat, and a shift of all ages shifts all draws.
 */
class PoolingCalibrationTest {
  private static final int FLEETS = 200;
  private static final int BINS = 10;
  private static final int DRAWS = 100;

  /** Exceeded by chance once in a thousand with 9 degrees of freedom. */
  private static final double CRITICAL = 27.88;

  @Test
  @Tag("long")
  void ranksAreUniform() {
    UniformRandomProvider rng = RandomSource.L64_X128_MIX.create(2024);
    ZigguratSampler.NormalizedGaussian normal = ZigguratSampler.NormalizedGaussian.of(rng);
    Priors priors = Priors.defaults().withShapeLogSd(0.3).withShapesBetweenScale(0);
    int[][] counts = new int[3][BINS];
    for (int fleet = 0; fleet < FLEETS; fleet++) {
      double shape = priors.shapeMedian() * Math.exp(priors.shapeLogSd() * normal.sample());
      double between = Math.abs(priors.betweenScale() * normal.sample());
      double scale = 0;
      List<Observations> groups = new ArrayList<>();
      for (int s = 0; s < 4; s++) {
        double own = 1000 * Math.exp(between * normal.sample());
        scale = s == 0 ? own : scale;
        groups.add(PartialPoolingTest.drawn(rng, 8, shape, own, 1300));
      }
      PoolingSettings settings =
          PoolingSettings.defaults().withPriors(priors).withDraws(DRAWS).withSeed(fleet);
      Draws draws =
          assertInstanceOf(PooledFit.Fitted.class, PartialPooling.fit(groups, settings)).draws();
      int[] rank = new int[3];
      // ranks among 99 draws are 0 to 99: ten bins of ten
      for (int i = 0; i < DRAWS - 1; i++) {
        rank[0] += draws.populationShape(i) < shape ? 1 : 0;
        rank[1] += draws.betweenSd(i) < between ? 1 : 0;
        rank[2] += draws.scale(0, i) < scale ? 1 : 0;
      }
      for (int q = 0; q < 3; q++) {
        counts[q][rank[q] * BINS / DRAWS]++;
      }
    }
    for (int q = 0; q < 3; q++) {
      double expected = FLEETS / (double) BINS;
      double chi = 0;
      for (int count : counts[q]) {
        chi += (count - expected) * (count - expected) / expected;
      }
      assertTrue(chi < CRITICAL, "quantity " + q + ": " + chi + " " + Arrays.toString(counts[q]));
    }
  }
}

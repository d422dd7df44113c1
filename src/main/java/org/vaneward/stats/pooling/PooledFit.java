package org.vaneward.stats.pooling;

import java.util.List;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.fit.WeibullFit.Quantile;

/**
 * What a pooled fit comes to, or why there is none.
 *
 * <p>Estimates of shapes, scales and ages are posterior means on the log scale, turned back: the
 * mean of an age itself need not exist for a group without failures, while that of its logarithm
 * does and moves with the unit. The standard deviation between groups has its plain posterior mean.
 * Limits are equal-tailed posterior quantiles. Both are those of the draws.
 */
public sealed interface PooledFit {
  /**
   * The posterior distribution.
   *
   * @param groups one for each group given, in that order
   * @param populationShape shape of the typical group: half of all groups have a greater one
   * @param populationScale scale of the typical group: half of all groups have a longer one
   * @param newGroupShape shape of a group of which no life is known
   * @param newGroupScale scale of a group of which no life is known
   * @param betweenSd standard deviation of log scale between groups
   * @param shapesBetweenSd standard deviation of log shape between groups
   * @param draws draws from the posterior, independent of one another
   * @param confidence of the limits
   * @param diagnostics how the integrals were done
   */
  record Fitted(
      List<Group> groups,
      Estimate populationShape,
      Estimate populationScale,
      Estimate newGroupShape,
      Estimate newGroupScale,
      Estimate betweenSd,
      Estimate shapesBetweenSd,
      Draws draws,
      double confidence,
      Diagnostics diagnostics)
      implements PooledFit {
    public Fitted {
      groups = List.copyOf(groups);
    }
  }

  /**
   * No posterior worth showing.
   *
   * @param reason why, in one short phrase
   */
  record NotEstimable(String reason) implements PooledFit {}

  /**
   * One group.
   *
   * @param shape its shape
   * @param scale its scale
   * @param quantiles ages by which shares have failed
   * @param lives number of lives, counts summed
   * @param failures number of failures, counts summed
   * @param fleetShare share of what is known of its scale that comes from the other groups, mean
   *     over the posterior: 1 for a group without lives, near 0 for one with many failures
   */
  record Group(
      Estimate shape,
      Estimate scale,
      List<Quantile> quantiles,
      double lives,
      double failures,
      double fleetShare) {
    public Group {
      quantiles = List.copyOf(quantiles);
    }
  }

  /**
   * How the posterior was integrated and drawn from.
   *
   * @param latticePoints points in (log scale and log shape of the typical group, their standard
   *     deviations between groups) at which the marginal likelihood was computed
   * @param mostNodes most Gauss–Hermite nodes used for a group's integral; integrals that do not
   *     settle with 80 are done with evenly spaced ones
   * @param nodesChange by how much the log marginal likelihood changes when each group's number of
   *     nodes is doubled
   * @param effectiveSampleSize of the candidates the draws were taken from by rejection, had they
   *     been weighted instead; scaled to the number of draws
   * @param acceptance share of candidates accepted
   * @param logMarginalLikelihood log of the probability density of the ages under the model, priors
   *     included
   */
  record Diagnostics(
      int latticePoints,
      int mostNodes,
      double nodesChange,
      double effectiveSampleSize,
      double acceptance,
      double logMarginalLikelihood) {}
}

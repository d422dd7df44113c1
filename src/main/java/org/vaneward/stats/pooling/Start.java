package org.vaneward.stats.pooling;

import org.vaneward.stats.numeric.Minimum;

/**
 * Where to look for the mode first: the best common shape with each group's scale its own.
 *
 * @param b log shape
 * @param m log scale of the typical group
 * @param sd standard deviation between groups
 * @param sdB a standard deviation of b
 * @param sdM a standard deviation of m
 * @param unit standard error of the log scale of the best known group
 */
record Start(double b, double m, double sd, double sdB, double sdM, double unit) {
  private static final double WALK = 0.25;
  private static final int FARTHEST = 200;
  private static final int CLIMBS = 60;

  static Start of(Hyper hyper) {
    double b = bestShape(hyper);
    double shape = Math.exp(b);
    double sum = 0;
    double weights = 0;
    double most = 0;
    GroupLikelihood.Slice[] slices = hyper.slices(b);
    for (int s = 0; s < slices.length; s++) {
      double d = hyper.groups[s].failures;
      if (d > 0) {
        double k = bestK(slices[s]);
        double weight = 1 / (0.1 + 1 / (shape * shape * d));
        sum += weight * (hyper.groups[s].centre + k / shape);
        weights += weight;
        most = Math.max(most, d);
      }
    }
    double m = sum / weights;
    double priorSd = hyper.priors.shapeLogSd();
    double sdB = 1 / Math.sqrt(1 / (priorSd * priorSd) + 1.8 * hyper.failures());
    double unit = 1 / (shape * Math.sqrt(most));
    double sd = Math.min(0.3, hyper.priors.betweenScale());
    return new Start(b, m, sd, sdB, 1 / Math.sqrt(weights), unit);
  }

  /** A walk uphill in steps, then Brent's method between the last three. */
  private static double bestShape(Hyper hyper) {
    double at = Math.log(hyper.priors.shapeMedian());
    double value = profile(hyper, at);
    double step = profile(hyper, at + WALK) > value ? WALK : -WALK;
    for (int i = 0; i < FARTHEST; i++) {
      double next = profile(hyper, at + step);
      if (!(next > value)) {
        break;
      }
      at += step;
      value = next;
    }
    return Minimum.between(b -> -profile(hyper, b), at - WALK, at + WALK, 5).at();
  }

  /** Log-likelihood of the groups with failures, each at its best scale, and prior of the shape. */
  private static double profile(Hyper hyper, double b) {
    double sum = hyper.logPrior(b, hyper.priorCentre, 0);
    for (GroupLikelihood group : hyper.groups) {
      if (group.failures > 0 && group.exposed) {
        GroupLikelihood.Slice slice = group.slice(b);
        sum += slice.valueAt(bestK(slice));
      }
    }
    return sum;
  }

  /**
   * Newton's method for the best k: from below, where the slope is positive, it climbs steadily.
   */
  private static double bestK(GroupLikelihood.Slice slice) {
    if (slice.logRunSum == Double.NEGATIVE_INFINITY) {
      return 0;
    }
    double k = slice.logRunSum - Math.log(slice.failures());
    for (int i = 0; i < CLIMBS && slice.hasIntervals(); i++) {
      slice.at(k);
      double step = Math.max(-1, Math.min(1, -slice.slope / slice.curvature));
      k += step;
      if (Math.abs(step) < 1e-9) {
        break;
      }
    }
    return k;
  }
}

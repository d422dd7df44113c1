package org.vaneward.stats.pooling;

import org.vaneward.stats.numeric.Minimum;

/**
 * Where the posterior is looked for first: the best common shape with each group's scale its own.
 * From those, and their standard errors, follows where the log scale of the typical group lies at
 * any standard deviation between groups, roughly.
 */
final class Start {
  /** A prior's scale times this is a standard deviation that the prior rules out. */
  private static final double ENDLESS = 6;

  private static final double WALK = 0.25;
  private static final int FARTHEST = 200;
  private static final int CLIMBS = 60;

  /** Standard deviations between groups tried, over the unit: this to the power of 0, 1, … */
  private static final double RATIO = 1.3;

  /** Log shape. */
  final double b;

  /** A standard deviation of it. */
  final double sdB;

  /** Standard deviation between groups. */
  final double between;

  /** Standard error of the log scale of the best known group. */
  final double unit;

  /** Standard error of the log shape of the best known group. */
  final double shapeUnit;

  /** Log scales and squared standard errors of the groups with failures. */
  private final double[] logScales;

  private final double[] variances;

  private Start(Hyper hyper) {
    b = bestShape(hyper);
    double shape = Math.exp(b);
    int n = 0;
    double most = 0;
    for (GroupLikelihood group : hyper.groups) {
      n += group.failures > 0 ? 1 : 0;
      most = Math.max(most, group.failures);
    }
    logScales = new double[n];
    variances = new double[n];
    for (GroupLikelihood group : hyper.groups) {
      if (group.failures > 0) {
        n--;
        logScales[n] = group.centre + bestK(group.slice(b)) / shape;
        variances[n] = 1 / (shape * shape * group.failures);
      }
    }
    double priorSd = hyper.priors.shapeLogSd();
    sdB = 1 / Math.sqrt(1 / (priorSd * priorSd) + ShapeNodes.PER_FAILURE * hyper.failures());
    unit = 1 / (shape * Math.sqrt(most));
    shapeUnit = 1 / Math.sqrt(1 / (priorSd * priorSd) + ShapeNodes.PER_FAILURE * most);
    between = bestBetween(hyper.priors.betweenScale());
  }

  /** Where the groups' log scales, taken as normal, and the prior put it. */
  private double bestBetween(double priorScale) {
    double best = 0;
    double most = logDensity(0, priorScale);
    for (double sd = unit / 2; sd < ENDLESS * priorScale; sd *= RATIO) {
      double value = logDensity(sd, priorScale);
      if (value > most) {
        most = value;
        best = sd;
      }
    }
    return best;
  }

  private double logDensity(double sd, double priorScale) {
    double middle = middle(sd);
    double sum = Math.log(width(sd)) - sd * sd / (2 * priorScale * priorScale);
    for (int s = 0; s < logScales.length; s++) {
      double variance = sd * sd + variances[s];
      double off = logScales[s] - middle;
      sum -= Math.log(variance) / 2 + off * off / (2 * variance);
    }
    return sum;
  }

  static Start of(Hyper hyper) {
    return new Start(hyper);
  }

  /** Log scale of the typical group at a standard deviation between groups. */
  double middle(double sd) {
    double sum = 0;
    double weights = 0;
    for (int s = 0; s < logScales.length; s++) {
      double weight = 1 / (sd * sd + variances[s]);
      sum += weight * logScales[s];
      weights += weight;
    }
    return sum / weights;
  }

  /** Its standard error. */
  double width(double sd) {
    double weights = 0;
    for (double variance : variances) {
      weights += 1 / (sd * sd + variance);
    }
    return 1 / Math.sqrt(weights);
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
    double sum = hyper.logShapePrior(b);
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

package org.vaneward.stats.pooling;

import java.util.List;
import org.vaneward.stats.Observations;
import org.vaneward.stats.pooling.PoolingSettings.Priors;

/**
 * The posterior density of what the groups have in common: log scale m and log shape b of the
 * typical group, and the standard deviations between groups of log scale and of log shape. Each
 * group's own scale and shape are integrated out.
 */
final class Hyper {
  private static final double LOG_2_PI = Math.log(2 * Math.PI);

  /** A bell of normal shape is summed to 1e-15 at this step, one of four failures to 1e-8. */
  private static final double STEP = 0.75;

  /** With fewer failures the bell is lopsided and asks for more. */
  private static final double FINE_STEP = 0.5;

  private static final int FEW = 5;

  final GroupLikelihood[] groups;
  final ShapeNodes[] nodes;
  final Priors priors;
  final Precision precision;

  /** Lattice step in b and m, in standard deviations. */
  final double step;

  /** Values of a column from the middle to the last on each side. */
  final int side;

  /** Centre of the prior of m. */
  final double priorCentre;

  Hyper(List<Observations> data, Priors priors, Precision precision) {
    this.priors = priors;
    this.precision = precision;
    groups = data.stream().map(GroupLikelihood::of).toArray(GroupLikelihood[]::new);
    nodes = new ShapeNodes[groups.length];
    for (int s = 0; s < groups.length; s++) {
      nodes[s] = new ShapeNodes(groups[s], precision);
    }
    step = failures() < FEW ? FINE_STEP : STEP;
    side = (int) Math.ceil(precision.reach / step);
    priorCentre =
        priors.typicalScale().isPresent()
            ? Math.log(priors.typicalScale().getAsDouble())
            : pooledLogScale();
  }

  double failures() {
    double sum = 0;
    for (GroupLikelihood group : groups) {
      sum += group.failures;
    }
    return sum;
  }

  /** Log scale of all groups together at the prior's median shape, intervals cut at their start. */
  private double pooledLogScale() {
    double shape = priors.shapeMedian();
    double top = Double.NEGATIVE_INFINITY;
    for (GroupLikelihood group : groups) {
      top = group.exposed ? Math.max(top, group.centre) : top;
    }
    double sum = 0;
    for (GroupLikelihood group : groups) {
      if (group.exposed) {
        sum += Math.exp(group.logRunDirect(shape) + shape * (group.centre - top));
      }
    }
    return top + Math.log(sum / failures()) / shape;
  }

  /** Log prior density of log shape alone. */
  double logShapePrior(double b) {
    double z = (b - Math.log(priors.shapeMedian())) / priors.shapeLogSd();
    return -z * z / 2 - Math.log(priors.shapeLogSd()) - LOG_2_PI / 2;
  }

  private double logPrior(double b, double m, double between, double betweenShapes) {
    double zm = (m - priorCentre) / priors.scaleLogSd();
    return logShapePrior(b)
        - zm * zm / 2
        - Math.log(priors.scaleLogSd())
        - LOG_2_PI / 2
        + logHalfNormal(between, priors.betweenScale())
        + (priors.shapesBetweenScale() > 0
            ? logHalfNormal(betweenShapes, priors.shapesBetweenScale())
            : 0);
  }

  private static double logHalfNormal(double x, double scale) {
    return Math.log(2 / scale) - LOG_2_PI / 2 - x * x / (2 * scale * scale);
  }

  /** For each group the rule that settles its integral about a log scale of the typical group. */
  int[] settle(double middle, double aside, double between) {
    int[] rules = new int[groups.length];
    for (int s = 0; s < rules.length; s++) {
      for (int k = -1; k <= 1; k++) {
        rules[s] = Math.max(rules[s], nodes[s].settle(middle + k * aside, between));
      }
    }
    return rules;
  }

  /** Each group's likelihood as a function of its log shape. */
  ShapeCurve[] curves(double m, double between, int[] rules) {
    ShapeCurve[] curves = new ShapeCurve[groups.length];
    for (int s = 0; s < groups.length; s++) {
      curves[s] = nodes[s].curve(m, between, rules[s]);
    }
    return curves;
  }

  /**
   * Log of prior times likelihood, as a density in (b, m, between, betweenShapes); negative
   * infinity for a shape beyond {@link ShapeNodes#FARTHEST}.
   *
   * @param curves those at m and between
   */
  double at(
      ShapeCurve[] curves, int[] rules, double b, double m, double between, double betweenShapes) {
    if (Math.abs(b) > ShapeNodes.FARTHEST) {
      return Double.NEGATIVE_INFINITY;
    }
    double sum = logPrior(b, m, between, betweenShapes);
    for (int s = 0; s < groups.length; s++) {
      sum +=
          betweenShapes > 0
              ? curves[s].blurred(b, betweenShapes)
              : nodes[s].integral.compute(nodes[s].slice(b), m, between, rules[s]);
    }
    return sum;
  }

  /** By how much the log density of a sheet changes when each group's nodes are doubled. */
  double doubled(Sheet sheet, double between, int[] rules) {
    double sum = 0;
    for (int s = 0; s < rules.length; s++) {
      sum += nodes[s].doubled(sheet.middle(), sheet.m, between, rules[s]);
    }
    return sum;
  }
}

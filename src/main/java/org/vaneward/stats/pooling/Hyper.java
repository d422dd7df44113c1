package org.vaneward.stats.pooling;

import java.util.Arrays;
import java.util.List;
import org.vaneward.stats.Observations;
import org.vaneward.stats.pooling.PoolingSettings.Priors;

/**
 * The posterior density of what the groups have in common: log shape b, log scale of the typical
 * group m, and the standard deviation between groups. Each group's own effect is integrated out.
 */
final class Hyper {
  private static final double LOG_2_PI = Math.log(2 * Math.PI);

  /** A bell of normal shape is summed to 1e-15 at this step, one of four failures to 1e-8. */
  private static final double STEP = 0.75;

  /** With fewer failures the bell is lopsided and asks for more. */
  private static final double FINE_STEP = 0.5;

  private static final int FEW = 5;

  final GroupLikelihood[] groups;
  final Priors priors;

  /** Lattice step in b and m, in standard deviations. */
  final double step;

  /** Centre of the prior of m. */
  final double priorCentre;

  private final GroupIntegral[] integrals;
  private final int[] quick;

  Hyper(List<Observations> data, Priors priors) {
    this.priors = priors;
    groups = data.stream().map(GroupLikelihood::of).toArray(GroupLikelihood[]::new);
    step = failures() < FEW ? FINE_STEP : STEP;
    priorCentre =
        priors.typicalScale().isPresent()
            ? Math.log(priors.typicalScale().getAsDouble())
            : pooledLogScale();
    integrals = new GroupIntegral[groups.length];
    quick = new int[groups.length];
    for (int s = 0; s < groups.length; s++) {
      integrals[s] = new GroupIntegral(groups[s]);
      quick[s] = 1;
    }
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

  double logPrior(double b, double m, double sd) {
    double zb = (b - Math.log(priors.shapeMedian())) / priors.shapeLogSd();
    double zm = (m - priorCentre) / priors.scaleLogSd();
    double zs = sd / priors.betweenScale();
    return Math.log(2)
        - 1.5 * LOG_2_PI
        - Math.log(priors.shapeLogSd() * priors.scaleLogSd() * priors.betweenScale())
        - (zb * zb + zm * zm + zs * zs) / 2;
  }

  GroupLikelihood.Slice[] slices(double b) {
    GroupLikelihood.Slice[] slices = new GroupLikelihood.Slice[groups.length];
    for (int s = 0; s < groups.length; s++) {
      slices[s] = groups[s].slice(b);
    }
    return slices;
  }

  /** The rules that settle each group's integral; those in {@code atLeast} are only raised. */
  void settle(GroupLikelihood.Slice[] slices, double m, double sd, int[] atLeast) {
    for (int s = 0; s < groups.length; s++) {
      atLeast[s] = Math.max(atLeast[s], integrals[s].settle(slices[s], m, sd));
    }
  }

  /**
   * From now on a first look takes evenly spaced nodes too: where groups differ much, 20 nodes miss
   * how a group without failures cuts the density off, and see slopes that are not there.
   */
  void lookClosely() {
    Arrays.fill(quick, GroupIntegral.EVENLY);
  }

  /** The log density with 20 nodes for each group, or evenly spaced ones, for a first look. */
  double quickLook(GroupLikelihood.Slice[] slices, double m, double sd) {
    return at(slices, m, sd, quick);
  }

  /** Log of prior times likelihood, as a density in (b, m, sd). */
  double at(GroupLikelihood.Slice[] slices, double m, double sd, int[] rules) {
    double sum = groups.length == 0 ? 0 : logPrior(slices[0].logShape, m, sd);
    for (int s = 0; s < groups.length; s++) {
      sum += integrals[s].compute(slices[s], m, sd, rules[s]);
    }
    return sum;
  }

  /** The integral of a group as it was last computed. */
  GroupIntegral last(int group) {
    return integrals[group];
  }
}

package org.vaneward.model;

import java.util.Arrays;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.distribution.Weibull;
import org.vaneward.stats.numeric.Roots;
import org.vaneward.stats.pooling.Summary;

/**
 * What is believed of the life of one component in one service: Weibull distributions drawn from
 * the posterior, independent of one another, each as likely as any other.
 *
 * <p>Where lives of several components are taken together, draw {@code i} of each makes one
 * possible pump. A single draw stands for a life that is known and goes with every draw of the
 * others.
 */
public final class LifeDraws {
  /** Cumulative hazard below which the share failed is summed as a series. */
  private static final double SMALL_HAZARD = 1e-3;

  private final double[] shapes;
  private final double[] scales;
  private final double[] logScales;

  private LifeDraws(double[] shapes, double[] scales) {
    this.shapes = shapes;
    this.scales = scales;
    this.logScales = Arrays.stream(scales).map(Math::log).toArray();
  }

  /**
   * Draws as columns.
   *
   * @param shapes shape of each draw, positive and finite
   * @param scales scale of each draw, positive and finite, in the fleet's clock
   * @throws IllegalArgumentException when there is none, their numbers differ, or one is out of its
   *     domain
   */
  public static LifeDraws of(double[] shapes, double[] scales) {
    if (shapes.length == 0 || shapes.length != scales.length) {
      throw new IllegalArgumentException(
          "as many shapes as scales, and at least one, make draws: got "
              + shapes.length
              + " and "
              + scales.length);
    }
    for (int i = 0; i < shapes.length; i++) {
      positive("a shape", shapes[i]);
      positive("a scale", scales[i]);
    }
    return new LifeDraws(shapes.clone(), scales.clone());
  }

  private static void positive(String what, double x) {
    if (!(x > 0 && x < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException(what + " is positive and finite, not " + x);
    }
  }

  /** A life that is known. */
  public static LifeDraws certain(Weibull life) {
    return new LifeDraws(new double[] {life.shape()}, new double[] {life.scale()});
  }

  /** The shape of each draw. */
  public double[] shapes() {
    return shapes.clone();
  }

  /** The scale of each draw. */
  public double[] scales() {
    return scales.clone();
  }

  /** Number of draws. */
  public int size() {
    return shapes.length;
  }

  /** Shape in draw {@code i}; a known life has the same in every draw. */
  public double shape(int i) {
    return shapes[shapes.length == 1 ? 0 : i];
  }

  /** Scale in draw {@code i}; a known life has the same in every draw. */
  public double scale(int i) {
    return scales[scales.length == 1 ? 0 : i];
  }

  /** Log of {@link #scale}. */
  public double logScale(int i) {
    return logScales[logScales.length == 1 ? 0 : i];
  }

  /**
   * The age by which a share has failed: the mean of its logarithm over the draws, turned back, and
   * equal-tailed limits.
   *
   * @param share between 0 and 1
   * @param confidence of the two-sided limits, between 0 and 1
   * @throws IllegalArgumentException when either is not between 0 and 1
   */
  public Estimate age(double share, double confidence) {
    if (!(share > 0 && share < 1)) {
      throw new IllegalArgumentException("a share is between 0 and 1, not " + share);
    }
    double logHazard = Math.log(-Math.log1p(-share));
    double[] logs = new double[size()];
    for (int i = 0; i < logs.length; i++) {
      logs[i] = logScale(i) + logHazard / shape(i);
    }
    return new Summary(confidence).onLogScale(logs);
  }

  /** Cumulative hazard at {@code age} in draw {@code i}; 0 at and below age 0. */
  public double cumulativeHazard(int i, double age) {
    return age <= 0 ? 0 : Math.exp(shape(i) * (Math.log(age) - logScale(i)));
  }

  /** Age at which the cumulative hazard reaches {@code hazard}, at least 0, in draw {@code i}. */
  public double ageAt(int i, double hazard) {
    return Math.exp(Math.log(hazard) / shape(i) + logScale(i));
  }

  /**
   * Adds the cumulative hazard at {@code age}, so many times, in every draw; a known life counts in
   * each.
   *
   * @param into one entry for each draw
   */
  public void addCumulativeHazard(double age, double times, double[] into) {
    if (age <= 0) {
      return;
    }
    double logAge = Math.log(age);
    if (shapes.length == 1) {
      double known = times * Math.exp(shapes[0] * (logAge - logScales[0]));
      for (int i = 0; i < into.length; i++) {
        into[i] += known;
      }
      return;
    }
    for (int i = 0; i < into.length; i++) {
      into[i] += times * Math.exp(shapes[i] * (logAge - logScales[i]));
    }
  }

  /**
   * The mean of 1 − exp(−h) over hazards, each to 1e-13 of itself.
   *
   * @param hazards of each draw, at least 0
   */
  public static double meanFailed(double[] hazards) {
    double total = 0;
    for (double h : hazards) {
      total += failedBy(h);
    }
    return total / hazards.length;
  }

  /** Share failed by a cumulative hazard: 1 − exp(−h) to 1e-13 of itself. */
  public static double failedBy(double h) {
    return h < SMALL_HAZARD ? h * (1 - h / 2 * (1 - h / 3 * (1 - h / 4))) : 1 - Math.exp(-h);
  }

  /**
   * Share of parts that have failed by {@code age}, over all that is believed of the life: the mean
   * over the draws.
   */
  public double failed(double age) {
    double[] hazards = new double[size()];
    addCumulativeHazard(age, 1, hazards);
    return meanFailed(hazards);
  }

  /**
   * Age by which the share {@code p} has failed, over all that is believed of the life.
   *
   * @throws IllegalArgumentException unless {@code 0 < p < 1}
   */
  public double quantile(double p) {
    double low = Double.POSITIVE_INFINITY;
    double high = 0;
    for (int i = 0; i < size(); i++) {
      double one = at(i).quantile(p);
      low = Math.min(low, one);
      high = Math.max(high, one);
    }
    return low < high ? Roots.between(age -> failed(age) - p, low, high).orElse(low) : low;
  }

  /** The first {@code n} draws, all when there are fewer; draws being alike, as good as any n. */
  public LifeDraws first(int n) {
    return n >= size() ? this : new LifeDraws(Arrays.copyOf(shapes, n), Arrays.copyOf(scales, n));
  }

  /** The life at the mean log shape and the mean log scale. */
  public Weibull middle() {
    double logShape = Arrays.stream(shapes).map(Math::log).sum() / shapes.length;
    double logScale = Arrays.stream(logScales).sum() / logScales.length;
    return new Weibull(Math.exp(logShape), Math.exp(logScale));
  }

  /** The life in draw {@code i}. */
  public Weibull at(int i) {
    return new Weibull(shape(i), scale(i));
  }
}

package org.vaneward.stats.nonparametric;

import java.util.AbstractList;
import java.util.RandomAccess;
import org.vaneward.stats.nonparametric.ProductLimit.Point;
import org.vaneward.stats.numeric.Chunks;

/** The points of a product-limit curve as columns: a list that makes each point when asked for. */
final class PointColumns extends AbstractList<Point> implements RandomAccess {
  private final double[] age;
  private final double[] survival;
  private final double[] stdError;
  private final double[] lower;
  private final double[] upper;
  private final double[] atRisk;
  private final double[] events;
  private final double[] hazard;
  private final double[] hazardStdError;

  /**
   * Works out the curve.
   *
   * @param age ages of failure, in order
   * @param atRisk lives at risk just before each
   * @param events failures at each
   * @param z half width of the limits in standard errors
   */
  PointColumns(double[] age, double[] atRisk, double[] events, double z) {
    int n = age.length;
    this.age = age;
    this.atRisk = atRisk;
    this.events = events;
    survival = new double[n];
    stdError = new double[n];
    lower = new double[n];
    upper = new double[n];
    hazard = new double[n];
    hazardStdError = new double[n];
    double[] greenwood = new double[n];
    double[] hazardVariance = new double[n];
    multiply(greenwood, hazardVariance);
    Chunks.run(
        n,
        (chunk, from, to) -> {
          for (int i = from; i < to; i++) {
            limits(i, Math.sqrt(greenwood[i]), z);
            hazardStdError[i] = Math.sqrt(hazardVariance[i]);
          }
        });
  }

  private void multiply(double[] greenwood, double[] hazardVariance) {
    double product = 1;
    double relativeVariance = 0;
    double sum = 0;
    double variance = 0;
    for (int i = 0; i < age.length; i++) {
      double d = events[i];
      double n = atRisk[i];
      double share = d / n;
      product *= n > d ? 1 - share : 0;
      relativeVariance += share / (n - d);
      sum += share;
      variance += share / n;
      survival[i] = product;
      greenwood[i] = relativeVariance;
      hazard[i] = sum;
      hazardVariance[i] = variance;
    }
  }

  private void limits(int i, double relativeError, double z) {
    double s = survival[i];
    if (s > 0) {
      double logSurvival = Math.log(s);
      double factor = Math.exp(z * relativeError / -logSurvival);
      stdError[i] = s * relativeError;
      lower[i] = Math.exp(logSurvival * factor);
      upper[i] = Math.exp(logSurvival / factor);
    } else {
      stdError[i] = Double.NaN;
      lower[i] = Double.NaN;
      upper[i] = Double.NaN;
    }
  }

  /** Number of failures. */
  double failures() {
    double sum = 0;
    for (double d : events) {
      sum += d;
    }
    return sum;
  }

  @Override
  public Point get(int i) {
    return new Point(
        age[i],
        survival[i],
        stdError[i],
        lower[i],
        upper[i],
        atRisk[i],
        events[i],
        hazard[i],
        hazardStdError[i]);
  }

  @Override
  public int size() {
    return age.length;
  }
}

package org.vaneward.stats.regression;

import org.vaneward.stats.numeric.LogSpace;

/**
 * Weibull log-likelihood of a regression in (theta, log shape), with k = z'theta = shape (log scale
 * - centre) in each cell.
 *
 * <p>The cumulative hazard at log age y (from the centre) is exp(shape y - k). In a cell with d
 * exact failures of summed log age S, and moments M of its exposure about its greatest log age a,
 *
 * <pre>
 *   d (log shape - k) + shape S - exp(shape a - k) M0 - sum(log t) + sum log(1 - exp(-D))
 * </pre>
 *
 * with D the cumulative hazard within the interval of each interval failure. Without delayed entry
 * this is concave in (theta, shape) (J. W. Pratt, Journal of the American Statistical Association
 * 76, 1981, 103–106), and always in theta.
 */
final class RegressionLikelihood {
  /** Below this a hazard within an interval is worked with by its series. */
  private static final double SMALL = 1e-5;

  /** Above this exp(-hazard) is nothing beside 1. */
  private static final double LARGE = 700;

  final LifeCells data;
  final int columns;
  private final double[] z;

  /** Taken from the log ages of each cell; empty for none. */
  private final double[] offset;

  private final double[] gk;
  private final double[] kk;
  private final double[] ks;

  /**
   * The value with its derivatives.
   *
   * @param value log-likelihood of the ages themselves
   * @param gradient in theta, then log shape
   * @param information negative second derivatives in the same order
   */
  @SuppressWarnings("ArrayRecordComponent") // stays within this package
  record Derivatives(double value, double[] gradient, double[][] information) {}

  RegressionLikelihood(LifeCells data, double[] z, int columns, double[] offset) {
    this.data = data;
    this.z = z;
    this.columns = columns;
    this.offset = offset;
    gk = new double[data.cells];
    kk = new double[data.cells];
    ks = new double[data.cells];
  }

  private double shift(int cell) {
    return offset.length == 0 ? 0 : offset[cell];
  }

  double k(double[] theta, int cell) {
    double k = 0;
    for (int j = 0; j < columns; j++) {
      k += z[cell * columns + j] * theta[j];
    }
    return k;
  }

  /** Log age that stands for nothing but the unit: greatest of the cell, from the centre. */
  private double top(int cell) {
    return data.wasSeenToRun(cell) ? data.exposure.top(cell) - data.centre - shift(cell) : 0;
  }

  /** Value alone. */
  double value(double[] at, double reach) {
    double logShape = at[columns];
    double b = Math.exp(logShape);
    double[] moments = data.exposure.moments(b, reach);
    double value = data.exactFailures * logShape - data.exactLogAges;
    for (int c = 0; c < data.cells; c++) {
      double d = data.exposure.exact(c);
      double m0 = moments[Exposure.MOMENTS * c];
      double k = k(at, c);
      double a = top(c);
      if (m0 > 0) {
        value -= Math.exp(b * a - k) * m0;
      }
      if (d > 0) {
        value += b * (data.exposure.exactSum(c) + d * a) - d * k;
      }
    }
    for (int i = 0; i < data.intervals.size; i++) {
      value += data.intervals.count[i] * logShare(Math.exp(logHazard(i, b, at)));
    }
    return value;
  }

  /** Log of the cumulative hazard within an interval. */
  private double logHazard(int i, double b, double[] at) {
    int c = data.intervals.cell[i];
    double to = data.intervals.to[i] - data.centre - shift(c);
    return b * to + LogSpace.log1mExp(b * data.intervals.width[i]) - k(at, c);
  }

  private static double logShare(double d) {
    return d < SMALL ? Math.log(d) - d / 2 + d * d / 24 : LogSpace.log1mExp(d);
  }

  Derivatives derivatives(double[] at, double reach) {
    double logShape = at[columns];
    double b = Math.exp(logShape);
    double[] inShape = exposureTerms(at, logShape, b, reach);
    intervalTerms(at, b, inShape);
    return assembled(inShape);
  }

  /** Fills the cells' derivatives in k; returns the value and its derivatives in log shape. */
  private double[] exposureTerms(double[] at, double logShape, double b, double reach) {
    double[] moments = data.exposure.moments(b, reach);
    double value = data.exactFailures * logShape - data.exactLogAges;
    double s = data.exactFailures;
    double ss = 0;
    for (int c = 0; c < data.cells; c++) {
      double d = data.exposure.exact(c);
      double m0 = moments[Exposure.MOMENTS * c];
      double m1 = moments[Exposure.MOMENTS * c + 1];
      double m2 = moments[Exposure.MOMENTS * c + 2];
      double k = k(at, c);
      double a = top(c);
      double h = m0 > 0 ? Math.exp(b * a - k) : 0;
      double a1 = b * (a * m0 + m1);
      double a2 = b * b * (a * (a * m0 + 2 * m1) + m2);
      gk[c] = h * m0 - d;
      kk[c] = h * m0;
      ks[c] = -h * a1;
      value -= h * m0;
      s -= h * a1;
      ss += h * (a1 + a2);
      if (d > 0) {
        double linear = b * (data.exposure.exactSum(c) + d * a);
        value += linear - d * k;
        s += linear;
        ss -= linear;
      }
    }
    return new double[] {value, s, ss};
  }

  private void intervalTerms(double[] at, double b, double[] inShape) {
    Intervals rows = data.intervals;
    for (int i = 0; i < rows.size; i++) {
      int c = rows.cell[i];
      double logD = logHazard(i, b, at);
      double d = Math.exp(logD);
      double n = rows.count[i];
      inShape[0] += n * logShare(d);
      if (!(d < LARGE)) {
        continue;
      }
      double w = d < SMALL ? 1 - d / 2 + d * d / 12 : d / Math.expm1(d);
      double slack = d < SMALL ? -d / 2 - d * d / 12 : 1 - d - w;
      double to = rows.to[i] - data.centre - shift(c);
      double mean = to;
      double square = to * to;
      if (rows.from[i] > Double.NEGATIVE_INFINITY) {
        double rest = rows.width[i] / Math.expm1(b * rows.width[i]);
        mean += rest;
        square += rest * (to + rows.from[i] - data.centre - shift(c));
      }
      gk[c] -= n * w;
      kk[c] -= n * w * slack;
      ks[c] += n * w * b * mean * slack;
      inShape[1] += n * w * b * mean;
      inShape[2] -= n * w * (b * mean + b * b * (square - mean * mean * (d + w)));
    }
  }

  private Derivatives assembled(double[] inShape) {
    double[] gradient = new double[columns + 1];
    double[][] information = new double[columns + 1][columns + 1];
    for (int c = 0; c < data.cells; c++) {
      int row = c * columns;
      for (int i = 0; i < columns; i++) {
        double zi = z[row + i];
        if (zi == 0) {
          continue;
        }
        gradient[i] += zi * gk[c];
        information[columns][i] += zi * ks[c];
        double weight = zi * kk[c];
        for (int j = 0; j <= i; j++) {
          information[i][j] += weight * z[row + j];
        }
      }
    }
    gradient[columns] = inShape[1];
    information[columns][columns] = inShape[2];
    for (int i = 0; i <= columns; i++) {
      for (int j = 0; j < i; j++) {
        information[j][i] = information[i][j];
      }
    }
    return new Derivatives(inShape[0], gradient, information);
  }
}

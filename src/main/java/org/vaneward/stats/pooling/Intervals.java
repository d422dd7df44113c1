package org.vaneward.stats.pooling;

import org.vaneward.stats.Observations;
import org.vaneward.stats.numeric.LogSpace;

/**
 * Failures known to an interval: their part of a group's log-likelihood, the sum of log(1 -
 * exp(-D)) with D the cumulative hazard within each interval.
 *
 * <p>As a function of log shape and log scale the sum is smooth on cells {@value #CELL} wide in log
 * shape and one unit of shape times log scale wide in the other direction, however many intervals
 * there are: it is worked out once per cell, as a Chebyshev polynomial in both.
 *
 * <p>Not for use by several threads.
 */
final class Intervals {
  private static final double CELL = 0.25;

  /** Cells from the centre within which the sum is interpolated. */
  private static final int FARTHEST_CELL = 4000;

  /** Above this exp(-hazard) is nothing beside 1. */
  private static final double LARGE = 700;

  /** Below this a hazard within an interval is worked with by its series. */
  private static final double SMALL = 1e-5;

  private final int size;
  private final double[] to;

  /** Log of end over start; infinite for an interval from age 0. */
  private final double[] width;

  private final double[] count;
  private double centre;
  private final Strip<Band> bands = new Strip<>();

  Intervals(Observations data) {
    int n = 0;
    for (int i = 0; i < data.size(); i++) {
      n += isInterval(data, i) ? 1 : 0;
    }
    size = n;
    to = new double[n];
    width = new double[n];
    count = new double[n];
    int at = 0;
    for (int i = 0; i < data.size(); i++) {
      if (isInterval(data, i)) {
        double lower = data.lower(i);
        to[at] = Math.log(data.upper(i));
        width[at] = Math.log1p((data.upper(i) - lower) / lower);
        count[at] = data.count(i);
        at++;
      }
    }
  }

  private static boolean isInterval(Observations data, int i) {
    return !data.isExact(i) && !data.isRightCensored(i);
  }

  int size() {
    return size;
  }

  /** Log of the greatest end of an interval; 0 without intervals. */
  double greatest() {
    double top = Double.NEGATIVE_INFINITY;
    for (double end : to) {
      top = Math.max(top, end);
    }
    return size == 0 ? 0 : top + centre;
  }

  /** Measures log ages from another centre. */
  void centreOn(double logAge) {
    for (int i = 0; i < size; i++) {
      to[i] -= logAge - centre;
    }
    centre = logAge;
  }

  /** Log of the cumulative hazard within each interval at k = 0. */
  private double[] logGaps(double shape) {
    double[] gaps = new double[size];
    for (int i = 0; i < size; i++) {
      gaps[i] = shape * to[i] + LogSpace.log1mExp(shape * width[i]);
    }
    return gaps;
  }

  private double sum(double[] logGaps, double k) {
    double sum = 0;
    for (int i = 0; i < size; i++) {
      double logD = logGaps[i] - k;
      double d = Math.exp(logD);
      if (d < SMALL) {
        sum += count[i] * (logD - d / 2 + d * d / 24);
      } else if (d < LARGE) {
        sum += count[i] * LogSpace.log1mExp(d);
      }
    }
    return sum;
  }

  Slice slice(double logShape) {
    return new Slice(logShape);
  }

  private Band band(double logShape) {
    int index = (int) Math.floor(logShape / CELL);
    return bands.computeIfAbsent(index, () -> new Band(index));
  }

  /** The cells of one stretch of log shape. */
  private final class Band {
    final double middle;

    /** Cells to a unit of log scale. */
    final double perUnit;

    private final Strip<double[][]> cells = new Strip<>();

    Band(int index) {
      middle = (index + 0.5) * CELL;
      perUnit = Math.exp(middle);
    }

    /** Coefficients in log scale, then in log shape. */
    double[][] cell(int index) {
      return cells.computeIfAbsent(index, () -> make(index));
    }

    private double[][] make(int index) {
      int n = Chebyshev.POINTS;
      double[][] values = new double[n][n];
      for (int i = 0; i < n; i++) {
        double shape = Math.exp(middle + CELL / 2 * Chebyshev.node(i));
        double[] gaps = logGaps(shape);
        for (int j = 0; j < n; j++) {
          double logScale = (index + 0.5 + Chebyshev.node(j) / 2) / perUnit;
          values[j][i] = sum(gaps, shape * logScale);
        }
      }
      return Chebyshev.coefficients(values);
    }
  }

  /** Their part of the log-likelihood at one shape, a concave function of k. */
  final class Slice {
    private final double shape;
    private final Band band;
    private final double[] inShape;
    private final Strip<double[]> series = new Strip<>();

    double value;
    double slope;
    double curvature;

    private Slice(double logShape) {
      shape = Math.exp(logShape);
      band = band(logShape);
      inShape = Chebyshev.polynomials((logShape - band.middle) / (CELL / 2));
    }

    /** Value and derivatives at {@code k}. */
    void at(double k) {
      double place = k / shape * band.perUnit;
      int index = (int) Math.floor(Math.max(-FARTHEST_CELL, Math.min(FARTHEST_CELL, place)));
      double t = 2 * (place - index) - 1;
      double[] c = series.computeIfAbsent(index, () -> collapsed(index));
      double v = 0;
      double dv = 0;
      double ddv = 0;
      double v1 = 0;
      double dv1 = 0;
      double ddv1 = 0;
      for (int j = c.length - 1; j > 0; j--) {
        double ddv0 = 2 * t * ddv - ddv1 + 4 * dv;
        double dv0 = 2 * t * dv - dv1 + 2 * v;
        double v0 = 2 * t * v - v1 + c[j];
        ddv1 = ddv;
        dv1 = dv;
        v1 = v;
        ddv = ddv0;
        dv = dv0;
        v = v0;
      }
      double stretch = 2 * band.perUnit / shape;
      value = t * v - v1 + c[0];
      slope = stretch * (t * dv + v - dv1);
      curvature = stretch * stretch * (t * ddv + 2 * dv - ddv1);
    }

    private double[] collapsed(int index) {
      double[][] cell = band.cell(index);
      double[] c = new double[cell.length];
      for (int j = 0; j < c.length; j++) {
        for (int i = 0; i < inShape.length; i++) {
          c[j] += cell[j][i] * inShape[i];
        }
      }
      return c;
    }
  }
}

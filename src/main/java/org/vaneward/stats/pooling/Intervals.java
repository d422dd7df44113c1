package org.vaneward.stats.pooling;

import org.vaneward.stats.Observations;
import org.vaneward.stats.numeric.LogSpace;

/** Failures known to an interval: their part of a group's log-likelihood. */
final class Intervals {
  /** Below this a hazard within an interval is worked with by its series. */
  private static final double SMALL = 1e-5;

  /** Above this exp(-hazard) is nothing beside 1. */
  private static final double LARGE = 700;

  private final int size;
  private final double[] to;

  /** Log of end over start; infinite for an interval from age 0. */
  private final double[] width;

  private final double[] count;
  private double centre;

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

  void centreOn(double logAge) {
    for (int i = 0; i < size; i++) {
      to[i] -= logAge - centre;
    }
    centre = logAge;
  }

  Slice slice(double logShape) {
    return new Slice(Math.exp(logShape));
  }

  /** Their part of the log-likelihood at one shape, a concave function of k. */
  final class Slice {
    /** Log of the cumulative hazard within each interval at k = 0. */
    private final double[] logGap;

    double value;
    double slope;
    double curvature;

    private Slice(double shape) {
      logGap = new double[size];
      for (int i = 0; i < size; i++) {
        logGap[i] = shape * to[i] + LogSpace.log1mExp(shape * width[i]);
      }
    }

    void at(double k) {
      value = 0;
      slope = 0;
      curvature = 0;
      for (int i = 0; i < size; i++) {
        double logD = logGap[i] - k;
        double d = Math.exp(logD);
        double n = count[i];
        if (d < SMALL) {
          value += n * (logD - d / 2 + d * d / 24);
          slope -= n * (1 - d / 2 + d * d / 12);
          curvature -= n * (d / 2 - d * d / 6);
        } else if (d < LARGE) {
          double w = d / Math.expm1(d);
          value += n * LogSpace.log1mExp(d);
          slope -= n * w;
          curvature += n * w * (1 - d - w);
        }
      }
    }
  }
}

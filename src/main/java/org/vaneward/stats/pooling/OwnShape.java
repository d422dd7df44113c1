package org.vaneward.stats.pooling;

import org.apache.commons.rng.UniformRandomProvider;

/** A group's own log shape, given what the groups have in common. */
final class OwnShape {
  private static final int NODES = 48;

  /** Standard deviations beyond which a normal density is nothing. */
  private static final double REACH = 6;

  /** Rises, on the log scale, that make no difference. */
  private static final double FLAT = 1e-6;

  private OwnShape() {}

  /**
   * The group's likelihood near a point: that of the curves around it, mixed on the log scale.
   *
   * @param curves at the corners
   * @param weights of the corners, sum 1
   */
  @SuppressWarnings("ArrayRecordComponent")
  record Nearby(ShapeCurve[] curves, double[] weights) {
    double value(double b) {
      double sum = 0;
      for (int c = 0; c < curves.length; c++) {
        sum += weights[c] * curves[c].value(b);
      }
      return sum;
    }

    double from() {
      double from = Double.NEGATIVE_INFINITY;
      for (ShapeCurve curve : curves) {
        from = Math.max(from, curve.from());
      }
      return from;
    }

    double to() {
      double to = Double.POSITIVE_INFINITY;
      for (ShapeCurve curve : curves) {
        to = Math.min(to, curve.to());
      }
      return to;
    }
  }

  /**
   * A draw from the likelihood times the normal density, the logarithm of the product being
   * straight between nodes that lie a third of its width apart: it then differs from the true one
   * by nearly the same everywhere, so that the share of each stretch hardly changes.
   *
   * @param b mean of log shapes
   * @param sd their standard deviation, positive
   */
  static double draw(Nearby likelihood, double b, double sd, UniformRandomProvider rng) {
    double from = Math.max(b - REACH * sd, likelihood.from());
    double to = Math.min(b + REACH * sd, likelihood.to());
    if (!(from < to)) {
      from = Math.min(b, likelihood.to());
      to = Math.max(b, likelihood.from());
    }
    double step = (to - from) / (NODES - 1);
    double[] log = new double[NODES];
    double top = Double.NEGATIVE_INFINITY;
    for (int i = 0; i < NODES; i++) {
      double z = (from + i * step - b) / sd;
      log[i] = likelihood.value(from + i * step) - z * z / 2;
      top = Math.max(top, log[i]);
    }
    double[] cumulative = new double[NODES];
    double before = Math.exp(log[0] - top);
    for (int i = 1; i < NODES; i++) {
      double here = Math.exp(log[i] - top);
      cumulative[i] = cumulative[i - 1] + stretch(before, here, log[i] - log[i - 1]);
      before = here;
    }
    double u = rng.nextDouble() * cumulative[NODES - 1];
    int i = 1;
    while (i < NODES - 1 && cumulative[i] < u) {
      i++;
    }
    double share = (u - cumulative[i - 1]) / (cumulative[i] - cumulative[i - 1]);
    return from + step * (i - 1 + within(share, log[i] - log[i - 1]));
  }

  /** Integral of an exponential over a unit from one value to another. */
  private static double stretch(double from, double to, double rise) {
    return Math.abs(rise) < FLAT ? (from + to) / 2 : (to - from) / rise;
  }

  /** Where in a unit the share of an exponential that rises so much is reached. */
  private static double within(double share, double rise) {
    return Math.abs(rise) < FLAT ? share : Math.log1p(share * Math.expm1(rise)) / rise;
  }
}

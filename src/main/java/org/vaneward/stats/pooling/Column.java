package org.vaneward.stats.pooling;

import java.util.function.DoubleUnaryOperator;

/**
 * The posterior density along the typical log shape b, all else held: its mode with the curvature
 * there, and its values at b = middle + sd z with z whole multiples of a step.
 */
final class Column {
  private static final int MOST_STEPS = 40;
  private static final double PROBE = 0.3;
  private static final double LONGEST_STEP = 3;

  /** Length of the last step, in standard deviations, after which the mode is found. */
  private static final double NEAR = 0.02;

  /** Values so much below a parabola, on the log scale, are as good as nothing. */
  private static final double NOTHING = 30;

  private static final double LOG_2_PI = Math.log(2 * Math.PI);

  final double middle;
  final double sd;
  private final double peak;
  private final double step;

  /** Values from the middle to the last on each side. */
  private final int side;

  private double[] logDensity = new double[0];

  private Column(double middle, double sd, double peak, Hyper hyper) {
    this.middle = middle;
    this.sd = sd;
    this.peak = peak;
    this.step = hyper.step;
    side = hyper.side;
  }

  /** The column's mode by Newton's method, from a guess of it and of the standard deviation. */
  static Column at(
      DoubleUnaryOperator density, double near, double nearSd, double mostSd, Hyper hyper) {
    double b = near;
    double sd = nearSd;
    double peak = Double.NEGATIVE_INFINITY;
    for (int i = 0; i < MOST_STEPS; i++) {
      double probe = PROBE * sd;
      double here = density.applyAsDouble(b);
      double more = density.applyAsDouble(b + probe);
      double less = density.applyAsDouble(b - probe);
      double slope = (more - less) / (2 * probe);
      double info = (2 * here - more - less) / (probe * probe);
      double longest = LONGEST_STEP * sd;
      double move = info > 0 ? slope / info : Math.copySign(longest, slope);
      if (!(Math.abs(slope) < Double.POSITIVE_INFINITY)) {
        break;
      }
      if (info > 0) {
        sd = Math.min(1 / Math.sqrt(info), mostSd);
      }
      move = Math.max(-longest, Math.min(longest, move));
      b = Math.max(-ShapeNodes.FARTHEST, Math.min(ShapeNodes.FARTHEST, b + move));
      peak = here;
      if (info > 0 && Math.abs(move) <= NEAR * sd) {
        // the parabola's top: the last step is so short that it is as good as a new value
        peak += slope * move / 2;
        break;
      }
    }
    return new Column(b, sd, peak, hyper);
  }

  /** Log of the sum of all weights, were the density normal. */
  double laplace() {
    return peak + Math.log(sd) + LOG_2_PI / 2;
  }

  double b(double j) {
    return middle + sd * step * j;
  }

  /** Works out the values. */
  void fill(DoubleUnaryOperator density) {
    logDensity = new double[2 * side + 1];
    for (int j = -side; j <= side; j++) {
      double value = density.applyAsDouble(b(j));
      double least = parabola(j) - NOTHING;
      logDensity[side + j] = Math.max(value, least);
    }
  }

  /** As a parabola instead of its values, where there is next to nothing. */
  void fillRoughly() {
    logDensity = new double[2 * side + 1];
    for (int j = -side; j <= side; j++) {
      logDensity[side + j] = parabola(j);
    }
  }

  private double parabola(int j) {
    return peak - step * step * j * j / 2;
  }

  /** Log of density times the distance from one value to the next; the last one beyond the last. */
  double logWeight(int j) {
    return logDensity[side + Math.max(-side, Math.min(side, j))] + Math.log(sd * step);
  }
}

package org.vaneward.stats.regression;

import java.util.function.DoubleUnaryOperator;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.numeric.Quantiles;
import org.vaneward.stats.regression.Climb.Found;

/**
 * Profile-likelihood limits of a regression's coefficients and shape: where twice the drop of the
 * log-likelihood, all other parameters at their best, reaches the chi-square(1) quantile.
 *
 * <p>Holding a coefficient is dropping its column and taking coefficient times covariate from the
 * log ages; all else stays as it is.
 */
final class RegressionProfile {
  private static final double ACCURACY = 1e-10;
  private static final int MOST_STEPS = 60;

  private final Design design;
  private final LifeCells data;
  private final Found best;
  private final double quantile;

  RegressionProfile(Design design, LifeCells data, Found best, double confidence) {
    this.design = design;
    this.data = data;
    this.best = best;
    quantile = Quantiles.chiSquare(confidence, 1);
  }

  Estimate shape() {
    int p = design.columns();
    double logShape = best.at()[p];
    RegressionLikelihood f = likelihood(design.matrix(), p, new double[0]);
    DoubleUnaryOperator root =
        s -> {
          double[] start = best.at().clone();
          double ratio = Math.exp(s - logShape);
          for (int j = 0; j < p; j++) {
            start[j] *= ratio;
          }
          start[p] = s;
          return root(Climb.atShape(f, start));
        };
    double step = Math.sqrt(quantile / best.top().information()[p][p]);
    return new Estimate(
        Math.exp(logShape),
        Math.exp(limit(root, logShape, -step)),
        Math.exp(limit(root, logShape, step)));
  }

  /** Limits of a coefficient, given its value and standard error. */
  Estimate coefficient(int column, double value, double error) {
    int[] keep = design.without(column, 1);
    double[] z = column == 0 ? uncentred(keep) : design.matrix(keep);
    double[] start = new double[keep.length + 1];
    for (int j = 0; j < keep.length; j++) {
      start[j] = best.at()[keep[j]];
    }
    start[keep.length] = best.at()[design.columns()];
    DoubleUnaryOperator root =
        g -> root(Climb.near(likelihood(z, keep.length, offset(column, g)), start));
    double step = Math.sqrt(quantile) * error;
    return new Estimate(value, limit(root, value, -step), limit(root, value, step));
  }

  /** What the held coefficient adds to log scale in each cell, but for what the intercept takes. */
  private double[] offset(int column, double coefficient) {
    double[] offset = new double[design.cells()];
    for (int c = 0; c < offset.length; c++) {
      offset[c] =
          column == 0
              ? coefficient - data.centre
              : coefficient * design.scale(column) * design.at(c, column);
    }
    return offset;
  }

  /** Columns as given but for their scale: centring would move the intercept that is held. */
  private double[] uncentred(int[] keep) {
    double[] z = design.matrix(keep);
    for (int i = 0; i < z.length; i++) {
      int column = keep[i % keep.length];
      z[i] += design.centre(column) / design.scale(column);
    }
    return z;
  }

  private RegressionLikelihood likelihood(double[] z, int columns, double[] offset) {
    return new RegressionLikelihood(data, z, columns, offset);
  }

  private double root(Found found) {
    return Math.sqrt(2 * Math.max(0, best.value() - found.value()));
  }

  /** Where the root of twice the drop, nearly a straight line, reaches that of the quantile. */
  private double limit(DoubleUnaryOperator root, double top, double step) {
    double target = Math.sqrt(quantile);
    double inner = 0;
    double outer = Double.POSITIVE_INFINITY;
    double atInner = 0;
    double share = 1;
    for (int i = 0; i < MOST_STEPS; i++) {
      double at = root.applyAsDouble(top + share * step);
      if (Math.abs(at - target) <= ACCURACY * target) {
        return top + share * step;
      }
      double before = share;
      double slope = (at - atInner) / (share - inner);
      if (at < target) {
        inner = share;
        atInner = at;
      } else {
        outer = share;
      }
      share += (target - at) / slope;
      boolean inside = share > inner && share < outer;
      if (!inside || share > 4 * before) {
        share = outer < Double.POSITIVE_INFINITY ? (inner + outer) / 2 : 2 * before;
      }
    }
    return outer < Double.POSITIVE_INFINITY
        ? top + outer * step
        : Math.copySign(Double.POSITIVE_INFINITY, step);
  }
}

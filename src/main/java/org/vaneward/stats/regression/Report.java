package org.vaneward.stats.regression;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.fit.WeibullFit.LimitMethod;
import org.vaneward.stats.numeric.Quantiles;
import org.vaneward.stats.regression.Climb.Found;
import org.vaneward.stats.regression.RegressionFit.Coefficient;

/**
 * Carries an optimum from the scaled parameters (theta, log shape) to the coefficients of the
 * covariates as given: coefficient = theta / (shape scale of the column), the intercept taking in
 * what was taken from ages and columns.
 */
final class Report {
  private final Design design;
  private final double shape;
  private final double[] gamma;

  /** Covariance of (theta, log shape), then that of (coefficients, log shape). */
  private final double[][] scaled;

  private final double[][] covariance;
  private final double z;
  private final Optional<RegressionProfile> profile;

  Report(
      Design design, LifeCells data, RegressionSettings settings, Found best, double[][] scaled) {
    this.design = design;
    this.scaled = scaled;
    int p = design.columns();
    shape = Math.exp(best.at()[p]);
    double[][] turn = turn(p);
    gamma = new double[p];
    double[][] jacobian = new double[p + 1][p + 1];
    for (int i = 0; i < p; i++) {
      for (int j = 0; j < p; j++) {
        jacobian[i][j] = turn[i][j] / shape;
        gamma[i] += jacobian[i][j] * best.at()[j];
      }
      jacobian[i][p] = -gamma[i];
    }
    gamma[0] += data.centre;
    jacobian[p][p] = 1;
    covariance = carried(jacobian);
    z = Quantiles.twoSidedNormal(settings.confidence());
    profile =
        settings.limits() == LimitMethod.PROFILE
            ? Optional.of(new RegressionProfile(design, data, best, settings.confidence()))
            : Optional.empty();
  }

  /** From scaled columns to those given, before division by the shape. */
  private double[][] turn(int p) {
    double[][] turn = new double[p][p];
    turn[0][0] = 1;
    for (int j = 1; j < p; j++) {
      turn[j][j] = 1 / design.scale(j);
      turn[0][j] = -design.centre(j) / design.scale(j);
    }
    return turn;
  }

  private double[][] carried(double[][] jacobian) {
    int n = jacobian.length;
    double[][] half = product(jacobian, scaled);
    double[][] full = new double[n][n];
    for (int i = 0; i < n; i++) {
      for (int j = 0; j <= i; j++) {
        double sum = RowSpace.dot(half[i], jacobian[j]);
        full[i][j] = sum;
        full[j][i] = sum;
      }
    }
    return full;
  }

  private static double[][] product(double[][] a, double[][] b) {
    int n = b.length;
    double[][] c = new double[n][n];
    for (int i = 0; i < n; i++) {
      for (int k = 0; k < n; k++) {
        double weight = a[i][k];
        for (int j = 0; weight != 0 && j < n; j++) {
          c[i][j] += weight * b[k][j];
        }
      }
    }
    return c;
  }

  boolean isFinite() {
    for (int i = 0; i < covariance.length; i++) {
      boolean value = i == gamma.length || Math.abs(gamma[i]) < Double.POSITIVE_INFINITY;
      if (!(value && covariance[i][i] > 0 && covariance[i][i] < Double.POSITIVE_INFINITY)) {
        return false;
      }
    }
    return shape > 0 && shape < Double.POSITIVE_INFINITY;
  }

  Estimate shape() {
    if (profile.isPresent()) {
      return profile.get().shape();
    }
    double factor = Math.exp(z * Math.sqrt(covariance[gamma.length][gamma.length]));
    return new Estimate(shape, shape / factor, shape * factor);
  }

  List<Coefficient> coefficients() {
    List<Coefficient> all = new ArrayList<>();
    for (int j = 0; j < gamma.length; j++) {
      all.add(coefficient(j));
    }
    return all;
  }

  private Coefficient coefficient(int j) {
    double error = Math.sqrt(covariance[j][j]);
    Estimate value =
        profile.isPresent()
            ? profile.get().coefficient(j, gamma[j], error)
            : new Estimate(gamma[j], gamma[j] - z * error, gamma[j] + z * error);
    double ratio = gamma[j] / error;
    double p = Math.min(1, 2 * Quantiles.normalShare(-Math.abs(ratio)));
    if (j == 0) {
      return new Coefficient(
          design.names().get(0), value, error, ratio, p, Optional.empty(), Optional.empty());
    }
    return new Coefficient(
        design.names().get(j),
        value,
        error,
        ratio,
        p,
        Optional.of(
            new Estimate(
                Math.exp(value.estimate()), Math.exp(value.lower()), Math.exp(value.upper()))),
        Optional.of(hazardRatio(j)));
  }

  /** -shape coefficient is -theta over the scale of the column, so its error is at hand. */
  private Estimate hazardRatio(int j) {
    double log = -shape * gamma[j];
    double half = z * Math.sqrt(scaled[j][j]) / design.scale(j);
    return new Estimate(Math.exp(log), Math.exp(log - half), Math.exp(log + half));
  }

  List<List<Double>> covariance() {
    List<List<Double>> rows = new ArrayList<>();
    for (double[] row : covariance) {
      List<Double> cells = new ArrayList<>();
      for (double value : row) {
        cells.add(value);
      }
      rows.add(cells);
    }
    return rows;
  }
}

package org.vaneward.stats.regression;

import java.util.ArrayList;
import java.util.List;

/**
 * Linear equations row'x = value, taken in one by one and kept as an orthonormal basis: whether
 * they agree, their smallest solution, and the directions they leave free.
 */
final class RowSpace {
  /** Distance of a row of length 1 from the others' span below which it lies in it. */
  static final double DEPENDENT = 1e-9;

  private final int columns;
  private final List<double[]> basis = new ArrayList<>();
  private final List<Double> values = new ArrayList<>();

  RowSpace(int columns) {
    this.columns = columns;
  }

  boolean isFull() {
    return basis.size() == columns;
  }

  /**
   * Takes in an equation.
   *
   * @return by how much it disagrees with those before it, were it scaled to length 1; 0 when it is
   *     independent of them
   */
  double add(double[] row, double value) {
    double size = norm(row);
    if (!(size > 0)) {
      return Math.abs(value);
    }
    double[] v = new double[columns];
    for (int i = 0; i < columns; i++) {
      v[i] = row[i] / size;
    }
    double rest = orthogonalise(v, value / size);
    double left = norm(v);
    if (left <= DEPENDENT) {
      return Math.abs(rest);
    }
    for (int i = 0; i < columns; i++) {
      v[i] /= left;
    }
    basis.add(v);
    values.add(rest / left);
    return 0;
  }

  private double orthogonalise(double[] v, double value) {
    double rest = value;
    for (int twice = 0; twice < 2; twice++) {
      for (int k = 0; k < basis.size(); k++) {
        double[] q = basis.get(k);
        double along = dot(q, v);
        rest -= along * values.get(k);
        for (int i = 0; i < columns; i++) {
          v[i] -= along * q[i];
        }
      }
    }
    return rest;
  }

  /** The shortest x that meets the equations. */
  double[] solution() {
    double[] x = new double[columns];
    for (int k = 0; k < basis.size(); k++) {
      for (int i = 0; i < columns; i++) {
        x[i] += values.get(k) * basis.get(k)[i];
      }
    }
    return x;
  }

  /** An orthonormal basis of the x that all rows are at right angles to. */
  List<double[]> free() {
    RowSpace all = new RowSpace(columns);
    for (double[] q : basis) {
      all.add(q, 0);
    }
    List<double[]> free = new ArrayList<>();
    while (!all.isFull()) {
      double[] best = new double[0];
      double most = 0;
      for (int j = 0; j < columns; j++) {
        double[] unit = new double[columns];
        unit[j] = 1;
        all.orthogonalise(unit, 0);
        double left = norm(unit);
        if (left > most) {
          most = left;
          best = unit;
        }
      }
      all.add(best, 0);
      free.add(all.basis.get(all.basis.size() - 1));
    }
    return free;
  }

  static double dot(double[] v, double[] w) {
    double sum = 0;
    for (int i = 0; i < v.length; i++) {
      sum += v[i] * w[i];
    }
    return sum;
  }

  static double norm(double[] v) {
    return Math.sqrt(dot(v, v));
  }
}

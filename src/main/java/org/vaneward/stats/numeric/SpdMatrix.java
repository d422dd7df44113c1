package org.vaneward.stats.numeric;

import java.util.Optional;
import org.apache.commons.math3.exception.MaxCountExceededException;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.CholeskyDecomposition;
import org.apache.commons.math3.linear.EigenDecomposition;
import org.apache.commons.math3.linear.NonPositiveDefiniteMatrixException;

/**
 * A symmetric positive definite matrix, factored: an information matrix and the covariance that is
 * its inverse.
 *
 * <p>The matrix is scaled to unit diagonal before it is factored, so that what counts as singular
 * does not depend on units: {@link #smallestEigenvalue} is that of the scaled matrix, 1 for
 * unrelated parameters and 0 for a singular matrix.
 */
public final class SpdMatrix {
  /** A pivot of the scaled matrix below this is singular to the digits a double has. */
  private static final double SINGULAR = 1e-13;

  private final double[] root;
  private final CholeskyDecomposition scaled;
  private final double smallestEigenvalue;

  private SpdMatrix(double[] root, CholeskyDecomposition scaled, double smallestEigenvalue) {
    this.root = root;
    this.scaled = scaled;
    this.smallestEigenvalue = smallestEigenvalue;
  }

  /**
   * Factors a matrix; its lower triangle is taken for the upper one as well.
   *
   * @param matrix n x n, n at least 1. Not modified.
   * @return the factored matrix; empty when it is not positive definite or holds a value that is
   *     not finite
   */
  public static Optional<SpdMatrix> of(double[][] matrix) {
    int n = matrix.length;
    double[] root = new double[n];
    for (int i = 0; i < n; i++) {
      root[i] = Math.sqrt(matrix[i][i]);
      if (!(root[i] > 0 && root[i] < Double.POSITIVE_INFINITY)) {
        return Optional.empty();
      }
    }
    double[][] unit = new double[n][n];
    for (int i = 0; i < n; i++) {
      unit[i][i] = 1;
      for (int j = 0; j < i; j++) {
        double c = matrix[i][j] / root[i] / root[j];
        if (!(Math.abs(c) <= 1)) {
          return Optional.empty();
        }
        unit[i][j] = c;
        unit[j][i] = c;
      }
    }
    return factored(root, new Array2DRowRealMatrix(unit, false));
  }

  private static Optional<SpdMatrix> factored(double[] root, Array2DRowRealMatrix unit) {
    try {
      CholeskyDecomposition scaled = new CholeskyDecomposition(unit, 1e-15, SINGULAR);
      double least = Double.POSITIVE_INFINITY;
      for (double value : new EigenDecomposition(unit).getRealEigenvalues()) {
        least = Math.min(least, value);
      }
      return least > 0 ? Optional.of(new SpdMatrix(root, scaled, least)) : Optional.empty();
    } catch (NonPositiveDefiniteMatrixException | MaxCountExceededException e) {
      // the second: eigenvalues of a matrix next to singular may not be found
      return Optional.empty();
    }
  }

  /** Least eigenvalue of the matrix scaled to unit diagonal: between 0 and 1. */
  public double smallestEigenvalue() {
    return smallestEigenvalue;
  }

  /** Log of the determinant. */
  public double logDeterminant() {
    double sum = 0;
    for (int i = 0; i < root.length; i++) {
      sum += Math.log(root[i]) + Math.log(scaled.getL().getEntry(i, i));
    }
    return 2 * sum;
  }

  /**
   * Solves matrix x = b.
   *
   * @param b length n. Not modified.
   */
  public double[] solve(double[] b) {
    double[] x = new double[root.length];
    for (int i = 0; i < x.length; i++) {
      x[i] = b[i] / root[i];
    }
    x = scaled.getSolver().solve(new ArrayRealVector(x, false)).toArray();
    for (int i = 0; i < x.length; i++) {
      x[i] /= root[i];
    }
    return x;
  }

  /** The inverse, n x n, symmetric. */
  public double[][] inverse() {
    double[][] inverse = scaled.getSolver().getInverse().getData();
    for (int i = 0; i < root.length; i++) {
      for (int j = 0; j <= i; j++) {
        double value = (inverse[i][j] + inverse[j][i]) / 2 / root[i] / root[j];
        inverse[i][j] = value;
        inverse[j][i] = value;
      }
    }
    return inverse;
  }
}

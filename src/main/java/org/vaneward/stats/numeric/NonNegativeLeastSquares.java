package org.vaneward.stats.numeric;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * Least squares with no negative weight: the point of a cone nearest to a given point, by the
 * active-set method of C. L. Lawson and R. J. Hanson (Solving Least Squares Problems, 1974, ch.
 * 23).
 *
 * <p>By the theorems of the alternative the remainder decides whether linear inequalities hold
 * together: {@link #remainder} r has no positive product with any column, and is zero exactly when
 * the point lies in the cone.
 */
public final class NonNegativeLeastSquares {
  /** Cosine of an angle between the remainder and a column that counts as none. */
  private static final double LEVEL = 1e-10;

  /** A column that lies nearer than this to the span of others adds nothing. */
  private static final double DEPENDENT = 1e-12;

  private final double[][] columns;
  private final double[] point;
  private final List<Integer> used = new ArrayList<>();
  private double[] weights = new double[0];

  private NonNegativeLeastSquares(double[][] columns, double[] point) {
    this.columns = columns;
    this.point = point;
  }

  /**
   * The point less its nearest point in the cone that the columns span.
   *
   * @param columns each as long as the point, of length 1 or so. Not modified.
   * @param point what to come near to. Not modified.
   */
  public static double[] remainder(double[][] columns, double[] point) {
    return new NonNegativeLeastSquares(columns, point).run();
  }

  private double[] run() {
    boolean[] refused = new boolean[columns.length];
    double[] rest = point.clone();
    for (int i = 0; i < 3 * (columns.length + point.length); i++) {
      int entering = steepest(rest, refused);
      if (entering < 0) {
        return rest;
      }
      used.add(entering);
      double[] longer = new double[used.size()];
      System.arraycopy(weights, 0, longer, 0, weights.length);
      weights = longer;
      double[] best = solve();
      if (best.length == 0 || !(best[best.length - 1] > 0)) {
        refused[entering] = true;
        used.remove(used.size() - 1);
        weights = Arrays.copyOf(weights, weights.length - 1);
        continue;
      }
      retreat(best);
      double[] next = rest();
      if (norm(next) < norm(rest)) {
        Arrays.fill(refused, false);
      } else {
        refused[entering] = true;
      }
      rest = next;
    }
    return rest;
  }

  private int steepest(double[] rest, boolean[] refused) {
    int best = -1;
    double most = LEVEL * norm(rest);
    for (int j = 0; j < columns.length; j++) {
      double w = dot(columns[j], rest);
      if (w > most && !refused[j] && !used.contains(j)) {
        most = w;
        best = j;
      }
    }
    return best;
  }

  /** Moves to the unconstrained solution, giving up columns whose weight would turn negative. */
  private void retreat(double[] unconstrained) {
    double[] best = unconstrained;
    while (true) {
      double share = 1;
      for (int i = 0; i < best.length; i++) {
        if (!(best[i] > 0)) {
          share = Math.min(share, weights[i] / (weights[i] - best[i]));
        }
      }
      for (int i = 0; i < best.length; i++) {
        weights[i] += share * (best[i] - weights[i]);
      }
      if (share == 1) {
        return;
      }
      drop(best);
      best = solve();
    }
  }

  private void drop(double[] best) {
    double least = Double.POSITIVE_INFINITY;
    int first = 0;
    for (int i = 0; i < best.length; i++) {
      if (best[i] <= 0 && weights[i] < least) {
        least = weights[i];
        first = i;
      }
    }
    used.remove(first);
    double[] shorter = new double[weights.length - 1];
    for (int i = 0, k = 0; i < weights.length; i++) {
      if (i != first) {
        shorter[k++] = weights[i];
      }
    }
    weights = shorter;
  }

  /** Least squares on the used columns, by orthogonalising; empty when they are dependent. */
  private double[] solve() {
    int n = used.size();
    double[][] q = new double[n][];
    double[][] r = new double[n][n];
    for (int j = 0; j < n; j++) {
      double[] v = columns[used.get(j)].clone();
      double size = norm(v);
      for (int twice = 0; twice < 2; twice++) {
        for (int k = 0; k < j; k++) {
          double along = dot(q[k], v);
          r[k][j] += along;
          subtract(v, along, q[k]);
        }
      }
      r[j][j] = norm(v);
      if (!(r[j][j] > DEPENDENT * size)) {
        return new double[0];
      }
      for (int i = 0; i < v.length; i++) {
        v[i] /= r[j][j];
      }
      q[j] = v;
    }
    double[] x = new double[n];
    for (int j = n - 1; j >= 0; j--) {
      double sum = dot(q[j], point);
      for (int k = j + 1; k < n; k++) {
        sum -= r[j][k] * x[k];
      }
      x[j] = sum / r[j][j];
    }
    return x;
  }

  private double[] rest() {
    double[] rest = point.clone();
    for (int i = 0; i < weights.length; i++) {
      subtract(rest, weights[i], columns[used.get(i)]);
    }
    return rest;
  }

  private static void subtract(double[] v, double times, double[] w) {
    for (int i = 0; i < v.length; i++) {
      v[i] -= times * w[i];
    }
  }

  private static double dot(double[] v, double[] w) {
    double sum = 0;
    for (int i = 0; i < v.length; i++) {
      sum += v[i] * w[i];
    }
    return sum;
  }

  private static double norm(double[] v) {
    return Math.sqrt(dot(v, v));
  }
}

package org.vaneward.stats.mixture;

/**
 * Log-likelihood of a mixture of two Weibulls: exact, right-censored, interval, entry ages, counts.
 *
 * <p>Each life adds log[p g1 + (1 - p) g2], with g the density, the survival or the chance of the
 * interval by each component, less the same of its survival to entry: a life that came under
 * observation late says what it says on condition that the mixture, not one component, let it come
 * so far. Sums are taken by logs, so that neither component can underflow the other.
 */
final class MixtureLikelihood {
  private static final int N = 5;

  final Rows rows;

  private final ComponentTerm one = new ComponentTerm();
  private final ComponentTerm two = new ComponentTerm();
  private final double constant;

  MixtureLikelihood(Rows rows) {
    this.rows = rows;
    constant = -rows.exactLogAges - rows.exact * rows.centre;
  }

  /** Value and derivatives at a point, and how many failures each component rests on. */
  static final class At {
    double value;
    final double[] gradient = new double[N];
    final double[][] hessian = new double[N][N];
    double failures1;
    double failures2;
  }

  /** Log-likelihood alone; negative infinity where it is not a number. */
  double value(Point p) {
    double logShare = p.logShare();
    double logRest = p.logRest();
    double b1 = Math.exp(p.logShape1());
    double b2 = Math.exp(p.logShape2());
    double sum = constant;
    for (int i = 0; i < rows.size; i++) {
      fill(i, p, b1, b2);
      double log = logSum(logShare + one.value, logRest + two.value);
      if (rows.entry[i] > Double.NEGATIVE_INFINITY) {
        double y = rows.entry[i];
        log -=
            logSum(
                logShare - Math.exp(b1 * (y - p.logScale1())),
                logRest - Math.exp(b2 * (y - p.logScale2())));
      }
      sum += rows.count[i] * log;
    }
    return sum > Double.NEGATIVE_INFINITY && sum < Double.POSITIVE_INFINITY
        ? sum
        : Double.NEGATIVE_INFINITY;
  }

  At derivatives(Point p) {
    At at = new At();
    double logShare = p.logShare();
    double logRest = p.logRest();
    double share = p.share();
    double b1 = Math.exp(p.logShape1());
    double b2 = Math.exp(p.logShape2());
    at.value = constant;
    for (int i = 0; i < rows.size; i++) {
      double n = rows.count[i];
      fill(i, p, b1, b2);
      double chance = add(at, n, logShare, logRest, share);
      if (!rows.isRightCensored(i)) {
        at.failures1 += n * chance;
        at.failures2 += n * (1 - chance);
      }
      if (rows.entry[i] > Double.NEGATIVE_INFINITY) {
        one.outlived(rows.entry[i], b1, p.logScale1());
        two.outlived(rows.entry[i], b2, p.logScale2());
        add(at, -n, logShare, logRest, share);
      }
    }
    mirror(at.hessian);
    return at;
  }

  private static void mirror(double[][] hessian) {
    for (int i = 0; i < N; i++) {
      for (int j = 0; j < i; j++) {
        hessian[i][j] = hessian[j][i];
      }
    }
  }

  /** The terms of both components for row i. */
  private void fill(int i, Point p, double b1, double b2) {
    fill(one, i, p.logShape1(), b1, p.logScale1());
    fill(two, i, p.logShape2(), b2, p.logScale2());
  }

  void fill(ComponentTerm term, int i, double logShape, double shape, double logScale) {
    if (rows.isRightCensored(i)) {
      term.outlived(rows.lower[i], shape, logScale);
    } else if (rows.isExact(i)) {
      term.failed(rows.lower[i], logShape, shape, logScale);
    } else {
      term.within(rows.lower[i], rows.upper[i], rows.width[i], shape, logScale);
    }
  }

  /**
   * Adds n times log[exp(log share + one) + exp(log rest + two)] and its derivatives.
   *
   * @return the chance of the first component
   */
  private double add(At at, double n, double logShare, double logRest, double share) {
    double a = logShare + one.value;
    double b = logRest + two.value;
    at.value += n * logSum(a, b);
    double r1 = a == b ? 0.5 : 1 / (1 + Math.exp(b - a));
    double r2 = a == b ? 0.5 : 1 / (1 + Math.exp(a - b));
    double rest = 1 - share;
    at.gradient[0] += n * (r1 * rest - r2 * share);
    at.hessian[0][0] += n * (r1 * r2 - share * rest);
    // r1 and r2 may be 0 where a term has overflowed: it then has no say.
    if (r1 > 0) {
      at.gradient[1] += n * r1 * one.s;
      at.gradient[2] += n * r1 * one.u;
      at.hessian[1][1] += n * r1 * (one.ss + r2 * one.s * one.s);
      at.hessian[1][2] += n * r1 * (one.us + r2 * one.s * one.u);
      at.hessian[2][2] += n * r1 * (one.uu + r2 * one.u * one.u);
    }
    if (r2 > 0) {
      at.gradient[3] += n * r2 * two.s;
      at.gradient[4] += n * r2 * two.u;
      at.hessian[3][3] += n * r2 * (two.ss + r1 * two.s * two.s);
      at.hessian[3][4] += n * r2 * (two.us + r1 * two.s * two.u);
      at.hessian[4][4] += n * r2 * (two.uu + r1 * two.u * two.u);
    }
    double both = n * r1 * r2;
    if (both != 0) {
      at.hessian[0][1] += both * one.s;
      at.hessian[0][2] += both * one.u;
      at.hessian[0][3] -= both * two.s;
      at.hessian[0][4] -= both * two.u;
      at.hessian[1][3] -= both * one.s * two.s;
      at.hessian[1][4] -= both * one.s * two.u;
      at.hessian[2][3] -= both * one.u * two.s;
      at.hessian[2][4] -= both * one.u * two.u;
    }
    return r1;
  }

  static double logSum(double a, double b) {
    double top = Math.max(a, b);
    return top == Double.NEGATIVE_INFINITY ? top : top + Math.log1p(Math.exp(Math.min(a, b) - top));
  }

  /**
   * On how many distinct failure ages (or intervals) a component rests: Kish's effective number,
   * (sum w)^2 / sum w^2, of the weights of the ages.
   */
  double distinctAges(Point p, boolean first) {
    double b1 = Math.exp(p.logShape1());
    double b2 = Math.exp(p.logShape2());
    double sum = 0;
    double squares = 0;
    double weight = 0;
    for (int i = 0; i < rows.size; i++) {
      if (rows.isRightCensored(i)) {
        continue;
      }
      fill(i, p, b1, b2);
      double gap = p.logit() + one.value - two.value;
      boolean sameAge =
          i > 0 && rows.lower[i] == rows.lower[i - 1] && rows.upper[i] == rows.upper[i - 1];
      if (!sameAge) {
        squares += weight * weight;
        weight = 0;
      }
      double w = rows.count[i] / (1 + Math.exp(first ? -gap : gap));
      weight += w;
      sum += w;
    }
    squares += weight * weight;
    return squares > 0 ? sum * sum / squares : 0;
  }
}

package org.vaneward.stats.mixture;

/**
 * One step of the EM gradient algorithm (K. Lange, Journal of the Royal Statistical Society B 57,
 * 1995, 425–437, from memory): the chances of the components given each life, the share from their
 * sum, and one Newton step on each component's weighted likelihood in place of a full fit.
 *
 * <p>Delayed entry: a life seen from age a on stands for others that had failed before a and were
 * never seen. Their expected number by component, p F(a) / S(a) with S the mixture's, is part of
 * the E step; each adds log F(a) to its component (A. P. Dempster, N. M. Laird and D. B. Rubin,
 * Journal of the Royal Statistical Society B 39, 1977, section 4.2, from memory). Without them the
 * components would be fitted to survivors only.
 */
final class EmStep {
  /** A unseen life never counts for more than this many seen ones. */
  private static final double MOST_UNSEEN = 1e6;

  private static final double LONGEST = 1.5;

  private final MixtureLikelihood likelihood;
  private final Rows rows;
  private final ComponentTerm one = new ComponentTerm();
  private final ComponentTerm two = new ComponentTerm();
  private double[] sums1 = new double[6];
  private double[] sums2 = new double[6];

  EmStep(MixtureLikelihood likelihood) {
    this.likelihood = likelihood;
    rows = likelihood.rows;
  }

  /** The point after at most so many steps, each no worse than the one before. */
  Point run(Point start, int steps) {
    Point at = start;
    double value = likelihood.value(at);
    for (int k = 0; k < steps; k++) {
      double[] step = step(at);
      double factor = Math.min(1, LONGEST / at.length(step));
      Point next = at;
      double better = Double.NEGATIVE_INFINITY;
      for (int halvings = 0; halvings < 8 && !(better >= value); halvings++) {
        next = at.plus(step, factor);
        better = likelihood.value(next);
        factor /= 2;
      }
      if (!(better >= value)) {
        return at;
      }
      at = next;
      value = better;
    }
    return at;
  }

  private double[] step(Point p) {
    sums1 = new double[6];
    sums2 = new double[6];
    double logShare = p.logShare();
    double logRest = p.logRest();
    double b1 = Math.exp(p.logShape1());
    double b2 = Math.exp(p.logShape2());
    for (int i = 0; i < rows.size; i++) {
      double n = rows.count[i];
      likelihood.fill(one, i, p.logShape1(), b1, p.logScale1());
      likelihood.fill(two, i, p.logShape2(), b2, p.logScale2());
      double a = logShare + one.value;
      double b = logRest + two.value;
      add(n, a, b, MixtureLikelihood.logSum(a, b));
      if (rows.entry[i] > Double.NEGATIVE_INFINITY) {
        unseen(p, i, b1, b2);
      }
    }
    double logit = Math.log(sums1[5]) - Math.log(sums2[5]);
    double[] first = newton(sums1, b1);
    double[] second = newton(sums2, b2);
    double shift = logit - p.logit();
    return new double[] {
      Math.abs(shift) < Double.POSITIVE_INFINITY ? shift : 0,
      first[0],
      first[1],
      second[0],
      second[1]
    };
  }

  private void unseen(Point p, int i, double b1, double b2) {
    double y = rows.entry[i];
    double h1 = Math.exp(b1 * (y - p.logScale1()));
    double h2 = Math.exp(b2 * (y - p.logScale2()));
    double alive = MixtureLikelihood.logSum(p.logShare() - h1, p.logRest() - h2);
    one.within(Double.NEGATIVE_INFINITY, y, Double.POSITIVE_INFINITY, b1, p.logScale1());
    two.within(Double.NEGATIVE_INFINITY, y, Double.POSITIVE_INFINITY, b2, p.logScale2());
    add(rows.count[i], p.logShare() + one.value, p.logRest() + two.value, alive);
  }

  /** Weighs the terms of both components and adds them up. */
  private void add(double n, double a, double b, double total) {
    add(sums1, one, n * Math.min(Math.exp(a - total), MOST_UNSEEN));
    add(sums2, two, n * Math.min(Math.exp(b - total), MOST_UNSEEN));
  }

  private static void add(double[] sums, ComponentTerm term, double weight) {
    if (weight > 0) {
      sums[0] += weight * term.s;
      sums[1] += weight * term.u;
      sums[2] += weight * term.ss;
      sums[3] += weight * term.us;
      sums[4] += weight * term.uu;
      sums[5] += weight;
    }
  }

  /**
   * Newton's step in (log shape, log scale), or one up the slope where the surface is not domed.
   */
  private static double[] newton(double[] sums, double shape) {
    double determinant = sums[2] * sums[4] - sums[3] * sums[3];
    if (sums[2] < 0 && sums[4] < 0 && determinant > 0) {
      return new double[] {
        -(sums[4] * sums[0] - sums[3] * sums[1]) / determinant,
        -(sums[2] * sums[1] - sums[3] * sums[0]) / determinant
      };
    }
    double weight = sums[5] > 0 ? sums[5] : 1;
    return new double[] {sums[0] / weight, sums[1] / weight / (shape * shape)};
  }
}

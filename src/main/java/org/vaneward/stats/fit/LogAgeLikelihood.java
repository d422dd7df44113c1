package org.vaneward.stats.fit;

import org.vaneward.stats.fit.WeibullLikelihood.Derivatives;

/**
 * Log-likelihood of one group of lives when log age has a location and a spread: survival to log
 * age y (on a centred scale) depends on {@code shape y - k} alone, with {@code shape = 1 / spread}
 * and {@code k = location / spread}. For a given shape it is concave in k.
 */
interface LogAgeLikelihood extends ShapeProfile {
  /** Log age from which the centred log ages are counted. */
  double centre();

  /** The log-likelihood at one shape. */
  Slice slice(double logShape);

  /** The log-likelihood at one shape, a concave function of k. */
  interface Slice {
    double shape();

    /** Best k. */
    double k();

    double value(double atK);

    /** Value with its derivatives in k and log shape, k held fixed in the latter. */
    Derivatives derivatives(double atK);

    /** The profile in log shape here, k at its best. */
    Point profile();

    /** Value and derivatives in k; the others need not be computed. */
    Derivatives inK(double atK);

    /** A step in k, relative, of a few units in the last place. */
    double FINEST = 4e-15;

    /** Steps in k below this that no longer shrink are rounding. */
    double ALMOST = 1e-9;

    /** Most steps in k. */
    int MOST_STEPS = 200;

    /**
     * Where the log-likelihood has dropped from its best at this shape: below the best k or above.
     *
     * @param drop by how much; at most 0 gives the best k
     */
    default double edge(double drop, boolean above) {
      if (!(drop > 0)) {
        return k();
      }
      Derivatives top = inK(k());
      double level = top.value() - drop;
      double step = Math.sqrt(-2 * drop / top.kk());
      double at = outside(level, above ? step : -step);
      double before = Double.POSITIVE_INFINITY;
      for (int i = 0; i < MOST_STEPS; i++) {
        Derivatives d = inK(at);
        double move = (level - d.value()) / d.k();
        double size = Math.abs(move);
        at += move;
        // From outside, Newton on a concave function closes in from one side.
        if (!(size > FINEST * (1 + Math.abs(at))) || (size < ALMOST && size >= before)) {
          return at;
        }
        before = size;
      }
      return at;
    }

    private double outside(double level, double step) {
      double at = k() + step;
      for (int i = 0; i < MOST_STEPS && value(at) > level; i++) {
        at = k() + (at - k()) * 1.5;
      }
      return at;
    }
  }
}

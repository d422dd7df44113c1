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

    /**
     * Where the log-likelihood has dropped from its best at this shape: below the best k or above.
     *
     * @param drop by how much; at most 0 gives the best k
     */
    double edge(double drop, boolean above);
  }
}

package org.vaneward.stats.fit;

/** The log-likelihood as a function of log shape alone, every scale at its best. */
interface ShapeProfile {
  /** Value, slope and curvature at a log shape. */
  Point at(double logShape);

  /**
   * Greatest distance between two log ages of one group: what makes a shape large or small.
   * Positive.
   */
  double spread();

  /** A log shape to start from when {@link #singlePeaked}. */
  default double start() {
    return Math.log(4 / spread());
  }

  /** Number of failures, counts summed. */
  double failures();

  /**
   * Whether the slope in the shape is known to fall throughout, so that a stationary point is the
   * one maximum.
   */
  boolean singlePeaked();

  /**
   * A point of the profile.
   *
   * @param value log-likelihood; negative infinity where it cannot be computed
   * @param slope first derivative in log shape
   * @param curvature second derivative in log shape
   */
  record Point(double value, double slope, double curvature) {}
}

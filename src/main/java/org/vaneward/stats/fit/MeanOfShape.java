package org.vaneward.stats.fit;

import org.apache.commons.numbers.gamma.Digamma;
import org.apache.commons.numbers.gamma.LogGamma;

/** The part of the log of a mean life that depends on the shape alone. */
enum MeanOfShape {
  /** log Gamma(1 + 1 / shape). */
  WEIBULL {
    @Override
    double log(double shape) {
      return LogGamma.value(1 + 1 / shape);
    }

    @Override
    double slope(double shape) {
      return -Digamma.value(1 + 1 / shape) / shape;
    }
  },
  /** Half the square of the spread 1 / shape. */
  LOGNORMAL {
    @Override
    double log(double shape) {
      return 1 / (2 * shape * shape);
    }

    @Override
    double slope(double shape) {
      return -1 / (shape * shape);
    }
  };

  abstract double log(double shape);

  /** Derivative in log shape. */
  abstract double slope(double shape);
}

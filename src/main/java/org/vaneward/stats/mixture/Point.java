package org.vaneward.stats.mixture;

import org.vaneward.stats.distribution.TwoWeibulls;
import org.vaneward.stats.distribution.Weibull;

/**
 * Parameters of a mixture as the climbs use them, ages about the centre of the rows.
 *
 * @param logit log of share over 1 - share
 * @param logShape1 of the first component
 * @param logScale1 of the first component
 * @param logShape2 of the second component
 * @param logScale2 of the second component
 */
record Point(double logit, double logShape1, double logScale1, double logShape2, double logScale2) {

  double share() {
    return 1 / (1 + Math.exp(-logit));
  }

  double logShare() {
    return -Math.log1p(Math.exp(-logit));
  }

  double logRest() {
    return -Math.log1p(Math.exp(logit));
  }

  /** The point a step away, the step cut short by a factor. */
  Point plus(double[] step, double factor) {
    return new Point(
        logit + factor * step[0],
        logShape1 + factor * step[1],
        logScale1 + factor * step[2],
        logShape2 + factor * step[3],
        logScale2 + factor * step[4]);
  }

  /** Components in order of scale; of equal scales the greater shape comes first. */
  Point ordered() {
    boolean inOrder = logScale1 < logScale2 || (logScale1 == logScale2 && logShape1 >= logShape2);
    return inOrder ? this : new Point(-logit, logShape2, logScale2, logShape1, logScale1);
  }

  TwoWeibulls law(double centre) {
    return new TwoWeibulls(
        share(),
        new Weibull(Math.exp(logShape1), Math.exp(centre + logScale1)),
        new Weibull(Math.exp(logShape2), Math.exp(centre + logScale2)));
  }

  /** Whether a distribution can be made of it at all. */
  boolean holdable(double centre) {
    double share = share();
    return share > 0
        && share < 1
        && positive(Math.exp(logShape1))
        && positive(Math.exp(logShape2))
        && positive(Math.exp(centre + logScale1))
        && positive(Math.exp(centre + logScale2));
  }

  private static boolean positive(double x) {
    return x > 0 && x < Double.POSITIVE_INFINITY;
  }

  /** Length of a step: the largest change of a log odds or of a z = shape (log age - log scale). */
  double length(double[] step) {
    double first = Math.max(Math.abs(step[1]), Math.exp(logShape1) * Math.abs(step[2]));
    double second = Math.max(Math.abs(step[3]), Math.exp(logShape2) * Math.abs(step[4]));
    return Math.max(Math.abs(step[0]), Math.max(first, second));
  }
}

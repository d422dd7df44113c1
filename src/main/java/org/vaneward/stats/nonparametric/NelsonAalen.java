package org.vaneward.stats.nonparametric;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import org.vaneward.stats.Observations;
import org.vaneward.stats.numeric.Quantiles;

/**
 * Nelson–Aalen estimate of the cumulative hazard: the sum over ages of failures / lives at risk (W.
 * Nelson, Journal of Quality Technology 1, 1969; O. O. Aalen, Annals of Statistics 6, 1978; from
 * memory). A straight line through 0 is a constant failure rate, one that bends up is wear-out.
 *
 * <p>A life is at risk at ages in (entry, age]; at equal ages failures come before suspensions. The
 * variance is the sum of failures / at risk squared; limits are symmetric in log cumulative hazard.
 * Interval failures are left out and counted. Unlike the product limit the estimate goes on when
 * all lives at risk early on fail.
 *
 * @param points one for each age at which a life failed, in order of age
 * @param confidence of the two-sided limits
 * @param lives number of lives taken in
 * @param events number of failures taken in
 * @param leftOut number of interval failures left out
 * @param lastAge greatest age to which a life was seen to run; 0 without lives
 */
public record NelsonAalen(
    List<Point> points,
    double confidence,
    double lives,
    double events,
    double leftOut,
    double lastAge) {
  /** Copies. */
  public NelsonAalen {
    points = List.copyOf(points);
  }

  /**
   * The curve just after an age at which lives failed.
   *
   * @param age the age
   * @param cumulativeHazard expected number of failures of one unit by this age, were it put back
   *     at the same age each time it fails
   * @param stdError its standard error
   * @param lower lower limit
   * @param upper upper limit
   * @param atRisk lives at risk just before
   * @param events lives that failed at this age
   */
  public record Point(
      double age,
      double cumulativeHazard,
      double stdError,
      double lower,
      double upper,
      double atRisk,
      double events) {}

  /**
   * The estimate.
   *
   * @param lives the lives
   * @param confidence of the two-sided limits, between 0 and 1
   * @throws IllegalArgumentException when the confidence is not between 0 and 1
   */
  public static NelsonAalen of(Observations lives, double confidence) {
    double z = Quantiles.twoSidedNormal(confidence);
    ProductLimit curve = ProductLimit.of(lives, confidence);
    List<Point> points = new ArrayList<>(curve.points().size());
    for (ProductLimit.Point p : curve.points()) {
      double hazard = p.cumulativeHazard();
      double stdError = p.cumulativeHazardStdError();
      double factor = Math.exp(z * stdError / hazard);
      points.add(
          new Point(
              p.age(), hazard, stdError, hazard / factor, hazard * factor, p.atRisk(), p.events()));
    }
    return new NelsonAalen(
        points, confidence, curve.lives(), curve.events(), curve.leftOut(), curve.lastAge());
  }

  /**
   * Cumulative hazard by {@code age}: a step function that rises at the ages of failure.
   *
   * @return empty beyond {@link #lastAge}, where nothing was seen
   */
  public OptionalDouble cumulativeHazardAt(double age) {
    if (!(age <= lastAge)) {
      return OptionalDouble.empty();
    }
    int low = 0;
    int high = points.size();
    while (low < high) {
      int middle = (low + high) >>> 1;
      if (points.get(middle).age() <= age) {
        low = middle + 1;
      } else {
        high = middle;
      }
    }
    return OptionalDouble.of(low == 0 ? 0 : points.get(low - 1).cumulativeHazard());
  }
}

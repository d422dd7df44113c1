package org.vaneward.stats.comparison;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.comparison.GammaPoisson.AgainstPoisson;
import org.vaneward.stats.comparison.GammaPoisson.Covariance;
import org.vaneward.stats.comparison.GammaPoisson.Proof;
import org.vaneward.stats.comparison.GammaPoisson.Spread;
import org.vaneward.stats.comparison.GammaPoisson.Unit;
import org.vaneward.stats.numeric.Minimum;
import org.vaneward.stats.numeric.Quantiles;
import org.vaneward.stats.numeric.SpdMatrix;

/**
 * The maximum of the count likelihood: the profile in log spread is looked over from a spread that
 * no count could show to one far beyond any, then Newton's method in (log spread, log mean) closes
 * in on the highest point.
 */
final class SpreadSearch {
  /** Largest gradient component per failure that counts as none. */
  private static final double STEEPEST = 1e-8;

  /** Smaller eigenvalue of the information scaled to unit diagonal that counts as none. */
  private static final double FLATTEST = 1e-10;

  /** A gain in log-likelihood over the Poisson one below this, per failure, is rounding. */
  private static final double NO_GAIN = 1e-12;

  /** The spread looked at first, times the greatest expected count. */
  private static final double LEAST_SPREAD = 1e-8;

  private static final double GREATEST_SPREAD = 1e8;
  private static final int POINTS = 161;
  private static final int MOST_STEPS = 60;

  private SpreadSearch() {}

  /** The fit; empty when the likelihood is no greater with a spread than without. */
  static Optional<GammaPoisson> fit(CountLikelihood likelihood, double confidence) {
    double low = Math.log(LEAST_SPREAD / Math.max(1, likelihood.greatestMean()));
    double high = Math.log(GREATEST_SPREAD);
    Minimum best =
        Minimum.between(r -> -likelihood.value(r, likelihood.bestLogMean(r)), low, high, POINTS);
    double poisson = likelihood.poisson();
    if (best.place() == Minimum.Place.NOWHERE || best.place() == Minimum.Place.UPPER_EDGE) {
      return Optional.of(unproved(likelihood));
    }
    double gain = -best.value() - poisson;
    if (best.place() == Minimum.Place.LOWER_EDGE || !(gain > NO_GAIN * likelihood.events())) {
      return Optional.empty();
    }
    double[] at = {best.at(), likelihood.bestLogMean(best.at())};
    int steps = climb(likelihood, at);
    double[] d = likelihood.derivatives(at[0], at[1]);
    Optional<SpdMatrix> information = SpdMatrix.of(new double[][] {{-d[2], -d[3]}, {-d[3], -d[4]}});
    double gradient = Math.max(Math.abs(d[0]), Math.abs(d[1])) / likelihood.events();
    double curvature = information.map(SpdMatrix::smallestEigenvalue).orElse(0.0);
    if (information.isEmpty() || !(gradient <= STEEPEST && curvature >= FLATTEST)) {
      return Optional.of(unproved(likelihood));
    }
    Proof proof = new Proof(steps, gradient, curvature);
    return Optional.of(
        spread(likelihood, at, information.get().inverse(), proof, poisson, confidence));
  }

  private static GammaPoisson unproved(CountLikelihood likelihood) {
    return new GammaPoisson.NotEstimable(
        likelihood.events(), likelihood.exposure(), "no maximum of the likelihood could be proved");
  }

  /** Newton steps from a point that is already all but the top. */
  private static int climb(CountLikelihood likelihood, double[] at) {
    for (int step = 1; step <= MOST_STEPS; step++) {
      double[] d = likelihood.derivatives(at[0], at[1]);
      Optional<SpdMatrix> information =
          SpdMatrix.of(new double[][] {{-d[2], -d[3]}, {-d[3], -d[4]}});
      if (information.isEmpty()) {
        return step;
      }
      double[] move = information.get().solve(new double[] {d[0], d[1]});
      at[0] += move[0];
      at[1] += move[1];
      if (Math.max(Math.abs(move[0]), Math.abs(move[1])) < 1e-13) {
        return step;
      }
    }
    return MOST_STEPS;
  }

  private static Spread spread(
      CountLikelihood likelihood,
      double[] at,
      double[][] v,
      Proof proof,
      double poisson,
      double confidence) {
    double shape = Math.exp(-at[0]);
    double rateParameter = Math.exp(-at[0] - at[1]);
    double value = likelihood.value(at[0], at[1]);
    double statistic = Math.max(0, 2 * (value - poisson));
    // log shape = -log spread; log rate parameter = -log spread - log mean
    Covariance covariance =
        new Covariance(v[0][0], v[0][0] + v[0][1], v[0][0] + 2 * v[0][1] + v[1][1]);
    return new Spread(
        shape,
        rateParameter,
        covariance,
        value,
        new AgainstPoisson(poisson, statistic, Quantiles.chiSquareTail(statistic, 1) / 2),
        units(likelihood, shape, rateParameter, confidence),
        likelihood.events(),
        likelihood.exposure(),
        confidence,
        proof);
  }

  private static List<Unit> units(
      CountLikelihood likelihood, double shape, double rateParameter, double confidence) {
    double tail = (1 - confidence) / 2;
    double mean = shape / rateParameter;
    List<Unit> units = new ArrayList<>();
    for (int i = 0; i < likelihood.units(); i++) {
      double a = shape + likelihood.count(i);
      double b = rateParameter + likelihood.exposure(i);
      Estimate rate =
          new Estimate(a / b, Quantiles.gamma(tail, a) / b, Quantiles.gamma(1 - tail, a) / b);
      double above = Quantiles.gammaTail(mean * b, a);
      units.add(new Unit(likelihood.count(i), likelihood.exposure(i), rate, above));
    }
    return units;
  }
}

package org.vaneward.stats.distribution;

import org.vaneward.stats.Observation;
import org.vaneward.stats.numeric.LogSpace;
import org.vaneward.stats.numeric.Roots;

/**
 * A mixture of two Weibull distributions: a life is of the first kind with the chance {@code
 * share}, of the second otherwise. S(t) = share S1(t) + (1 - share) S2(t).
 *
 * <p>Not a model of two causes that compete in every life: there each life runs against both
 * hazards, here against one of them.
 *
 * @param share chance of the first kind, between 0 and 1
 * @param first distribution of the first kind
 * @param second distribution of the second kind
 */
public record TwoWeibulls(double share, Weibull first, Weibull second) implements LifeDistribution {
  /**
   * A mixture.
   *
   * @throws IllegalArgumentException unless the share is between 0 and 1
   */
  public TwoWeibulls {
    if (!(share > 0 && share < 1)) {
      throw new IllegalArgumentException("a share is between 0 and 1, not " + share);
    }
  }

  /** Share that outlives {@code age}; 1 at and below age 0. */
  @Override
  public double survival(double age) {
    return share * first.survival(age) + (1 - share) * second.survival(age);
  }

  /** Share that has failed by {@code age}, with all its digits where it is small. */
  @Override
  public double failed(double age) {
    return share * first.failed(age) + (1 - share) * second.failed(age);
  }

  /** Log of the share that outlives {@code age}. */
  @Override
  public double logSurvival(double age) {
    return LogSpace.logSumExp(
        Math.log(share) + first.logSurvival(age), Math.log1p(-share) + second.logSurvival(age));
  }

  /** Log density of failures at {@code age}; negative infinity below age 0. */
  @Override
  public double logDensity(double age) {
    return LogSpace.logSumExp(
        Math.log(share) + first.logDensity(age), Math.log1p(-share) + second.logDensity(age));
  }

  /**
   * Failure rate at {@code age} of those that reached it: the mean of the two rates over the kinds
   * still alive. It may rise and fall more than once.
   */
  @Override
  public double hazard(double age) {
    double alive = firstAmongSurvivors(age);
    double early = alive > 0 ? alive * first.hazard(age) : 0;
    double late = alive < 1 ? (1 - alive) * second.hazard(age) : 0;
    return early + late;
  }

  /** Chance that a life that reached {@code age} is of the first kind. */
  public double firstAmongSurvivors(double age) {
    double h1 = first.cumulativeHazard(age);
    double h2 = second.cumulativeHazard(age);
    if (h1 == h2) {
      return h1 < Double.POSITIVE_INFINITY ? share : first.scale() > second.scale() ? 1 : 0;
    }
    return chance(Math.log(share) - h1, Math.log1p(-share) - h2);
  }

  /** Chance that a life of which this is known is of the first kind. */
  public double firstGiven(Observation life) {
    double logShare = Math.log(share);
    double logRest = Math.log1p(-share);
    if (life instanceof Observation.Exact x) {
      return chance(logShare + first.logDensity(x.age()), logRest + second.logDensity(x.age()));
    }
    if (life instanceof Observation.RightCensored x) {
      return firstAmongSurvivors(x.age());
    }
    Observation.Interval x = (Observation.Interval) life;
    return chance(logShare + logWithin(first, x), logRest + logWithin(second, x));
  }

  private static double logWithin(Weibull law, Observation.Interval x) {
    double further = law.failedWithin(x.lower(), x.upper() - x.lower());
    return law.logSurvival(x.lower()) + Math.log(further);
  }

  /** exp(a) / (exp(a) + exp(b)); where neither has a chance left, the one half. */
  private static double chance(double a, double b) {
    return a == b ? 0.5 : 1 / (1 + Math.exp(b - a));
  }

  /**
   * Age by which the share {@code p} has failed, by root finding in log age between the two kinds'
   * own such ages.
   *
   * @throws IllegalArgumentException unless {@code 0 < p < 1}
   */
  @Override
  public double quantile(double p) {
    return between(first.quantile(p), second.quantile(p), p, 1 - p);
  }

  /**
   * Age that the share {@code p} outlives, with all its digits for tiny shares.
   *
   * @throws IllegalArgumentException unless {@code 0 < p < 1}
   */
  @Override
  public double inverseSurvival(double p) {
    return between(first.inverseSurvival(p), second.inverseSurvival(p), 1 - p, p);
  }

  private double between(double one, double other, double failed, double alive) {
    double low = Math.min(one, other);
    double high = Math.max(one, other);
    if (!(low > 0 && high < Double.POSITIVE_INFINITY && Math.log(low) < Math.log(high))) {
      return low;
    }
    double log = failed < alive ? Math.log(failed) : Math.log(alive);
    return Math.exp(
        Roots.between(
                y ->
                    failed < alive
                        ? Math.log(failed(Math.exp(y))) - log
                        : log - logSurvival(Math.exp(y)),
                Math.log(low) - 1e-12,
                Math.log(high) + 1e-12)
            .orElse(Math.log(low)));
  }

  /** Mean life; infinite when beyond what a number can hold. */
  @Override
  public double mean() {
    return share * first.mean() + (1 - share) * second.mean();
  }
}

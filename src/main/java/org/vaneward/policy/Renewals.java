package org.vaneward.policy;

import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.vaneward.stats.distribution.Exponential;
import org.vaneward.stats.distribution.LifeDistribution;
import org.vaneward.stats.distribution.Lognormal;
import org.vaneward.stats.distribution.TwoWeibulls;
import org.vaneward.stats.distribution.Weibull;
import org.vaneward.stats.renewal.RenewalFunction;

/**
 * Renewal functions of lives, each solved once: Weibull lives of one shape share a solution.
 * Several threads may ask at once.
 */
public final class Renewals {
  private final Map<Double, RenewalFunction> byShape = new ConcurrentHashMap<>();
  private final Map<LifeDistribution, RenewalFunction> others = new ConcurrentHashMap<>();

  RenewalFunction of(LifeDistribution life) {
    if (life instanceof Weibull weibull) {
      return byShape
          .computeIfAbsent(weibull.shape(), shape -> RenewalFunction.of(new Weibull(shape, 1)))
          .scaled(weibull.scale());
    }
    return others.computeIfAbsent(life, l -> RenewalFunction.of(l, feature(l)));
  }

  /** Length over which the density changes. */
  private static double feature(LifeDistribution life) {
    if (life instanceof TwoWeibulls two) {
      return Math.min(feature(two.first()), feature(two.second()));
    }
    if (life instanceof Weibull weibull) {
      return weibull.shape() > 1 ? weibull.standardDeviation() : Double.POSITIVE_INFINITY;
    }
    if (life instanceof Lognormal lognormal) {
      return lognormal.quantile(0.5) * Math.min(1, lognormal.spread());
    }
    if (life instanceof Exponential) {
      return Double.POSITIVE_INFINITY;
    }
    throw new IllegalArgumentException("no feature is known of " + life);
  }
}

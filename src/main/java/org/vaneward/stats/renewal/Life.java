package org.vaneward.stats.renewal;

import org.vaneward.stats.distribution.LifeDistribution;
import org.vaneward.stats.distribution.Weibull;

/** What a renewal function needs to know of a life; ages have any one unit. */
public interface Life {
  /** Share that has failed by {@code age}, with all its digits where it is small. */
  double failed(double age);

  /** Density of failures at {@code age} above 0. */
  double density(double age);

  /** The life of a distribution. */
  static Life of(LifeDistribution distribution) {
    if (distribution instanceof Weibull weibull) {
      return new WeibullLife(weibull);
    }
    return new Life() {
      @Override
      public double failed(double age) {
        return distribution.failed(age);
      }

      @Override
      public double density(double age) {
        return Math.exp(distribution.logDensity(age));
      }
    };
  }

  /** A Weibull life: the density is asked for very often. */
  final class WeibullLife implements Life {
    /** Cumulative hazard past which a density is less than any number. */
    private static final double GONE = 745;

    private final Weibull weibull;
    private final double shape;
    private final double logScale;

    private WeibullLife(Weibull weibull) {
      this.weibull = weibull;
      this.shape = weibull.shape();
      this.logScale = Math.log(weibull.scale());
    }

    @Override
    public double failed(double age) {
      return weibull.failed(age);
    }

    @Override
    public double density(double age) {
      double hazard = Math.exp(shape * (Math.log(age) - logScale));
      return hazard < GONE ? shape / age * hazard * Math.exp(-hazard) : 0;
    }
  }
}

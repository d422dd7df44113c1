package org.vaneward.stats.renewal;

import org.vaneward.stats.distribution.LifeDistribution;

/** What a renewal function needs to know of a life; ages have any one unit. */
public interface Life {
  /** Share that has failed by {@code age}, with all its digits where it is small. */
  double failed(double age);

  /** Density of failures at {@code age} above 0. */
  double density(double age);

  /** The life of a distribution. */
  static Life of(LifeDistribution distribution) {
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
}

package org.vaneward.bench;

import java.util.List;
import java.util.SplittableRandom;
import org.vaneward.stats.Observations;
import org.vaneward.stats.fit.FitSettings;
import org.vaneward.stats.fit.WeibullFit;
import org.vaneward.stats.fit.WeibullFit.Fitted;
import org.vaneward.stats.fit.WeibullFit.LimitMethod;
import org.vaneward.stats.fit.WeibullFitter;
import org.vaneward.stats.nonparametric.ProductLimit;

/** The jobs that are timed, whichever way they are timed. */
final class Jobs {
  private static final FitSettings WALD =
      FitSettings.defaults().withLimits(LimitMethod.WALD).withShares(List.of());

  private Jobs() {}

  /** Shape, scale, log-likelihood, covariance, limits by the covariance. */
  static Fitted weibullFit(Observations lives) {
    return fitted(WeibullFitter.fit(lives, WALD));
  }

  /** The same with profile limits of shape, scale and four quantiles, the default. */
  static Fitted weibullProfile(Observations lives) {
    return fitted(WeibullFitter.fit(lives, FitSettings.defaults()));
  }

  /** Survival with Greenwood's error and log-log limits at every age of failure. */
  static ProductLimit productLimit(Observations lives) {
    return ProductLimit.of(lives, 0.95);
  }

  /**
   * Fits to resamples of the first 50 lives, drawn with replacement.
   *
   * @return the mean of the shapes, so that no fit is skipped
   */
  static double refits(Observations fifty, int times) {
    SplittableRandom random = new SplittableRandom(42);
    double sum = 0;
    for (int i = 0; i < times; i++) {
      sum += fitted(WeibullFitter.fit(resample(fifty, random), WALD)).weibull().shape();
    }
    return sum / times;
  }

  static Observations first(Observations lives, int n) {
    return Observations.of(lives.asList().subList(0, n));
  }

  private static Observations resample(Observations lives, SplittableRandom random) {
    Observations.Builder builder = Observations.builder();
    for (int i = 0; i < lives.size(); i++) {
      int row = random.nextInt(lives.size());
      if (lives.isExact(row)) {
        builder.addFailure(lives.entry(row), lives.lower(row), lives.count(row));
      } else {
        builder.addRightCensored(lives.entry(row), lives.lower(row), lives.count(row));
      }
    }
    return builder.build();
  }

  private static Fitted fitted(WeibullFit fit) {
    if (fit instanceof Fitted fitted) {
      return fitted;
    }
    throw new IllegalStateException("no fit: " + fit);
  }
}

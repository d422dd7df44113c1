package org.vaneward.bench;

import java.util.List;
import org.vaneward.stats.Observations;
import org.vaneward.stats.bootstrap.CaseResample;
import org.vaneward.stats.bootstrap.Refit;
import org.vaneward.stats.bootstrap.Refits;
import org.vaneward.stats.fit.FitSettings;
import org.vaneward.stats.fit.WeibullFit;
import org.vaneward.stats.fit.WeibullFit.Fitted;
import org.vaneward.stats.fit.WeibullFit.LimitMethod;
import org.vaneward.stats.fit.WeibullFitter;
import org.vaneward.stats.nonparametric.ProductLimit;
import org.vaneward.stats.regression.Covariates;
import org.vaneward.stats.regression.RegressionFit;
import org.vaneward.stats.regression.RegressionSettings;
import org.vaneward.stats.regression.WeibullRegression;

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

  /** Twelve services: coefficients with limits, shape, covariance. */
  static RegressionFit.Fitted regression(Observations lives, Covariates services) {
    RegressionFit fit =
        WeibullRegression.fit(lives, services, RegressionSettings.defaults().withTermTests(false));
    if (fit instanceof RegressionFit.Fitted fitted) {
      return fitted;
    }
    throw new IllegalStateException("no fit: " + fit);
  }

  /** Fits to resamples of fifty lives, drawn with replacement. */
  static Refits refits(Observations fifty, int times) {
    return CaseResample.refits(fifty, times, 42, Refit.weibull());
  }

  private static Fitted fitted(WeibullFit fit) {
    if (fit instanceof Fitted fitted) {
      return fitted;
    }
    throw new IllegalStateException("no fit: " + fit);
  }
}

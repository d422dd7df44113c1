package org.vaneward.stats.bootstrap;

import java.util.List;
import java.util.Optional;
import org.vaneward.stats.Observations;
import org.vaneward.stats.distribution.LifeDistribution;
import org.vaneward.stats.fit.FitSettings;
import org.vaneward.stats.fit.WeibullFit;
import org.vaneward.stats.fit.WeibullFit.LimitMethod;
import org.vaneward.stats.fit.WeibullFitter;

/**
 * Fits a drawn sample in the way the lives themselves were fitted. Called from several threads, so
 * it keeps no state.
 */
@FunctionalInterface
public interface Refit {
  /** The fit; empty when the sample has none. */
  Optional<LifeDistribution> fit(Observations sample);

  /** Weibull, shape and scale from the sample. */
  static Refit weibull() {
    return weibull(
        FitSettings.defaults().withLimits(LimitMethod.WALD).withShares(List.of()).withFreeShape());
  }

  /**
   * Weibull at a stated shape.
   *
   * @throws IllegalArgumentException when the shape is not positive and finite
   */
  static Refit weibullOfShape(double shape) {
    return weibull(
        FitSettings.defaults()
            .withLimits(LimitMethod.WALD)
            .withShares(List.of())
            .withFixedShape(shape));
  }

  private static Refit weibull(FitSettings settings) {
    return sample ->
        WeibullFitter.fit(sample, settings) instanceof WeibullFit.Fitted fit
            ? Optional.of(fit.weibull())
            : Optional.empty();
  }
}

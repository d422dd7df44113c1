package org.vaneward.stats.bootstrap;

import java.util.List;
import java.util.Optional;
import org.vaneward.stats.distribution.LifeDistribution;

/**
 * Fits of drawn samples.
 *
 * @param fitted those that have a fit, in the order drawn
 * @param replicates how many samples were drawn
 */
public record Refits(List<LifeDistribution> fitted, int replicates) {
  public Refits {
    fitted = List.copyOf(fitted);
  }

  static Refits of(List<Optional<LifeDistribution>> fits) {
    return new Refits(fits.stream().flatMap(Optional::stream).toList(), fits.size());
  }

  /** How many samples had no fit. */
  public int notEstimable() {
    return replicates - fitted.size();
  }
}

package org.vaneward.model;

import java.util.List;
import java.util.Optional;
import org.vaneward.stats.distribution.Family;
import org.vaneward.stats.fit.FitSettings;

/**
 * What to ask of a lives table, group by group.
 *
 * @param by columns that make a group; none makes one group of all
 * @param families which to fit, in that order
 * @param settings of the fits
 * @param draws samples for goodness of fit and for limits by bootstrap; 0 for neither
 * @param bootstrapLimits whether limits are made by parametric bootstrap
 * @param seed of the draws
 * @param mixture whether two Weibulls are fitted beside
 * @param ages at which survival is asked for
 * @param strata column whose groups are kept apart when groups are compared
 */
public record FitQuestion(
    List<String> by,
    List<Family> families,
    FitSettings settings,
    int draws,
    boolean bootstrapLimits,
    long seed,
    boolean mixture,
    List<Double> ages,
    Optional<String> strata) {
  public FitQuestion {
    by = List.copyOf(by);
    families = List.copyOf(families);
    ages = List.copyOf(ages);
  }

  /** Weibull fits of groups and nothing else. */
  public static FitQuestion weibull(List<String> by, FitSettings settings) {
    return new FitQuestion(
        by, List.of(Family.WEIBULL), settings, 0, false, 0, false, List.of(), Optional.empty());
  }
}

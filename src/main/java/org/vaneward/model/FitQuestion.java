package org.vaneward.model;

import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.vaneward.stats.distribution.Family;
import org.vaneward.stats.fit.FitSettings;

/**
 * What to ask of a lives table, group by group.
 *
 * @param by columns that make a group; none makes one group of all
 * @param families which to fit, in that order
 * @param settings of the fits
 * @param draws samples for goodness of fit and for limits by bootstrap, 0 for no test; empty for
 *     {@value #DRAWS}, and fewer or no test where there are too many lives for it
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
    OptionalInt draws,
    boolean bootstrapLimits,
    long seed,
    boolean mixture,
    List<Double> ages,
    Optional<String> strata) {
  /** Samples drawn unless another number is asked for. */
  public static final int DRAWS = 999;

  /** Fewest that tell a p of 0.05 from one of 0.10. */
  private static final int FEWEST_DRAWS = 199;

  /** Most lives times draws that are spent on one test unless asked for: about a second. */
  private static final double MOST_WORK = 2e6;

  public FitQuestion {
    by = List.copyOf(by);
    families = List.copyOf(families);
    ages = List.copyOf(ages);
  }

  /** Samples to draw for a test on so many lives; 0 for no test. */
  int drawsFor(double lives) {
    if (draws.isPresent()) {
      return draws.getAsInt();
    }
    int affordable = (int) Math.min(DRAWS, MOST_WORK / Math.max(1, lives));
    return affordable >= FEWEST_DRAWS ? affordable : 0;
  }

  /** Weibull fits of groups without a test by drawn samples. */
  public static FitQuestion weibull(List<String> by, FitSettings settings) {
    return new FitQuestion(
        by,
        List.of(Family.WEIBULL),
        settings,
        OptionalInt.of(0),
        false,
        1,
        false,
        List.of(),
        Optional.empty());
  }

  /** The same of other distributions. */
  public FitQuestion withFamilies(List<Family> others) {
    return new FitQuestion(
        by, others, settings, draws, bootstrapLimits, seed, mixture, ages, strata);
  }

  /** The same with a test of fit by drawn samples, as many as the lives allow. */
  public FitQuestion withTest() {
    return new FitQuestion(
        by, families, settings, OptionalInt.empty(), bootstrapLimits, seed, mixture, ages, strata);
  }
}

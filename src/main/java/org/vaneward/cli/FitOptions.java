package org.vaneward.cli;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.jspecify.annotations.Nullable;
import org.vaneward.io.BadInputException;
import org.vaneward.model.FitQuestion;
import org.vaneward.stats.bootstrap.BootstrapLimits;
import org.vaneward.stats.distribution.Family;
import org.vaneward.stats.fit.WeibullFit.LimitMethod;
import picocli.CommandLine.Option;

/** What {@code fit} may be asked for, and what does not go together. */
final class FitOptions {
  private static final int MOST_DRAWS = 1_000_000;

  /** How limits are made. */
  enum Limits {
    PROFILE,
    LIFTED,
    WALD,
    BOOTSTRAP
  }

  @Option(
      names = "--distribution",
      paramLabel = "weibull|lognormal|exponential|all",
      description = "life distribution (default weibull); all fits and compares them")
  private @Nullable String distribution;

  @Option(
      names = "--limits",
      paramLabel = "profile|lifted|wald|bootstrap",
      description =
          "how limits are made (default profile; with --covariates wald); lifted: profile made"
              + " wider for few failures, Weibull only")
  private @Nullable Limits limits;

  @Option(
      names = "--fixed-shape",
      paramLabel = "B",
      description = "fit the Weibull scale alone, at this shape")
  private @Nullable Double fixedShape;

  @Option(
      names = "--covariates",
      split = ",",
      paramLabel = "COLUMN",
      description = "regression of log life on these columns, numbers or names")
  private @Nullable List<String> covariates;

  @Option(
      names = "--names",
      split = ",",
      paramLabel = "COLUMN",
      description = "covariates that are names although they look like numbers")
  private @Nullable List<String> names;

  @Option(
      names = "--pooled",
      description =
          "groups of a component fitted together, those with few failures lean on the others")
  private boolean pooled;

  @Option(
      names = "--cause",
      paramLabel = "COLUMN",
      description = "one fit for each cause of failure, which this column names, and incidences")
  private @Nullable String cause;

  @Option(
      names = "--ages",
      split = ",",
      paramLabel = "AGE",
      description = "survival at these ages; with --cause incidence (default: at every failure)")
  private @Nullable List<Double> ages;

  @Option(
      names = "--strata",
      paramLabel = "COLUMN",
      description = "compare the groups of --by within the groups of this column")
  private @Nullable String strata;

  @Option(names = "--mixture", description = "two Weibulls beside one: for a plot that bends")
  private boolean mixture;

  @Option(
      names = "--replicates",
      paramLabel = "N",
      description =
          "samples drawn for goodness of fit and bootstrap limits (default 999, fewer or none for very"
              + " many lives; 0 for no test)")
  private @Nullable Integer replicates;

  /**
   * Refuses what does not go together.
   *
   * @throws BadInputException with one line that says what
   */
  void check() {
    families();
    fixedShape();
    draws();
    int kinds = (pooled ? 1 : 0) + (covariates != null ? 1 : 0) + (cause != null ? 1 : 0);
    if (kinds > 1) {
      throw new BadInputException("--pooled, --covariates and --cause ask for different fits; one");
    }
    if (kinds == 1) {
      String one = pooled ? "--pooled" : cause != null ? "--cause" : "--covariates";
      refuse(one, "--distribution", distribution != null && !distribution.equals("weibull"));
      refuse(one, "--fixed-shape", fixedShape != null && cause == null);
      refuse(one, "--mixture", mixture);
      refuse(one, "--strata", strata != null);
      refuse(one, "--replicates", replicates != null);
      refuse(one, "--ages", ages != null && cause == null);
      refuse(one, "--limits bootstrap", limits == Limits.BOOTSTRAP);
      refuse(one, "--limits", pooled && limits != null);
    }
    boolean plain = families().equals(List.of(Family.WEIBULL)) && fixedShape == null;
    if (limits == Limits.LIFTED && (!plain || kinds == 1)) {
      throw new BadInputException(
          "--limits lifted goes with a Weibull fit of groups whose shape is found, and nothing else");
    }
    if (names != null && covariates == null) {
      throw new BadInputException("--names says which of the --covariates are names; give those");
    }
    int draws = draws().orElse(FitQuestion.DRAWS);
    if (limits == Limits.BOOTSTRAP && draws < BootstrapLimits.FEWEST_REPLICATES) {
      throw new BadInputException(
          "--replicates "
              + draws
              + ": limits by bootstrap need at least "
              + BootstrapLimits.FEWEST_REPLICATES);
    }
  }

  private static void refuse(String one, String other, boolean both) {
    if (both) {
      throw new BadInputException(
          other
              + " does not go with "
              + one
              + ", whose fits are Weibull"
              + " with limits of their own");
    }
  }

  List<Family> families() {
    String word = Optional.ofNullable(distribution).orElse("weibull");
    List<Family> families = FitCommand.families(word);
    if (families.isEmpty()) {
      throw new BadInputException(
          "--distribution " + word + ": weibull, lognormal, exponential or all would be right");
    }
    return families;
  }

  /** The method asked for; empty by default and with bootstrap. */
  Optional<LimitMethod> limitMethod() {
    return Optional.ofNullable(limits)
        .filter(l -> l != Limits.BOOTSTRAP)
        .map(l -> LimitMethod.valueOf(l.name()));
  }

  boolean bootstrapLimits() {
    return limits == Limits.BOOTSTRAP;
  }

  OptionalDouble fixedShape() {
    if (fixedShape == null) {
      return OptionalDouble.empty();
    }
    double shape = fixedShape;
    if (!(shape > 0 && shape < Double.POSITIVE_INFINITY)) {
      throw new BadInputException("--fixed-shape " + shape + ": a shape is positive, such as 2");
    }
    return OptionalDouble.of(shape);
  }

  Optional<List<String>> covariates() {
    return Optional.ofNullable(covariates);
  }

  List<String> names() {
    return Optional.ofNullable(names).orElse(List.of());
  }

  boolean pooled() {
    return pooled;
  }

  Optional<String> cause() {
    return Optional.ofNullable(cause);
  }

  List<Double> ages() {
    return Ages.checked(Optional.ofNullable(ages));
  }

  Optional<String> strata() {
    return Optional.ofNullable(strata);
  }

  boolean mixture() {
    return mixture;
  }

  OptionalInt draws() {
    if (replicates == null) {
      return OptionalInt.empty();
    }
    int draws = replicates;
    if (draws < 0 || draws > MOST_DRAWS) {
      throw new BadInputException(
          "--replicates " + draws + ": from 0 to " + MOST_DRAWS + " would be right");
    }
    return OptionalInt.of(draws);
  }
}

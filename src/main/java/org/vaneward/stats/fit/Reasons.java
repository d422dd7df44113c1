package org.vaneward.stats.fit;

import org.vaneward.stats.Observations;

/** Why a Weibull likelihood has no finite maximum, in words. */
final class Reasons {
  static final String NO_EXPOSURE =
      "no life was seen to run: every failure lies in the first interval of its observation";

  static final String ONE_LOOK =
      "one look at one age: the share that outlives it is all that can be said";

  private Reasons() {}

  static String onlyAtTheGreatestAge(Observations lives) {
    return lives.failures() == 1
        ? "one failure, at the greatest age"
        : "all failures at one age and nothing ran longer";
  }

  static String of(ShapeSearch.Outcome outcome) {
    return switch (outcome) {
      case RISES_WITH_SHAPE ->
          "all failures may have come at one age: the likelihood keeps rising as the shape grows";
      case RISES_TO_ZERO -> "the likelihood keeps rising as the shape falls to zero";
      case FLAT -> "the likelihood is flat in the shape: too few distinct ages";
      default -> "no maximum of the likelihood could be proved";
    };
  }

  /** The same for a lognormal likelihood, whose spread is the inverse of a shape. */
  static String ofSpread(ShapeSearch.Outcome outcome) {
    return switch (outcome) {
      case RISES_WITH_SHAPE ->
          "all failures may have come at one age: the likelihood keeps rising as the spread falls";
      case RISES_TO_ZERO -> "the likelihood keeps rising as the spread grows";
      case FLAT -> "the likelihood is flat in the spread: too few distinct ages";
      default -> "no maximum of the likelihood could be proved";
    };
  }
}

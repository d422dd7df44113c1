package org.vaneward.review.failure;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.vaneward.stats.Estimate;

/**
 * What speaks for a finding.
 *
 * @param observed failures counted
 * @param expected failures to be expected of the same parts if nothing were behind it
 * @param measure what {@code effect} is
 * @param effect how strong it is, with limits
 * @param lifeRatio how long parts last beside the rest, with limits; empty where it has no meaning
 * @param posterior chance that it is so, given all pumps or services; empty where none is worked
 *     out
 * @param detail for a run of early failures, among how many parts; empty otherwise
 * @param failures the failures behind it, in order of date
 */
public record Evidence(
    double observed,
    double expected,
    Measure measure,
    Estimate effect,
    Optional<Estimate> lifeRatio,
    OptionalDouble posterior,
    String detail,
    List<FailureRecord> failures) {
  public Evidence {
    failures = List.copyOf(failures);
  }

  Evidence withPosterior(double chance) {
    return new Evidence(
        observed,
        expected,
        measure,
        effect,
        lifeRatio,
        OptionalDouble.of(chance),
        detail,
        failures);
  }

  /** What an effect is measured by. */
  public enum Measure {
    /** How many times as often as the rest. */
    RATE_RATIO("rate-ratio"),
    /** By what the rate is multiplied for each unit of a number. */
    RATIO_PER_UNIT("rate-ratio-per-unit"),
    /** Rate in the second half of the failures to be expected over that in the first. */
    LATE_TO_EARLY("late-to-early-ratio"),
    /** Shape of the lives. */
    SHAPE("shape"),
    /** Chance of a part failing early, with that of the run seen as limits. */
    EARLY_CHANCE("early-chance");

    private final String key;

    Measure(String key) {
      this.key = key;
    }

    /** The word in machine-readable output. */
    public String key() {
      return key;
    }
  }
}

package org.vaneward.review.failure;

import java.util.OptionalDouble;
import org.vaneward.stats.Estimate;

/**
 * How often one pump fails beside its like, and whether that changes.
 *
 * @param pump asset tag
 * @param failures failures of all its parts
 * @param expected to be expected of parts of their age in their services
 * @param rate its failures over those expected, drawn towards the fleet's 1 as far as its history
 *     is short, with limits
 * @param probabilityTroubled chance that it is one of the few that fail clearly more than the rest
 *     ({@link org.vaneward.stats.comparison.TroubledUnits})
 * @param falseShare share of pumps, from the surest down to this one, that are to be expected not
 *     to be
 * @param adjustedP p-value of failing more than its like, adjusted over all questions of the
 *     review; empty when it has no like to be held against
 * @param trend how its failures come
 * @param trendP one-sided p-value of getting worse; empty with too few failures
 */
public record PumpRate(
    String pump,
    double failures,
    double expected,
    Estimate rate,
    double probabilityTroubled,
    double falseShare,
    OptionalDouble adjustedP,
    TrendOfPump trend,
    OptionalDouble trendP) {

  /** How the failures of a pump come. */
  public enum TrendOfPump {
    /** Closer together than its history accounts for. */
    WORSE("getting worse"),
    /** Further apart. */
    BETTER("improving"),
    /** Neither beyond chance. */
    STEADY("steady"),
    /** Too few failures. */
    UNKNOWN("too few failures to tell");

    private final String words;

    TrendOfPump(String words) {
      this.words = words;
    }

    /** The trend as a phrase. */
    public String words() {
      return words;
    }
  }
}

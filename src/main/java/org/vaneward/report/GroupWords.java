package org.vaneward.report;

import java.util.Map;
import java.util.stream.Collectors;
import org.vaneward.stats.Estimate;

/** Names of groups and ages of unknown unit, for text. */
final class GroupWords {
  private GroupWords() {}

  /** The group's values, {@code all} when nothing makes groups. */
  static String label(Map<String, String> group) {
    return group.isEmpty()
        ? "all"
        : group.values().stream()
            .map(value -> value.isEmpty() ? "(not on record)" : value)
            .collect(Collectors.joining(", "));
  }

  /** A number of unknown unit with its limits. */
  static String limits(Estimate estimate) {
    return Words.significant(estimate.estimate())
        + " ("
        + (Double.isNaN(estimate.lower()) ? Words.NONE : Words.significant(estimate.lower()))
        + " to "
        + (Double.isNaN(estimate.upper()) ? Words.NONE : Words.significant(estimate.upper()))
        + ")";
  }
}

package org.vaneward.review;

import java.util.List;
import java.util.Optional;
import org.vaneward.stats.recurrence.EventHistories.Truncation;

/**
 * What to ask of a table of events.
 *
 * @param by column that names each unit's group
 * @param ages at which groups are compared; none compares them at every event
 * @param truncation what ended observation, when it is stated
 * @param confidence of two-sided limits
 */
public record EventQuestion(
    Optional<String> by, List<Double> ages, Optional<Truncation> truncation, double confidence) {
  public EventQuestion {
    ages = List.copyOf(ages);
  }
}

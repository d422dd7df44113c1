package org.vaneward.fleet;

import java.time.LocalDate;
import java.util.Optional;

/**
 * A rebuild already promised for a week.
 *
 * @param pump asset tag
 * @param monday Monday of the week
 * @param day the day; empty when only the week is fixed
 * @param note what was written beside it
 */
public record Commitment(
    String pump, LocalDate monday, Optional<LocalDate> day, Optional<String> note) {}

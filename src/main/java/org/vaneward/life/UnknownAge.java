package org.vaneward.life;

import java.time.LocalDate;
import java.util.Optional;

/**
 * A part whose fitting is not on record and whose age is therefore unknown.
 *
 * @param pump asset tag
 * @param component component of the position
 * @param position where it sat or sits
 * @param until day of its first renewal on record; empty when there is none
 */
public record UnknownAge(
    String pump, String component, String position, Optional<LocalDate> until) {}

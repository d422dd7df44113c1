package org.vaneward.life;

import java.time.LocalDate;
import java.util.Optional;

/**
 * A part whose fitting is not on record, or of which sight was lost, and whose age is therefore
 * unknown. Nothing that befalls it makes a life.
 *
 * @param pump asset tag
 * @param component component of the position
 * @param position where it sat or sits
 * @param from day from which its age is unknown; empty when it never was known
 * @param until day of its first renewal on record; empty when there is none
 * @param reason why its age is unknown, in one sentence
 */
public record UnknownAge(
    String pump,
    String component,
    String position,
    Optional<LocalDate> from,
    Optional<LocalDate> until,
    String reason) {}

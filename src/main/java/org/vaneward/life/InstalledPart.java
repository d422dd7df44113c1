package org.vaneward.life;

import java.time.LocalDate;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * A part in a pump on the day of record.
 *
 * @param pump asset tag
 * @param component component of the position
 * @param position where it sits
 * @param fittedOn day it was fitted; empty when that is not on record
 * @param age its age on the day of record; empty when unknown
 * @param lastGoodAge last age at which it was seen not failed, 0 when never looked at since; empty
 *     when its age is unknown
 */
public record InstalledPart(
    String pump,
    String component,
    String position,
    Optional<LocalDate> fittedOn,
    OptionalDouble age,
    OptionalDouble lastGoodAge) {}

package org.vaneward.review.failure;

import java.time.LocalDate;
import org.vaneward.fleet.RowRef;

/**
 * A failure on record.
 *
 * @param pump asset tag
 * @param component component of the position
 * @param position where the part sat
 * @param date day of the opening at which it failed or was found failed
 * @param age age at failure, or by which it had failed, in the fleet's clock; 0 on the start-up
 *     test
 * @param rebuild number of that opening; empty when there is none on record
 * @param mode failure mode as written; empty when none is
 * @param cause cause as written; empty when none is
 * @param row where it stands in the records
 */
public record FailureRecord(
    String pump,
    String component,
    String position,
    LocalDate date,
    double age,
    String rebuild,
    String mode,
    String cause,
    RowRef row) {}

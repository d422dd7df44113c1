package org.vaneward.plan;

import java.util.OptionalDouble;

/**
 * A part in a pump on the day of record.
 *
 * @param position where it sits
 * @param component what it is
 * @param ageHours its age in the fleet's clock; empty when its fitting is not on record
 */
public record PartNow(String position, String component, OptionalDouble ageHours) {}

package org.vaneward.policy;

import java.util.OptionalDouble;

/**
 * The threshold and interval of least long-run cost under {@link ThresholdCost}.
 *
 * @param thresholdHours running since the last full rebuild from which on an unplanned opening
 *     becomes a full rebuild: 0 when it always should, the interval when it never should; infinite
 *     when mending for ever is cheapest
 * @param intervalHours planned interval; empty when none pays
 * @param costPerHour long-run cost per hour
 */
public record ThresholdAdvice(
    double thresholdHours, OptionalDouble intervalHours, double costPerHour) {}

package org.vaneward.stats;

/**
 * A number with its two-sided limits. A limit that does not exist is infinite.
 *
 * @param estimate the estimate
 * @param lower lower limit; negative infinity or 0 when there is none, as the quantity's domain has
 *     it
 * @param upper upper limit; infinity when there is none
 */
public record Estimate(double estimate, double lower, double upper) {}

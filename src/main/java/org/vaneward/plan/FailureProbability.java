package org.vaneward.plan;

/**
 * Chance that a pump is stopped by a failure if it is not rebuilt, at its usage.
 *
 * @param d30 within 30 days
 * @param d90 within 90 days
 * @param d365 within 365 days
 */
public record FailureProbability(double d30, double d90, double d365) {}

package org.vaneward.policy;

import java.util.OptionalDouble;

/**
 * A stretch of running hours within which a decision costs next to nothing more than the best.
 *
 * @param fromHours its start
 * @param toHours its end; empty when it has none
 */
public record Window(double fromHours, OptionalDouble toHours) {}

package org.vaneward.plan;

import java.util.OptionalDouble;

/**
 * The interval from one full rebuild to the next, in the fleet's clock. A mandated interval, which
 * is counted in months, comes on top.
 *
 * @param hours best on cost, cut to the ceilings on failure; empty when neither sets one
 * @param most what the ceilings on failure allow; empty without one
 */
public record IntervalAfter(OptionalDouble hours, OptionalDouble most) {
  static IntervalAfter of(double best, double ceiling) {
    return new IntervalAfter(finite(Math.min(best, ceiling)), finite(ceiling));
  }

  private static OptionalDouble finite(double hours) {
    return hours < Double.POSITIVE_INFINITY ? OptionalDouble.of(hours) : OptionalDouble.empty();
  }
}

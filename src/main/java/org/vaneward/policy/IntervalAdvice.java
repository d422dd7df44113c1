package org.vaneward.policy;

import java.util.Optional;
import java.util.OptionalDouble;

/**
 * The planned interval that costs least in the long run, before any limit.
 *
 * @param intervalHours the interval; empty when running to failure is cheapest
 * @param costPerHour cost per hour at the interval, of running to failure when there is none
 * @param runToFailureCostPerHour cost per hour of running to failure
 * @param window intervals within 2% of the least cost, the unbroken stretch round the best; empty
 *     when the cost has no minimum at all, not even one in form
 * @param plannedShare share of rebuilds that are planned; 0 when there is no interval
 * @param noInterval why there is no interval; empty when there is one
 */
public record IntervalAdvice(
    OptionalDouble intervalHours,
    double costPerHour,
    double runToFailureCostPerHour,
    Optional<Window> window,
    double plannedShare,
    Optional<NoInterval> noInterval) {

  /** Share of the run-to-failure cost that the interval saves, between 0 and 1. */
  public double saving() {
    return runToFailureCostPerHour == 0 ? 0 : 1 - costPerHour / runToFailureCostPerHour;
  }
}

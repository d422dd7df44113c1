package org.vaneward.policy;

import java.util.Optional;
import java.util.OptionalDouble;
import org.vaneward.fleet.FleetSettings.Limits;

/**
 * The interval that costs least, cut to what the limits allow.
 *
 * <p>A planned interval never exceeds a mandated one, nor the age at which a component reaches its
 * {@link FailureCeiling}; where cost asks for no planned rebuild and a limit exists, the limit is
 * the interval.
 *
 * @param advice the advice on cost alone
 * @param ceiling the failure-probability ceiling that is reached first; empty when none applies
 * @param ceilingHours interval at which it is reached
 * @param mandatedHours running hours in the longest interval allowed, at the pump's usage; empty
 *     when there is no such limit or the usage is not known
 * @param intervalHours the interval; empty when neither cost nor a limit sets one
 * @param boundBy what sets it
 */
public record CappedInterval(
    UncertainAdvice advice,
    Optional<FailureCeiling> ceiling,
    OptionalDouble ceilingHours,
    OptionalDouble mandatedHours,
    OptionalDouble intervalHours,
    Bound boundBy) {

  /** Mean weeks in a calendar month: 365.25 / 12 / 7. */
  private static final double WEEKS_PER_MONTH = 365.25 / 12 / 7;

  /**
   * Applies {@code limits}.
   *
   * @param advice the advice for {@code model}
   * @param hoursPerWeek the pump's usage; empty when not known, and then a limit in months says
   *     nothing in hours
   */
  public static CappedInterval of(
      DrawnCostModel model, UncertainAdvice advice, Limits limits, OptionalDouble hoursPerWeek) {
    Optional<FailureCeiling> ceiling = Optional.empty();
    double ceilingHours = Double.POSITIVE_INFINITY;
    for (FailureCeiling one : FailureCeiling.of(model, limits.maxFailureProbability())) {
      double hours = one.intervalHours();
      if (hours < ceilingHours) {
        ceilingHours = hours;
        ceiling = Optional.of(one);
      }
    }
    OptionalDouble mandated = mandatedHours(limits, hoursPerWeek);
    return bind(advice, ceiling, ceilingHours, mandated);
  }

  private static CappedInterval bind(
      UncertainAdvice advice,
      Optional<FailureCeiling> ceiling,
      double ceilingHours,
      OptionalDouble mandated) {
    double hours = advice.intervalHours().orElse(Double.POSITIVE_INFINITY);
    Bound bound = advice.intervalHours().isPresent() ? Bound.COST : Bound.NONE;
    if (ceilingHours < hours) {
      hours = ceilingHours;
      bound = Bound.FAILURE_PROBABILITY;
    }
    if (mandated.orElse(Double.POSITIVE_INFINITY) < hours) {
      hours = mandated.orElseThrow();
      bound = Bound.MANDATED;
    }
    return new CappedInterval(
        advice, ceiling, finite(ceilingHours), mandated, finite(hours), bound);
  }

  private static OptionalDouble mandatedHours(Limits limits, OptionalDouble hoursPerWeek) {
    if (limits.maxIntervalMonths().isEmpty() || hoursPerWeek.isEmpty()) {
      return OptionalDouble.empty();
    }
    return OptionalDouble.of(
        limits.maxIntervalMonths().getAsInt() * WEEKS_PER_MONTH * hoursPerWeek.getAsDouble());
  }

  private static OptionalDouble finite(double hours) {
    return hours < Double.POSITIVE_INFINITY ? OptionalDouble.of(hours) : OptionalDouble.empty();
  }
}

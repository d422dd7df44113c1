package org.vaneward.api;

import java.util.OptionalDouble;
import org.vaneward.policy.IntervalAdvice;
import org.vaneward.policy.Window;
import org.vaneward.report.Words;

/**
 * When to renew a part so that it costs least in the long run, were its life known.
 *
 * <pre>{@code
 * PartFit bearings = records.lives().where("component", "bearing").fit();
 * double saved = bearings.bestInterval(1600, 5200).saving();
 * }</pre>
 *
 * @param interval the interval; empty when running to failure costs no more than any
 * @param from intervals from here on cost at most 2% more than the best; empty without one
 * @param to to here; empty without an end
 * @param costPerHour long-run cost for each hour (or day) at the interval; of running to failure
 *     without one
 * @param runToFailureCostPerHour the same when run to failure
 */
public record BestInterval(
    OptionalDouble interval,
    OptionalDouble from,
    OptionalDouble to,
    double costPerHour,
    double runToFailureCostPerHour) {
  static BestInterval of(IntervalAdvice advice) {
    return new BestInterval(
        advice.intervalHours(),
        advice
            .window()
            .map(Window::fromHours)
            .map(OptionalDouble::of)
            .orElse(OptionalDouble.empty()),
        advice.window().map(Window::toHours).orElse(OptionalDouble.empty()),
        advice.costPerHour(),
        advice.runToFailureCostPerHour());
  }

  /** Share of the cost of running to failure that the interval saves. */
  public double saving() {
    return runToFailureCostPerHour == 0 ? 0 : 1 - costPerHour / runToFailureCostPerHour;
  }

  /** In words. */
  @Override
  public String toString() {
    return interval.isPresent()
        ? "every "
            + Words.significant(interval.getAsDouble())
            + " ("
            + Words.significant(from.orElse(0))
            + " to "
            + (to.isPresent() ? Words.significant(to.getAsDouble()) : "no end")
            + " cost at most 2% more), saves "
            + Words.percent(saving())
            + " against running to failure"
        : "run to failure: no interval costs less";
  }
}

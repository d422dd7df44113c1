package org.vaneward.policy;

import java.util.ArrayList;
import java.util.List;

/**
 * Long-run cost per running hour of the policy "full rebuild at T or at the first failure,
 * whichever comes first":
 *
 * <pre>g(T) = [c_p R(T) + Σ_k c_k P(k first, before T) + Σ_v c_v ∫₀ᵀ R F_v dt] / ∫₀ᵀ R dt,</pre>
 *
 * R the product of the survivals of the announcing positions (Barlow and Proschan, Mathematical
 * Theory of Reliability, 1965, ch. 4, for one position; hidden failures priced by the hour). Its
 * slope is R(T) (m(T) − g(T)) / ∫₀ᵀ R dt, with m of {@link RunCost#marginalCostPerHour}: a least
 * cost is where m crosses g upwards. Accuracy as {@link RunCost}.
 */
public final class CostRate {
  private final RunCost run;

  private CostRate(RunCost run) {
    this.run = run;
  }

  /** The cost rate of {@code model}. */
  public static CostRate of(CostModel model) {
    return new CostRate(RunCost.fromNew(model));
  }

  /** The model. */
  public CostModel model() {
    return run.model();
  }

  /** The run behind it, all parts new. */
  public RunCost run() {
    return run;
  }

  /**
   * Long-run cost per hour with a planned rebuild at {@code hours}.
   *
   * @throws IllegalArgumentException unless {@code hours} is positive and finite
   */
  public double costPerHour(double hours) {
    return run.costPerHour(hours);
  }

  /** Long-run cost per hour of running to failure. */
  public double runToFailureCostPerHour() {
    return run.runToFailureCostPerHour();
  }

  /** The curve at {@code hours}. */
  public CostPoint at(double hours) {
    return new CostPoint(hours, run.costPerHour(hours), run.survival(hours), run.meanHours(hours));
  }

  /**
   * The curve at {@code points} intervals from {@code fromHours} to {@code toHours}, evenly spaced.
   *
   * @throws IllegalArgumentException unless {@code 0 < fromHours < toHours} and there are at least
   *     2 points
   */
  public List<CostPoint> curve(double fromHours, double toHours, int points) {
    if (!(fromHours > 0 && fromHours < toHours && toHours < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException(
          "a curve runs from above 0 to a greater number of hours, not from "
              + fromHours
              + " to "
              + toHours);
    }
    if (points < 2) {
      throw new IllegalArgumentException("a curve has at least 2 points, not " + points);
    }
    List<CostPoint> curve = new ArrayList<>(points);
    for (int i = 0; i < points; i++) {
      curve.add(at(fromHours + (toHours - fromHours) * i / (points - 1)));
    }
    return List.copyOf(curve);
  }

  /** Positive where a longer interval costs more. */
  double slopeSign(double hours) {
    return run.marginalCostPerHour(hours) - run.costPerHour(hours);
  }

  /**
   * A point of the cost curve.
   *
   * @param hours interval
   * @param costPerHour long-run cost per hour
   * @param plannedShare share of rebuilds that are planned: the chance of reaching the interval
   * @param meanHoursBetweenRebuilds mean running from one rebuild to the next
   */
  public record CostPoint(
      double hours, double costPerHour, double plannedShare, double meanHoursBetweenRebuilds) {}
}

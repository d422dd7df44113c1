package org.vaneward.policy;

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

  /** Positive where a longer interval costs more. */
  double slopeSign(double hours) {
    return run.marginalCostPerHour(hours) - run.costPerHour(hours);
  }
}

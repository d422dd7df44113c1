package org.vaneward.policy;

import java.util.ArrayList;
import java.util.List;
import java.util.TreeSet;
import org.vaneward.stats.renewal.RenewalFunction;

/**
 * Long-run cost per running hour of the policy "full rebuild every T hours, and only the failed
 * part renewed before":
 *
 * <pre>g(T) = [c_p + Σ_k m_k M_k(T) + Σ_v c_v ∫₀ᵀ F_v dt] / T,</pre>
 *
 * M_k the renewal function of position k, m_k the cost of mending it (Barlow and Proschan,
 * Mathematical Theory of Reliability, 1965, ch. 4; Murthy, Xie and Jiang, Weibull Models, 2004, eq.
 * 18.31). A part that does not announce its failure stays failed until T: mending another part does
 * not look at it. Under run to failure it stays failed for ever.
 *
 * <p>Accuracy that of {@link RenewalFunction}.
 */
public final class BlockCost {
  private final CostModel model;
  private final List<PositionRisk> announcing = new ArrayList<>();
  private final List<RenewalFunction> renewals = new ArrayList<>();
  private final List<RunCost> hidden;
  private final double hiddenPerHour;

  private BlockCost(CostModel model, Renewals solved) {
    this.model = model;
    List<PositionRisk> unseen = new ArrayList<>();
    for (PositionRisk risk : model.positions()) {
      if (risk.announces()) {
        announcing.add(risk);
        renewals.add(solved.of(risk.life()));
      } else if (risk.hiddenCostPerHour() > 0) {
        unseen.add(risk);
      }
    }
    hidden =
        unseen.isEmpty()
            ? List.of()
            : List.of(RunCost.fromNew(new CostModel(model.plannedCost(), unseen)));
    hiddenPerHour = unseen.stream().mapToDouble(PositionRisk::hiddenCostPerHour).sum();
  }

  /** The cost rate of {@code model}. */
  public static BlockCost of(CostModel model) {
    return new BlockCost(model, new Renewals());
  }

  static BlockCost of(CostModel model, Renewals solved) {
    return new BlockCost(model, solved);
  }

  /** The model. */
  public CostModel model() {
    return model;
  }

  /**
   * Long-run cost per hour with a planned rebuild every {@code hours}.
   *
   * @throws IllegalArgumentException unless {@code hours} is positive and finite
   */
  public double costPerHour(double hours) {
    if (!(hours > 0 && hours < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException("an interval is positive and finite, not " + hours);
    }
    double total = model.plannedCost();
    for (int i = 0; i < announcing.size(); i++) {
      total += announcing.get(i).mendCost() * renewals.get(i).at(hours);
    }
    for (RunCost unseen : hidden) {
      total += unseen.costBeyondPlanned(hours);
    }
    return total / hours;
  }

  /** Long-run cost per hour of mending each failure and never rebuilding. */
  public double runToFailureCostPerHour() {
    double total = hiddenPerHour;
    for (int i = 0; i < announcing.size(); i++) {
      total += announcing.get(i).mendCost() / renewals.get(i).meanLife();
    }
    return total;
  }

  /** Expected failures that stop the pump, from one planned rebuild to the next. */
  public double expectedFailures(double hours) {
    double total = 0;
    for (RenewalFunction renewal : renewals) {
      total += renewal.at(hours);
    }
    return total;
  }

  /** Places between which no valley of the cost hides, ascending. */
  double[] edges() {
    TreeSet<Double> all = new TreeSet<>();
    for (RenewalFunction renewal : renewals) {
      for (double edge : renewal.edges()) {
        all.add(edge);
      }
    }
    for (RunCost unseen : hidden) {
      for (double edge : unseen.edges()) {
        all.add(edge);
      }
    }
    return all.stream().mapToDouble(Double::doubleValue).toArray();
  }
}

package org.vaneward.policy;

import java.util.ArrayList;
import java.util.List;
import org.vaneward.stats.distribution.LifeDistribution;
import org.vaneward.stats.renewal.RenewalFunction;

/**
 * Long-run cost per running hour of the policy "before the threshold τ since the last full rebuild
 * mend only what failed; from then on the first failure, or the planned interval T, brings a full
 * rebuild".
 *
 * <p>Up to τ each position is renewed on its own, M_k(τ) times on average. From τ on it stays quiet
 * for s with chance R_k(s) ({@link org.vaneward.stats.renewal.QuietStretch}), and the pump with R =
 * Π R_k, positions being independent. By the renewal-reward theorem
 *
 * <pre>g = [Σ m_k M_k(τ) + c_p R(T − τ) + Σ c_k P(k first) + hidden] / [τ + ∫ R ds]</pre>
 *
 * with P(k first) = ∫ (−R_k') Π_{j≠k} R_j ds over (0, T − τ) and hidden = Σ c_v [∫₀^τ F_v dt + ∫ R
 * F_v(τ + s) ds]. τ = 0 is the policy of {@link CostRate}; T = τ that of {@link BlockCost}. (The
 * decomposition is our own; each limit and a simulation hold it.)
 *
 * <p>Integrals by 8-point Gauss–Legendre panels in log s, slopes R_k' from the polynomial through
 * the points: relative accuracy of the cost 1e-6 for shapes from 0.5 to 8.
 */
public final class ThresholdCost {
  private final CostModel model;
  private final Renewals solved;
  private final List<PositionRisk> hidden = new ArrayList<>();
  private final List<Group> groups = new ArrayList<>();
  private final List<RunCost> unseen;

  /** Announcing positions of one life and one pair of costs. */
  static final class Group {
    final LifeDistribution life;
    final RenewalFunction renewals;
    final double mendCost;
    final double unplannedCost;
    int count = 1;

    Group(PositionRisk risk, RenewalFunction renewals) {
      this.life = risk.life();
      this.renewals = renewals;
      this.mendCost = risk.mendCost();
      this.unplannedCost = risk.unplannedCost();
    }

    boolean holds(PositionRisk risk) {
      return life.equals(risk.life())
          && mendCost == risk.mendCost()
          && unplannedCost == risk.unplannedCost();
    }
  }

  private ThresholdCost(CostModel model, Renewals solved) {
    this.model = model;
    this.solved = solved;
    for (PositionRisk risk : model.positions()) {
      if (!risk.announces()) {
        hidden.add(risk);
      } else if (groups.stream().noneMatch(g -> g.holds(risk))) {
        groups.add(new Group(risk, solved.of(risk.life())));
      } else {
        groups.stream().filter(g -> g.holds(risk)).forEach(g -> g.count++);
      }
    }
    if (groups.isEmpty()) {
      throw new IllegalArgumentException("no failure stops this pump: there is nothing to mend");
    }
    unseen =
        hidden.isEmpty()
            ? List.of()
            : List.of(RunCost.fromNew(new CostModel(model.plannedCost(), hidden)));
  }

  /**
   * The cost rate of {@code model}.
   *
   * @throws IllegalArgumentException when no position announces its failure
   */
  public static ThresholdCost of(CostModel model) {
    return new ThresholdCost(model, new Renewals());
  }

  static ThresholdCost of(CostModel model, Renewals solved) {
    return new ThresholdCost(model, solved);
  }

  /** The model. */
  public CostModel model() {
    return model;
  }

  /** The policy without a full rebuild at a failure, on the same renewal functions. */
  BlockCost block() {
    return BlockCost.of(model, solved);
  }

  List<Group> groups() {
    return groups;
  }

  List<PositionRisk> hidden() {
    return hidden;
  }

  /**
   * Long-run cost per hour.
   *
   * @param threshold τ, hours, not negative
   * @param interval T, hours, at least the threshold and positive; infinite for no planned rebuild
   * @throws IllegalArgumentException when one is out of its domain
   */
  public double costPerHour(double threshold, double interval) {
    if (!(threshold >= 0 && threshold < Double.POSITIVE_INFINITY && interval >= threshold)
        || !(interval > 0)) {
      throw new IllegalArgumentException(
          "a threshold is finite, not negative and not above the interval: "
              + threshold
              + ", "
              + interval);
    }
    return from(threshold, interval).costPerHour(interval);
  }

  /** What happens from a threshold on. */
  AfterThreshold from(double threshold) {
    return from(threshold, Double.POSITIVE_INFINITY);
  }

  private AfterThreshold from(double threshold, double longest) {
    double mending = 0;
    if (threshold > 0) {
      for (Group g : groups) {
        mending += g.count * g.mendCost * g.renewals.at(threshold);
      }
      for (RunCost run : unseen) {
        mending += run.costBeyondPlanned(threshold);
      }
    }
    return new AfterThreshold(this, threshold, mending, longest);
  }
}

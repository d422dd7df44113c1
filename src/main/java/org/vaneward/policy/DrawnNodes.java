package org.vaneward.policy;

import org.vaneward.model.LifeDraws;

/**
 * Points of further running at which every draw is looked at, and what all draws share there. The
 * last {@link #look} is held by a {@link Sight}, one for each thread.
 */
final class DrawnNodes {
  private final DrawnGroup[] groups;

  /**
   * By group and point: log age, and what a unit of hazard per log age, or of share failed, costs.
   */
  private final double[][] logAge;

  private final double[][] rate;

  /** Weight of each point in an integral over further running. */
  final double[] weight;

  /**
   * Points.
   *
   * @param hours further running, positive
   */
  DrawnNodes(DrawnGroup[] groups, double[] hours, double[] weight) {
    this.groups = groups;
    this.weight = weight;
    this.logAge = new double[groups.length][hours.length];
    this.rate = new double[groups.length][hours.length];
    for (int i = 0; i < groups.length; i++) {
      DrawnGroup g = groups[i];
      for (int p = 0; p < hours.length; p++) {
        double age = g.age + hours[p];
        logAge[i][p] = Math.log(age);
        rate[i][p] = g.count * g.price / (g.announces ? age : 1);
      }
    }
  }

  int size() {
    return weight.length;
  }

  /** What one draw comes to at some points. */
  static final class Sight {
    /** Cumulative hazard added by then, of all that announces. */
    final double[] hazard;

    /** Price of running one hour more. */
    final double[] cost;

    Sight(int points) {
      hazard = new double[points];
      cost = new double[points];
    }
  }

  /** Looks at {@code n} points from {@code from} on. */
  void look(int draw, int from, int n, Sight sight) {
    double[] hazard = sight.hazard;
    double[] cost = sight.cost;
    for (int p = 0; p < n; p++) {
      hazard[p] = 0;
      cost[p] = 0;
    }
    for (int i = 0; i < groups.length; i++) {
      DrawnGroup g = groups[i];
      double shape = g.shape[draw];
      double logScale = g.logScale[draw];
      double now = g.hazardNow[draw];
      double[] log = logAge[i];
      double[] unit = rate[i];
      for (int p = 0; p < n; p++) {
        double cumulative = Math.exp(shape * (log[from + p] - logScale));
        if (g.announces) {
          hazard[p] += g.count * (cumulative - now);
          cost[p] += unit[from + p] * shape * cumulative;
        } else {
          cost[p] += unit[from + p] * LifeDraws.failedBy(cumulative);
        }
      }
    }
  }
}

package org.vaneward.policy;

import java.util.Arrays;
import java.util.List;
import org.vaneward.stats.numeric.GaussLegendre;
import org.vaneward.stats.renewal.QuietStretch;

/**
 * The second phase of {@link ThresholdCost}: the first failure, or the interval, ends the cycle.
 */
final class AfterThreshold {
  private static final int POINTS = 8;
  private static final GaussLegendre RULE = GaussLegendre.of(POINTS);

  /** Chance of being quiet below which nothing more is at stake. */
  private static final double GONE = 1e-10;

  /** First panel, as a share of the shortest median life; widest panel in log s. */
  private static final double START_SHARE = 1e-5;

  private static final double WIDEST = 1;

  /** Share of the shortest median life from which on steep shapes want narrow panels. */
  private static final double NOTICEABLE_SHARE = 0.02;

  private static final int MOST_PANELS = 400;

  private final ThresholdCost cost;
  private final double threshold;
  private final double mending;
  private final QuietStretch[] quiet;
  private final double steepest;
  private final double shortest;

  private double[] edges = new double[32];

  /** ∫ R and cost so far at each edge, and R there. */
  private double[] hours = new double[32];

  private double[] spent = new double[32];
  private double[] alive = new double[32];
  private int size;

  /**
   * The second phase.
   *
   * @param longest the longest interval it is asked about
   */
  AfterThreshold(ThresholdCost cost, double threshold, double mending, double longest) {
    this.cost = cost;
    this.threshold = threshold;
    this.mending = mending;
    List<ThresholdCost.Group> groups = cost.groups();
    this.quiet = new QuietStretch[groups.size()];
    double shortLife = Double.POSITIVE_INFINITY;
    double steep = 1;
    for (int g = 0; g < quiet.length; g++) {
      quiet[g] = groups.get(g).renewals.quietFrom(threshold);
      shortLife = Math.min(shortLife, groups.get(g).life.quantile(0.5));
      steep = Math.max(steep, Ageing.steepest(groups.get(g).life));
    }
    this.shortest = shortLife;
    this.steepest = steep;
    march(longest - threshold);
  }

  private void march(double furthest) {
    double start = START_SHARE * shortest;
    double[] sums = first(start);
    push(start, sums);
    while (alive[size - 1] > GONE && size < MOST_PANELS && edges[size - 1] <= furthest) {
      double low = edges[size - 1];
      boolean noticeable = low > NOTICEABLE_SHARE * shortest;
      double high = low * Math.exp(noticeable ? WIDEST / steepest : WIDEST);
      panel(low, high, sums);
      push(high, sums);
    }
  }

  private void push(double edge, double[] sums) {
    if (size == edges.length) {
      edges = Arrays.copyOf(edges, 2 * size);
      hours = Arrays.copyOf(hours, 2 * size);
      spent = Arrays.copyOf(spent, 2 * size);
      alive = Arrays.copyOf(alive, 2 * size);
    }
    edges[size] = edge;
    hours[size] = sums[0];
    spent[size] = sums[1];
    alive[size] = sums[2];
    size++;
  }

  /** Up to the first edge: who fails first shares out the little that fails. */
  private double[] first(double s) {
    double failed = 0;
    double priced = 0;
    double all = 1;
    for (int g = 0; g < quiet.length; g++) {
      ThresholdCost.Group group = cost.groups().get(g);
      double chance = quiet[g].chance(s);
      double gone = -group.count * Math.log(chance);
      failed += gone;
      priced += gone * group.unplannedCost;
      all *= Math.pow(chance, group.count);
    }
    double stops = failed > 0 ? priced / failed * (1 - all) : 0;
    return new double[] {s, stops + s * hiddenPerHour(s / 2), all};
  }

  private double hiddenPerHour(double s) {
    double total = 0;
    for (PositionRisk risk : cost.hidden()) {
      total += risk.hiddenCostPerHour() * risk.life().failed(threshold + s);
    }
    return total;
  }

  /** Adds ∫ R and the cost over a panel, and puts R at its end. */
  private void panel(double low, double high, double[] sums) {
    double half = Math.log(high / low) / 2;
    double[] at = new double[POINTS];
    double[][] chance = new double[quiet.length][POINTS];
    for (int p = 0; p < POINTS; p++) {
      at[p] = low * Math.exp(half * (1 + RULE.node(p)));
      for (int g = 0; g < quiet.length; g++) {
        chance[g][p] = quiet[g].chance(at[p]);
      }
    }
    for (int p = 0; p < POINTS; p++) {
      double all = together(chance, p);
      double weight = half * RULE.weight(p);
      sums[0] += weight * at[p] * all;
      sums[1] += weight * at[p] * all * hiddenPerHour(at[p]);
      for (int g = 0; g < quiet.length; g++) {
        ThresholdCost.Group group = cost.groups().get(g);
        if (chance[g][p] > 0) {
          double falls = -RULE.slope(chance[g], p) / half * all / chance[g][p];
          sums[1] += weight * group.count * group.unplannedCost * falls;
        }
      }
    }
    sums[2] = 1;
    for (int g = 0; g < quiet.length; g++) {
      sums[2] *= Math.pow(quiet[g].chance(high), cost.groups().get(g).count);
    }
  }

  private double together(double[][] chance, int p) {
    double all = 1;
    for (int g = 0; g < quiet.length; g++) {
      all *= Math.pow(chance[g][p], cost.groups().get(g).count);
    }
    return all;
  }

  /** Long-run cost per hour with a planned rebuild at {@code interval}. */
  double costPerHour(double interval) {
    double s = interval - threshold;
    double planned = cost.model().plannedCost();
    if (!(s > 0)) {
      return (mending + planned) / threshold;
    }
    if (s >= edges[size - 1]) {
      return (mending + spent[size - 1]) / (threshold + hours[size - 1]);
    }
    double[] sums;
    if (s <= edges[0]) {
      sums = first(s);
    } else {
      int found = Arrays.binarySearch(edges, 0, size, s);
      int edge = found >= 0 ? found : -found - 2;
      sums = new double[] {hours[edge], spent[edge], alive[edge]};
      if (found < 0) {
        panel(edges[edge], s, sums);
      }
    }
    return (mending + planned * sums[2] + sums[1]) / (threshold + sums[0]);
  }

  /** Number of intervals at which sums are held, in ascending order, the threshold first. */
  int intervals() {
    return size + 1;
  }

  /** One of them. */
  double interval(int j) {
    return j == 0 ? threshold : threshold + edges[j - 1];
  }

  /** {@link #costPerHour} there, for next to nothing. */
  double costAt(int j) {
    double planned = cost.model().plannedCost();
    return j == 0
        ? (mending + planned) / threshold
        : (mending + planned * alive[j - 1] + spent[j - 1]) / (threshold + hours[j - 1]);
  }
}

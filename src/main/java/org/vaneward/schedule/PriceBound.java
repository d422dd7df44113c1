package org.vaneward.schedule;

import java.util.Arrays;

/**
 * A lower bound on what any calendar costs, and shares that say where jobs belong.
 *
 * <p>"Each job once" is taken out of the constraints and priced instead: a job that is chosen in no
 * week gets dearer to leave, one chosen twice cheaper. For given prices the weeks fall apart and
 * each is solved exactly ({@link WeekChoice}); whatever the prices, prices plus weeks are no more
 * than the cheapest calendar (Lagrangian relaxation; Fisher 1981, Management Science 27, 1-18). The
 * prices climb by the volume algorithm (Barahona and Anbil 2000, Mathematical Programming 87,
 * 385-399), whose running mean of the choices nears an optimum of the relaxed problem.
 */
final class PriceBound {
  private static final double SHARE_OF_NEW = 0.1;
  private static final double FIRST_STEP = 0.1;
  private static final int PATIENCE = 20;
  private static final double LEAST_STEP = 1e-4;

  /** Scale below which it is worked into the shares. */
  private static final double LEAST_SCALE = 1e-100;

  private final Core core;
  private final WeekChoice choice;

  /**
   * By job and week; during a climb to be multiplied by {@link #scale}: fading all at once is
   * fading that.
   */
  private final double[][] share;

  private double scale = 1;

  /** By job: the sum of its shares. */
  private final double[] placed;

  private double[] prices;
  private double bound;
  private int[] times;
  private double step = FIRST_STEP;
  private double weight = SHARE_OF_NEW;
  private int failures;

  /** A bound that starts at {@code prices}. */
  PriceBound(Core core, double[] prices) {
    this.core = core;
    this.choice = new WeekChoice(core);
    this.prices = prices.clone();
    this.share = new double[core.jobs][core.weeks + 1];
    this.placed = new double[core.jobs];
    this.times = new int[core.jobs];
    this.bound = evaluate(this.prices, 1);
  }

  /** A bound that starts at each job's cheapest week and a part of a visit. */
  static PriceBound of(Core core) {
    double[] start = new double[core.jobs];
    for (int j = 0; j < start.length; j++) {
      int best = 0;
      for (int w = 1; w <= core.weeks; w++) {
        best = core.cost[j][w] < core.cost[j][best] ? w : best;
      }
      double visit = best < core.weeks ? core.visit[core.site[j]][best] : 0;
      start[j] = Math.min(core.cost[j][best] + visit / 2, core.cost[j][core.weeks]);
    }
    return new PriceBound(core, start);
  }

  /** No calendar costs less. */
  double bound() {
    return bound;
  }

  /** The prices that prove it. */
  double[] prices() {
    return prices;
  }

  /** By job and week: how much the best prices put it there; sums are near 1. */
  double[][] share() {
    return share;
  }

  /**
   * Climbs.
   *
   * @param iterations how often at most
   * @param upper cost of a calendar known; the climb ends when the bound reaches it
   */
  void climb(int iterations, double upper) {
    steps(iterations, upper);
    settleScale();
  }

  private void steps(int iterations, double upper) {
    double[] lack = new double[core.jobs];
    step = FIRST_STEP;
    weight = SHARE_OF_NEW;
    failures = 0;
    for (int i = 0; i < iterations && bound < upper; i++) {
      double norm = lacking(lack);
      if (!(norm > 1e-12)) {
        return;
      }
      double target = Math.min(upper, bound + 0.05 * Math.abs(bound) + 1);
      double length = step * (target - bound) / norm;
      double[] next = new double[core.jobs];
      for (int j = 0; j < next.length; j++) {
        next[j] = prices[j] + length * lack[j];
      }
      double value = evaluate(next, weight);
      accept(next, value, lack);
    }
  }

  private void accept(double[] next, double value, double[] lack) {
    if (value > bound) {
      bound = value;
      prices = next;
      failures = 0;
      double agreement = 0;
      for (int j = 0; j < lack.length; j++) {
        agreement += (1 - times[j]) * lack[j];
      }
      if (agreement > 0) {
        step = Math.min(2, 1.1 * step);
      }
    } else if (++failures >= PATIENCE) {
      failures = 0;
      step = Math.max(LEAST_STEP, 0.66 * step);
      weight = Math.max(0.01, 0.93 * weight);
    }
  }

  private double lacking(double[] lack) {
    double norm = 0;
    for (int j = 0; j < lack.length; j++) {
      lack[j] = 1 - placed[j];
      norm += lack[j] * lack[j];
    }
    return norm;
  }

  /** The bound at {@code at}; its choices go into the shares with {@code weightOfNew}. */
  private double evaluate(double[] at, double weightOfNew) {
    scale *= 1 - weightOfNew;
    if (scale < LEAST_SCALE) {
      settleScale();
    }
    double added = weightOfNew / scale;
    Arrays.fill(times, 0);
    double total = 0;
    for (int j = 0; j < at.length; j++) {
      total += at[j];
      double gained = core.cost[j][core.weeks] - at[j];
      if (gained < 0) {
        total += gained;
        times[j]++;
        share[j][core.weeks] += added;
      }
    }
    for (int w = 0; w < core.weeks; w++) {
      if (core.places[0][w] + core.places[1][w] > 0) {
        total += choice.least(w, at);
        choice.addTo(share, added);
        choice.countInto(times);
      }
    }
    for (int j = 0; j < placed.length; j++) {
      placed[j] = (1 - weightOfNew) * placed[j] + weightOfNew * times[j];
    }
    return total;
  }

  private void settleScale() {
    for (double[] row : share) {
      for (int w = 0; w < row.length; w++) {
        row[w] *= scale;
      }
    }
    scale = 1;
  }

  /**
   * Strikes out weeks a job cannot take in any calendar cheaper than {@code upper}: with the job
   * forced into the week, the bound exceeds it.
   *
   * @return how many pairs of job and week are left
   */
  int strikeOut(Core from, double upper) {
    int left = 0;
    for (int w = 0; w < core.weeks; w++) {
      double free = core.places[0][w] + core.places[1][w] > 0 ? choice.least(w, prices) : 0;
      for (int j = 0; j < core.jobs; j++) {
        if (!core.allowed(j, w)) {
          continue;
        }
        if (bound + choice.leastWith(j, w, prices) - free > upper) {
          from.cost[j][w] = Core.NEVER;
        } else {
          left++;
        }
      }
    }
    for (int j = 0; j < core.jobs; j++) {
      double extra = Math.max(0, core.cost[j][core.weeks] - prices[j]);
      if (bound + extra > upper) {
        from.cost[j][core.weeks] = Core.NEVER;
      } else {
        left++;
      }
    }
    return left;
  }
}

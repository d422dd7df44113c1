package org.vaneward.schedule;

import java.util.Arrays;
import java.util.Comparator;
import java.util.Optional;
import java.util.stream.IntStream;

/**
 * An arrangement found by settling jobs a few at a time where the prices put them most clearly, and
 * letting the prices follow. Ends in {@link Descent}.
 */
final class Dive {
  private final Core core;
  private final int iterations;
  private final double settledShare;
  private final boolean[] settled;
  private final int[][] load;
  private int left;

  private Dive(Core core, int iterations, double settledShare) {
    this.core = core.copy();
    this.iterations = iterations;
    this.settledShare = settledShare;
    this.settled = new boolean[core.jobs];
    this.load = new int[2][core.weeks + 1];
    this.left = core.jobs;
  }

  /**
   * The arrangement.
   *
   * @param start where the prices stand; not changed
   * @param iterations of the prices between two settlings
   * @param settledShare how much of what is left is settled at a time
   * @return empty when jobs are left without a week
   */
  static Optional<Arrangement> from(
      Core core, PriceBound start, int iterations, double settledShare) {
    Dive dive = new Dive(core, iterations, settledShare);
    PriceBound prices = start;
    Optional<Arrangement> best = made(core, prices.share());
    while (dive.settleSome(prices.share())) {
      prices = new PriceBound(dive.core, prices.prices());
      if (dive.left > 0) {
        prices.climb(dive.iterations, Core.NEVER);
      }
    }
    if (dive.left == 0) {
      best = cheaper(best, made(core, prices.share()));
    }
    return best;
  }

  private static Optional<Arrangement> made(Core core, double[][] share) {
    Optional<Arrangement> made = Arrangement.guided(core, share);
    made.ifPresent(Descent::of);
    return made;
  }

  private static Optional<Arrangement> cheaper(Optional<Arrangement> a, Optional<Arrangement> b) {
    if (a.isEmpty() || b.isEmpty()) {
      return a.or(() -> b);
    }
    return b.get().total() < a.get().total() ? b : a;
  }

  private boolean settleSome(double[][] share) {
    int most = Math.max(2, (int) (settledShare * left));
    int done = 0;
    for (int j : clearestFirst(share)) {
      int week = clearest(share[j]);
      if (done < most && core.allowed(j, week) && hasRoom(j, week)) {
        settle(j, week);
        done++;
      }
    }
    return done > 0;
  }

  private int[] clearestFirst(double[][] share) {
    return IntStream.range(0, core.jobs)
        .filter(j -> !settled[j])
        .boxed()
        .sorted(
            Comparator.<Integer>comparingDouble(j -> -share[j][clearest(share[j])])
                .thenComparing(j -> j))
        .mapToInt(Integer::intValue)
        .toArray();
  }

  private static int clearest(double[] share) {
    int best = 0;
    for (int w = 1; w < share.length; w++) {
      best = share[w] > share[best] ? w : best;
    }
    return best;
  }

  private boolean hasRoom(int job, int week) {
    return week == core.weeks || load[core.pool[job]][week] < core.places[core.pool[job]][week];
  }

  private void settle(int job, int week) {
    double cost = core.cost[job][week];
    Arrays.fill(core.cost[job], Core.NEVER);
    core.cost[job][week] = cost;
    settled[job] = true;
    left--;
    int pool = core.pool[job];
    load[pool][week]++;
    if (week < core.weeks && load[pool][week] == core.places[pool][week]) {
      for (int j = 0; j < core.jobs; j++) {
        if (!settled[j] && core.pool[j] == pool) {
          core.cost[j][week] = Core.NEVER;
        }
      }
    }
  }
}

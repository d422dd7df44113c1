package org.vaneward.schedule;

import java.util.Arrays;
import java.util.Comparator;
import java.util.Optional;
import java.util.stream.IntStream;

/** Who is where, and what moving costs. */
final class Arrangement {
  final Core core;
  final int[] at;
  private final int[][] load;
  private final int[][] present;

  private Arrangement(Core core) {
    this.core = core;
    this.at = new int[core.jobs];
    this.load = new int[2][core.weeks + 1];
    this.present = new int[core.sites][core.weeks + 1];
  }

  /** Everybody where {@code at} says. */
  static Arrangement of(Core core, int[] at) {
    Arrangement made = new Arrangement(core);
    for (int j = 0; j < at.length; j++) {
      made.put(j, at[j]);
    }
    return made;
  }

  /**
   * Jobs one after the other into the free week that costs least, visits weighed by the shares: the
   * job with the fewest weeks open to it first, then the one whose share is clearest.
   *
   * @return empty when a job finds no week
   */
  static Optional<Arrangement> guided(Core core, double[][] share) {
    Arrangement made = new Arrangement(core);
    double visit = Arrays.stream(core.visit).flatMapToDouble(Arrays::stream).max().orElse(0);
    for (int j : order(core, share)) {
      int best = made.bestFor(j, share[j], 2 * visit);
      if (best < 0) {
        return Optional.empty();
      }
      made.put(j, best);
    }
    return Optional.of(made);
  }

  private static int[] order(Core core, double[][] share) {
    int[] last = new int[core.jobs];
    double[] clearest = new double[core.jobs];
    for (int j = 0; j < core.jobs; j++) {
      for (int w = 0; w <= core.weeks; w++) {
        last[j] = core.allowed(j, w) ? w : last[j];
        clearest[j] = Math.max(clearest[j], share[j][w]);
      }
    }
    return IntStream.range(0, core.jobs)
        .boxed()
        .sorted(
            Comparator.<Integer>comparingInt(j -> last[j])
                .thenComparing(j -> -clearest[j])
                .thenComparing(j -> j))
        .mapToInt(Integer::intValue)
        .toArray();
  }

  private int bestFor(int job, double[] share, double worth) {
    int best = -1;
    double least = Core.NEVER;
    for (int w = 0; w <= core.weeks; w++) {
      if (!core.allowed(job, w) || !hasRoom(job, w)) {
        continue;
      }
      double shared = Math.min(1, share[w]);
      double cost = core.cost[job][w] + entering(job, w) * (1 - shared) - worth * shared;
      if (cost < least) {
        least = cost;
        best = w;
      }
    }
    return best;
  }

  boolean hasRoom(int job, int week) {
    return week == core.weeks || load[core.pool[job]][week] < core.places[core.pool[job]][week];
  }

  /** Whether the pool has a free place in the week. */
  boolean poolHasRoom(int pool, int week) {
    return week == core.weeks || load[pool][week] < core.places[pool][week];
  }

  /** The visit one more of the job's site would need. */
  double entering(int job, int week) {
    return week < core.weeks && present[core.site[job]][week] == 0
        ? core.visit[core.site[job]][week]
        : 0;
  }

  /** The visit saved when the job leaves where it is. */
  double leaving(int job) {
    int week = at[job];
    return week < core.weeks && present[core.site[job]][week] == 1
        ? core.visit[core.site[job]][week]
        : 0;
  }

  boolean visits(int site, int week) {
    return present[site][week] > 0;
  }

  /** Takes the job out; returns what that saves. */
  double take(int job) {
    double saved = core.cost[job][at[job]] + leaving(job);
    load[core.pool[job]][at[job]]--;
    present[core.site[job]][at[job]]--;
    return saved;
  }

  /** Puts the job in; returns what that costs. */
  double put(int job, int week) {
    double costs = core.cost[job][week] + entering(job, week);
    at[job] = week;
    load[core.pool[job]][week]++;
    present[core.site[job]][week]++;
    return costs;
  }

  double total() {
    return core.total(at);
  }
}

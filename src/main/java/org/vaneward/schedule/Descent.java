package org.vaneward.schedule;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;

/**
 * Betters an arrangement until none of these moves helps: jobs passed on from week to week in a
 * chain or a ring (found as a negative cycle over the weeks), a visit given up, a visit added.
 */
final class Descent {
  private static final double GAIN = 1e-7;
  private static final int ROUNDS = 12;

  private final Arrangement now;
  private final Core core;
  private final int end;

  private Descent(Arrangement now) {
    this.now = now;
    this.core = now.core;
    this.end = core.weeks + 1;
  }

  static void of(Arrangement start) {
    Descent descent = new Descent(start);
    boolean better = true;
    while (better) {
      better = descent.chain(0) || descent.chain(1) || descent.giveUpVisit() || descent.addVisit();
    }
  }

  /**
   * Nodes are weeks; an arc from v to w is the job that passes from v to w most cheaply. A free
   * place is an arc through one more node, so that a chain is a cycle too.
   */
  private boolean chain(int pool) {
    int nodes = end + 1;
    double[][] arc = new double[nodes][nodes];
    int[][] who = new int[nodes][nodes];
    for (int v = 0; v < nodes; v++) {
      Arrays.fill(arc[v], Core.NEVER);
      Arrays.fill(who[v], -1);
    }
    boolean any = false;
    for (int j = 0; j < core.jobs; j++) {
      if (core.pool[j] == pool) {
        any = true;
        arcs(j, arc, who);
      }
    }
    if (!any) {
      return false;
    }
    for (int w = 0; w <= core.weeks; w++) {
      arc[end][w] = 0;
      if (now.poolHasRoom(pool, w)) {
        arc[w][end] = 0;
      }
    }
    return cycle(arc, who);
  }

  private void arcs(int job, double[][] arc, int[][] who) {
    int from = now.at[job];
    double out = core.cost[job][from] + now.leaving(job);
    for (int w = 0; w <= core.weeks; w++) {
      if (w == from || !core.allowed(job, w)) {
        continue;
      }
      double added = core.cost[job][w] + now.entering(job, w) - out;
      if (added < arc[from][w]) {
        arc[from][w] = added;
        who[from][w] = job;
      }
    }
  }

  private boolean cycle(double[][] arc, int[][] who) {
    int nodes = arc.length;
    double[] distance = new double[nodes];
    int[] before = new int[nodes];
    Arrays.fill(before, -1);
    for (int round = 0; round < ROUNDS; round++) {
      boolean changed = false;
      for (int v = 0; v < nodes; v++) {
        for (int w = 0; w < nodes; w++) {
          if (distance[v] + arc[v][w] < distance[w] - GAIN) {
            distance[w] = distance[v] + arc[v][w];
            before[w] = v;
            changed = true;
          }
        }
      }
      if (appliedOne(before, who)) {
        return true;
      }
      if (!changed) {
        return false;
      }
    }
    return false;
  }

  private boolean appliedOne(int[] before, int[][] who) {
    int[] mark = new int[before.length];
    for (int s = 0; s < before.length; s++) {
      int v = s;
      while (v >= 0 && mark[v] == 0) {
        mark[v] = s + 1;
        v = before[v];
      }
      if (v >= 0 && mark[v] == s + 1 && apply(v, before, who)) {
        return true;
      }
    }
    return false;
  }

  /** Arcs were priced one by one; what the whole ring gains is counted as it is made. */
  private boolean apply(int start, int[] before, int[][] who) {
    List<int[]> moves = new ArrayList<>();
    int w = start;
    do {
      int v = before[w];
      if (who[v][w] >= 0) {
        moves.add(new int[] {who[v][w], w, now.at[who[v][w]]});
      }
      w = v;
    } while (w != start);
    double gained = 0;
    for (int[] move : moves) {
      gained += now.take(move[0]);
    }
    for (int[] move : moves) {
      gained -= now.put(move[0], move[1]);
    }
    if (gained > GAIN) {
      return true;
    }
    moves.forEach(move -> now.take(move[0]));
    moves.forEach(move -> now.put(move[0], move[2]));
    return false;
  }

  private boolean giveUpVisit() {
    for (int s = 0; s < core.sites; s++) {
      for (int w = 0; w < core.weeks; w++) {
        if (now.visits(s, w) && giveUp(s, w)) {
          return true;
        }
      }
    }
    return false;
  }

  private boolean giveUp(int s, int w) {
    int[] leaving = Arrays.stream(core.jobsOf(s)).filter(j -> now.at[j] == w).toArray();
    double gained = 0;
    for (int j : leaving) {
      gained += now.take(j);
    }
    int placed = 0;
    for (int j : leaving) {
      int to = elsewhere(j, w);
      if (to < 0) {
        break;
      }
      gained -= now.put(j, to);
      placed++;
    }
    if (placed == leaving.length && gained > GAIN) {
      return true;
    }
    for (int i = 0; i < placed; i++) {
      now.take(leaving[i]);
    }
    for (int j : leaving) {
      now.put(j, w);
    }
    return false;
  }

  private int elsewhere(int job, int not) {
    int best = -1;
    double least = Core.NEVER;
    for (int w = 0; w <= core.weeks; w++) {
      if (w != not && core.allowed(job, w) && now.hasRoom(job, w)) {
        double cost = core.cost[job][w] + now.entering(job, w);
        if (cost < least) {
          least = cost;
          best = w;
        }
      }
    }
    return best;
  }

  private boolean addVisit() {
    for (int s = 0; s < core.sites; s++) {
      for (int w = 0; w < core.weeks; w++) {
        if (!now.visits(s, w) && add(s, w)) {
          return true;
        }
      }
    }
    return false;
  }

  private boolean add(int s, int w) {
    int[] wanting =
        Arrays.stream(core.jobsOf(s))
            .filter(j -> core.allowed(j, w) && better(j, w) < now.leaving(j))
            .boxed()
            .sorted(Comparator.<Integer>comparingDouble(j -> better(j, w)).thenComparing(j -> j))
            .mapToInt(Integer::intValue)
            .toArray();
    int[] from = Arrays.stream(wanting).map(j -> now.at[j]).toArray();
    boolean[] moved = new boolean[wanting.length];
    double gained = 0;
    double most = GAIN;
    int best = -1;
    for (int i = 0; i < wanting.length; i++) {
      if (now.hasRoom(wanting[i], w)) {
        gained += now.take(wanting[i]);
        gained -= now.put(wanting[i], w);
        moved[i] = true;
        if (gained > most) {
          most = gained;
          best = i;
        }
      }
    }
    for (int i = wanting.length - 1; i > best; i--) {
      if (moved[i]) {
        now.take(wanting[i]);
        now.put(wanting[i], from[i]);
      }
    }
    return best >= 0;
  }

  private double better(int job, int w) {
    return core.cost[job][w] - core.cost[job][now.at[job]];
  }
}

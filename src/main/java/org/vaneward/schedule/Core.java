package org.vaneward.schedule;

import java.util.Arrays;

/**
 * What is left to decide, as arrays: each job takes one week whose cost is finite.
 *
 * <p>A week's places come in two pools. Jobs that break a limit whatever is done share the places
 * set apart for them; all others share the rest. A visit serves both.
 */
final class Core {
  static final double NEVER = Double.POSITIVE_INFINITY;

  /** By job and week, the last entry for after the horizon; {@link #NEVER} where not allowed. */
  final double[][] cost;

  final int[] site;
  final int[] pool;

  /** By pool and week. */
  final int[][] places;

  /** By site and week. */
  final double[][] visit;

  final int jobs;
  final int weeks;
  final int sites;
  private final int[][] jobsOfSite;

  Core(double[][] cost, int[] site, int[] pool, int[][] places, double[][] visit) {
    this.cost = cost;
    this.site = site;
    this.pool = pool;
    this.places = places;
    this.visit = visit;
    this.jobs = cost.length;
    this.weeks = places[0].length;
    this.sites = visit.length;
    this.jobsOfSite = new int[sites][];
    int[] count = new int[sites];
    for (int s : site) {
      count[s]++;
    }
    for (int s = 0; s < sites; s++) {
      jobsOfSite[s] = new int[count[s]];
    }
    for (int j = jobs - 1; j >= 0; j--) {
      jobsOfSite[site[j]][--count[site[j]]] = j;
    }
  }

  /** Jobs at a site, in order. */
  int[] jobsOf(int s) {
    return jobsOfSite[s];
  }

  /** Index of after the horizon. */
  int after() {
    return weeks;
  }

  boolean allowed(int job, int week) {
    return cost[job][week] < NEVER;
  }

  /** The same with costs of its own, to be struck out at will. */
  Core copy() {
    return withCost(Arrays.stream(cost).map(double[]::clone).toArray(double[][]::new));
  }

  private Core withCost(double[][] own) {
    return new Core(own, site, pool, places, visit);
  }

  /**
   * The part of it that some jobs and weeks make, everybody else staying where {@code at} has him:
   * those take their places and pay their visits. Sites are those of the jobs, numbered anew.
   *
   * @param free jobs that may move, in order
   * @param open weeks they may move to, in order; after the horizon always
   */
  Core part(int[] free, int[] open, int[] at) {
    boolean[] moves = new boolean[jobs];
    for (int j : free) {
      moves[j] = true;
    }
    int[][] room = Arrays.stream(places).map(int[]::clone).toArray(int[][]::new);
    double[][] fee = Arrays.stream(visit).map(double[]::clone).toArray(double[][]::new);
    for (int j = 0; j < jobs; j++) {
      if (!moves[j] && at[j] < weeks) {
        room[pool[j]][at[j]]--;
        fee[site[j]][at[j]] = 0;
      }
    }
    double[][] own = new double[free.length][open.length + 1];
    int[] kept = Arrays.stream(free).map(j -> site[j]).sorted().distinct().toArray();
    int[] ownSite = new int[free.length];
    int[] ownPool = new int[free.length];
    for (int i = 0; i < free.length; i++) {
      ownSite[i] = Arrays.binarySearch(kept, site[free[i]]);
      ownPool[i] = pool[free[i]];
      for (int k = 0; k < open.length; k++) {
        own[i][k] = cost[free[i]][open[k]];
      }
      own[i][open.length] = cost[free[i]][weeks];
    }
    return new Core(
        own,
        ownSite,
        ownPool,
        new int[][] {pick(room[0], open), pick(room[1], open)},
        Arrays.stream(kept).mapToObj(s -> pick(fee[s], open)).toArray(double[][]::new));
  }

  private static int[] pick(int[] from, int[] at) {
    return Arrays.stream(at).map(i -> from[i]).toArray();
  }

  private static double[] pick(double[] from, int[] at) {
    return Arrays.stream(at).mapToDouble(i -> from[i]).toArray();
  }

  /** What {@code at} costs, visits included. */
  double total(int[] at) {
    boolean[][] seen = new boolean[sites][weeks];
    double total = 0;
    for (int j = 0; j < jobs; j++) {
      int week = at[j];
      total += cost[j][week];
      if (week < weeks && !seen[site[j]][week]) {
        seen[site[j]][week] = true;
        total += visit[site[j]][week];
      }
    }
    return total;
  }
}

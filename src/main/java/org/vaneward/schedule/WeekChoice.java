package org.vaneward.schedule;

import java.util.Arrays;

/**
 * The cheapest set of jobs for one week when each job pays a price for being done: each site opened
 * costs its visit, and each pool's places limit its jobs. Solved exactly: within a site the jobs
 * that gain most come first, and how many each site gets is found by dynamic programming.
 */
final class WeekChoice {
  private static final int NOBODY = -1;

  private final Core core;

  /** By pool and site: gains (cost less price, negative), the best first, and whose they are. */
  private final double[][][] gain = new double[2][][];

  private final int[][][] who = new int[2][][];

  /** By pool, week and site: the jobs allowed there, and what they cost, side by side. */
  private final int[][][][] allowed;

  private final double[][][][] cost;
  private final int[][] count;
  private int week;
  private int forced = NOBODY;

  /** How many the best choice takes, by pool and site. */
  private final int[][] taken;

  WeekChoice(Core core) {
    this.core = core;
    this.allowed = new int[2][core.weeks][core.sites][];
    this.cost = new double[2][core.weeks][core.sites][];
    for (int s = 0; s < core.sites; s++) {
      gather(0, s);
      gather(1, s);
    }
    this.count = new int[2][core.sites];
    this.taken = new int[2][core.sites];
    for (int p = 0; p < 2; p++) {
      gain[p] = new double[core.sites][];
      who[p] = new int[core.sites][];
      for (int s = 0; s < core.sites; s++) {
        gain[p][s] = new double[core.jobsOf(s).length];
        who[p][s] = new int[core.jobsOf(s).length];
      }
    }
  }

  private void gather(int p, int s) {
    int[] jobs = Arrays.stream(core.jobsOf(s)).filter(j -> core.pool[j] == p).toArray();
    int[] found = new int[jobs.length];
    double[] costs = new double[jobs.length];
    for (int w = 0; w < core.weeks; w++) {
      int n = 0;
      for (int j : jobs) {
        double one = core.cost[j][w];
        if (one < Core.NEVER) {
          found[n] = j;
          costs[n++] = one;
        }
      }
      allowed[p][w][s] = Arrays.copyOf(found, n);
      cost[p][w][s] = Arrays.copyOf(costs, n);
    }
  }

  /** The least sum of costs less prices and of visits in {@code week}; nobody chosen is 0. */
  double least(int week, double[] prices) {
    return least(week, prices, NOBODY);
  }

  /** The same when {@code job} must be among them; {@link Core#NEVER} when it cannot be. */
  double leastWith(int job, int week, double[] prices) {
    return least(week, prices, job);
  }

  /** Adds {@code weight} to the share of each job chosen last, in the week asked for last. */
  void addTo(double[][] share, double weight) {
    for (int p = 0; p < 2; p++) {
      for (int s = 0; s < core.sites; s++) {
        for (int i = 0; i < taken[p][s]; i++) {
          share[who[p][s][i]][week] += weight;
        }
      }
    }
  }

  /** Adds 1 for each job chosen last. */
  void countInto(int[] times) {
    for (int p = 0; p < 2; p++) {
      for (int s = 0; s < core.sites; s++) {
        for (int i = 0; i < taken[p][s]; i++) {
          times[who[p][s][i]]++;
        }
      }
    }
  }

  private double least(int ofWeek, double[] prices, int must) {
    week = ofWeek;
    forced = must;
    Arrays.fill(taken[0], 0);
    Arrays.fill(taken[1], 0);
    if (must != NOBODY && core.places[core.pool[must]][week] == 0) {
      return Core.NEVER;
    }
    int[] wanted = new int[2];
    for (int s = 0; s < core.sites; s++) {
      sort(0, s, prices);
      sort(1, s, prices);
      wanted[0] += count[0][s];
      wanted[1] += count[1][s];
    }
    return wanted[0] <= core.places[0][week] && wanted[1] <= core.places[1][week]
        ? roomForAll()
        : shareOut(wanted);
  }

  private void sort(int p, int s, double[] prices) {
    count[p][s] = 0;
    int most = core.places[p][week];
    int[] jobs = allowed[p][week][s];
    double[] costs = cost[p][week][s];
    // What a job has to gain more than to be listed.
    double worst = 0;
    for (int i = 0; i < jobs.length && most > 0; i++) {
      int j = jobs[i];
      double gained = costs[i] - prices[j];
      if (gained < worst || j == forced) {
        insert(p, s, j, gained);
        worst = count[p][s] == most ? gain[p][s][most - 1] : 0;
      }
    }
  }

  /** Keeps the list in order and no longer than there are places; the forced job stands first. */
  private void insert(int p, int s, int job, double gained) {
    int most = core.places[p][week];
    double[] gains = gain[p][s];
    int[] jobs = who[p][s];
    int at = count[p][s];
    int first = at > 0 && jobs[0] == forced ? 1 : 0;
    if (job == forced) {
      first = 0;
    }
    while (at > first && (gains[at - 1] > gained || job == forced)) {
      at--;
    }
    if (at >= most) {
      return;
    }
    int moved = Math.min(count[p][s], most - 1) - at;
    System.arraycopy(gains, at, gains, at + 1, moved);
    System.arraycopy(jobs, at, jobs, at + 1, moved);
    gains[at] = gained;
    jobs[at] = job;
    count[p][s] = Math.min(count[p][s] + 1, most);
  }

  private double roomForAll() {
    double total = 0;
    for (int s = 0; s < core.sites; s++) {
      if (count[0][s] + count[1][s] == 0) {
        continue;
      }
      double site = core.visit[s][week] + sum(0, s) + sum(1, s);
      if (site < 0 || isForced(s)) {
        total += site;
        taken[0][s] = count[0][s];
        taken[1][s] = count[1][s];
      }
    }
    return total;
  }

  private double sum(int p, int s) {
    double sum = 0;
    for (int i = 0; i < count[p][s]; i++) {
      sum += gain[p][s][i];
    }
    return sum;
  }

  private boolean isForced(int s) {
    return forced != NOBODY && core.site[forced] == s;
  }

  /** Over the sites, the best for each number of places used in each pool. */
  private double shareOut(int[] wanted) {
    int a = Math.min(wanted[0], core.places[0][week]);
    int b = Math.min(wanted[1], core.places[1][week]);
    int width = b + 1;
    double[] best = new double[(a + 1) * width];
    int[][] choice = new int[core.sites][];
    for (int s = 0; s < core.sites; s++) {
      if (count[0][s] + count[1][s] > 0) {
        choice[s] = new int[best.length];
        best = withSite(s, best, a, b, choice[s]);
      }
    }
    int at = best.length - 1;
    double least = best[at];
    for (int s = core.sites - 1; s >= 0; s--) {
      if (count[0][s] + count[1][s] > 0) {
        taken[0][s] = choice[s][at] / width;
        taken[1][s] = choice[s][at] % width;
        at -= choice[s][at];
      }
    }
    return least;
  }

  private double[] withSite(int s, double[] before, int a, int b, int[] choice) {
    double[] after = new double[before.length];
    double[] value = values(s, b + 1);
    for (int i = 0; i <= a; i++) {
      for (int k = 0; k <= b; k++) {
        int at = i * (b + 1) + k;
        double least = Core.NEVER;
        for (int x = Math.min(i, count[0][s]); x >= 0; x--) {
          for (int y = Math.min(k, count[1][s]); y >= 0; y--) {
            int used = x * (b + 1) + y;
            double total = before[at - used] + value[used];
            if (total < least) {
              least = total;
              choice[at] = used;
            }
          }
        }
        after[at] = least;
      }
    }
    return after;
  }

  /** The site's cost by how many of each pool it gets. */
  private double[] values(int s, int width) {
    double[] value = new double[(count[0][s] + 1) * width];
    double first = core.visit[s][week];
    for (int x = 0; x <= count[0][s]; x++) {
      first += x > 0 ? gain[0][s][x - 1] : 0;
      double both = first;
      for (int y = 0; y <= Math.min(count[1][s], width - 1); y++) {
        both += y > 0 ? gain[1][s][y - 1] : 0;
        value[x * width + y] = x + y == 0 ? 0 : both;
      }
    }
    if (isForced(s)) {
      int p = core.pool[forced];
      for (int at = 0; at < value.length; at++) {
        if ((p == 0 ? at / width : at % width) == 0) {
          value[at] = Core.NEVER;
        }
      }
    }
    return value;
  }
}

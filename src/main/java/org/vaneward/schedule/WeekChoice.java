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

  /** By places used in each pool: the least cost of the sites so far, and with the next one. */
  private double[] best = {};

  private double[] next = {};
  private double[] value = {};

  /** By site and places used: how many of them are the site's own. */
  private int[][] choice = {};

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
    list(0, prices);
    list(1, prices);
    int[] wanted = new int[2];
    for (int s = 0; s < core.sites; s++) {
      if (count[0][s] + count[1][s] > 0) {
        if (all(s) > 0 && !isForced(s)) {
          // Gains are negative: if all of them do not pay the visit, some do not either.
          count[0][s] = 0;
          count[1][s] = 0;
        }
        wanted[0] += count[0][s];
        wanted[1] += count[1][s];
      }
    }
    return wanted[0] <= core.places[0][week] && wanted[1] <= core.places[1][week]
        ? roomForAll()
        : shareOut(wanted);
  }

  /** The jobs of a pool that gain by being done this week, site by site. */
  private void list(int p, double[] prices) {
    Arrays.fill(count[p], 0);
    int most = core.places[p][week];
    if (most > 0) {
      int[][] jobs = allowed[p][week];
      double[][] costs = cost[p][week];
      for (int s = 0; s < jobs.length; s++) {
        list(p, s, most, jobs[s], costs[s], prices);
      }
    }
  }

  private void list(int p, int s, int most, int[] jobs, double[] costs, double[] prices) {
    // What a job has to gain more than to be listed.
    double worst = 0;
    for (int i = 0; i < jobs.length; i++) {
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
      double all = all(s);
      if (count[0][s] + count[1][s] > 0 && (all < 0 || isForced(s))) {
        total += all;
        taken[0][s] = count[0][s];
        taken[1][s] = count[1][s];
      }
    }
    return total;
  }

  /** A visit to the site and all that is listed of it. */
  private double all(int s) {
    return core.visit[s][week] + sum(0, s) + sum(1, s);
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
    int size = (a + 1) * width;
    makeRoom(size);
    Arrays.fill(best, 0, size, 0);
    for (int s = 0; s < core.sites; s++) {
      if (count[0][s] + count[1][s] > 0) {
        addSite(s, a, b);
      }
    }
    int at = size - 1;
    double least = best[at];
    for (int s = core.sites - 1; s >= 0; s--) {
      if (count[0][s] + count[1][s] > 0) {
        int used = choice[s][at];
        taken[0][s] = used / width;
        taken[1][s] = used % width;
        at -= used;
      }
    }
    return least;
  }

  /** Kept from week to week: made anew each time, they took longer than what is done with them. */
  private void makeRoom(int size) {
    if (best.length < size) {
      best = new double[size];
      next = new double[size];
      value = new double[size];
      choice = new int[core.sites][size];
    }
  }

  private void addSite(int s, int a, int b) {
    int width = b + 1;
    int mostX = Math.min(a, count[0][s]);
    int mostY = Math.min(b, count[1][s]);
    valueUpTo(mostX, mostY, s, width);
    int[] of = choice[s];
    for (int i = 0; i <= a; i++) {
      for (int k = 0; k <= b; k++) {
        int at = i * width + k;
        double least = Core.NEVER;
        int chosen = 0;
        for (int x = Math.min(i, mostX); x >= 0; x--) {
          for (int y = Math.min(k, mostY); y >= 0; y--) {
            int used = x * width + y;
            double total = best[at - used] + value[used];
            if (total < least) {
              least = total;
              chosen = used;
            }
          }
        }
        of[at] = chosen;
        next[at] = least;
      }
    }
    double[] before = best;
    best = next;
    next = before;
  }

  /** The site's cost by how many of each pool it gets. */
  private void valueUpTo(int mostX, int mostY, int s, int width) {
    double first = core.visit[s][week];
    for (int x = 0; x <= mostX; x++) {
      first += x > 0 ? gain[0][s][x - 1] : 0;
      double both = first;
      for (int y = 0; y <= mostY; y++) {
        both += y > 0 ? gain[1][s][y - 1] : 0;
        value[x * width + y] = x + y == 0 ? 0 : both;
      }
    }
    if (isForced(s)) {
      boolean inFirst = core.pool[forced] == 0;
      for (int x = 0; x <= mostX; x++) {
        for (int y = 0; y <= mostY; y++) {
          if ((inFirst ? x : y) == 0) {
            value[x * width + y] = Core.NEVER;
          }
        }
      }
    }
  }
}

package org.vaneward.schedule;

import java.util.Arrays;
import java.util.List;

/**
 * Which limits can be kept, costs aside: the fewest broken limits, then the fewest days late, then
 * the least cost. Jobs without limits yield to them; they can wait until after the horizon.
 *
 * <p>A transportation problem, solved by successive shortest paths over the weeks in whole numbers:
 * each job put in pushes others along the cheapest chain.
 */
final class LimitPlaces {
  private static final long COST_STEPS = 1000;
  private static final long ONE_DAY = 10_000_000L;
  private static final long ONE_BROKEN = 1_000_000_000_000_000L;

  private final int weeks;
  private final int[] places;
  private final long[][] price;
  private final int[] at;
  private final int[] load;

  private LimitPlaces(int[] places, long[][] price) {
    this.weeks = places.length;
    this.places = places;
    this.price = price;
    this.at = new int[price.length];
    this.load = new int[weeks + 1];
    Arrays.fill(at, -1);
  }

  /**
   * A week for each of {@code jobs}.
   *
   * @param jobs jobs with limits
   * @param places by week
   */
  static int[] of(List<Job> jobs, int[] places) {
    LimitPlaces all = new LimitPlaces(places, prices(jobs));
    for (int j = 0; j < jobs.size(); j++) {
      all.insert(j);
    }
    return all.at;
  }

  private static long[][] prices(List<Job> jobs) {
    double most = most(jobs);
    long[][] price = new long[jobs.size()][];
    for (int j = 0; j < price.length; j++) {
      Job job = jobs.get(j);
      price[j] = new long[job.weeks() + 1];
      for (int w = 0; w < price[j].length; w++) {
        long late = job.daysLate(w);
        long cost = most > 0 ? Math.round(COST_STEPS * job.cost(w) / most) : 0;
        price[j][w] = (late > 0 ? ONE_BROKEN : 0) + late * ONE_DAY + cost;
      }
    }
    return price;
  }

  private static double most(List<Job> jobs) {
    double most = 0;
    for (Job job : jobs) {
      for (int w = 0; w <= job.weeks(); w++) {
        most = Math.max(most, Math.abs(job.cost(w)));
      }
    }
    return most;
  }

  private boolean hasRoom(int week) {
    return week == weeks || load[week] < places[week];
  }

  private void insert(int job) {
    long[] distance = price[job].clone();
    int[] mover = new int[weeks + 1];
    int[] from = new int[weeks + 1];
    Arrays.fill(mover, job);
    Arrays.fill(from, -1);
    for (int w = 0; w < weeks; w++) {
      if (places[w] <= 0) {
        distance[w] = Long.MAX_VALUE;
      }
    }
    boolean changed = true;
    while (changed) {
      changed = false;
      for (int i = 0; i < at.length; i++) {
        changed |= at[i] >= 0 && relax(i, distance, mover, from);
      }
    }
    push(nearest(distance), mover, from);
  }

  private boolean relax(int i, long[] distance, int[] mover, int[] from) {
    boolean changed = false;
    int v = at[i];
    for (int w = 0; w <= weeks; w++) {
      if (w == v || distance[w] == Long.MAX_VALUE) {
        continue;
      }
      long through = distance[v] + price[i][w] - price[i][v];
      if (through < distance[w]) {
        distance[w] = through;
        mover[w] = i;
        from[w] = v;
        changed = true;
      }
    }
    return changed;
  }

  private int nearest(long[] distance) {
    int best = weeks;
    for (int w = weeks - 1; w >= 0; w--) {
      if (hasRoom(w) && distance[w] <= distance[best]) {
        best = w;
      }
    }
    return best;
  }

  private void push(int to, int[] mover, int[] from) {
    load[to]++;
    int week = to;
    while (week >= 0) {
      at[mover[week]] = week;
      week = from[week];
    }
  }
}

package org.vaneward.schedule;

import java.util.List;

/** Every way to put jobs into weeks, the best kept: fewest broken limits, days late, then cost. */
final class BruteForce {
  private final int[] places;
  private final double visitCost;
  private final List<Job> jobs;
  private final int[] at;
  int[] best = new int[0];
  long broken = Long.MAX_VALUE;
  long daysLate = Long.MAX_VALUE;
  double cost = Double.POSITIVE_INFINITY;

  private BruteForce(int[] places, double visitCost, List<Job> jobs) {
    this.places = places;
    this.visitCost = visitCost;
    this.jobs = jobs;
    this.at = new int[jobs.size()];
  }

  static BruteForce of(int[] places, double visitCost, List<Job> jobs) {
    BruteForce all = new BruteForce(places, visitCost, jobs);
    all.place(0);
    return all;
  }

  private void place(int j) {
    if (j == at.length) {
      judge();
      return;
    }
    for (int w = 0; w <= places.length; w++) {
      boolean committed = jobs.get(j).committed().isPresent();
      if (committed ? jobs.get(j).committed().getAsInt() == w : hasRoom(j, w)) {
        at[j] = w;
        place(j + 1);
      }
    }
  }

  /** Committed jobs take their places first, whether there are any or not. */
  private boolean hasRoom(int j, int w) {
    if (w == places.length) {
      return true;
    }
    int taken = 0;
    for (int i = 0; i < at.length; i++) {
      boolean there =
          jobs.get(i).committed().isPresent()
              ? jobs.get(i).committed().getAsInt() == w
              : i < j && at[i] == w;
      taken += there ? 1 : 0;
    }
    return taken < places[w];
  }

  private void judge() {
    long late = 0;
    long days = 0;
    for (int j = 0; j < at.length; j++) {
      long one = jobs.get(j).daysLate(at[j]);
      late += one > 0 ? 1 : 0;
      days += one;
    }
    double total = total(places.length, visitCost, jobs, at);
    boolean better =
        late != broken ? late < broken : days != daysLate ? days < daysLate : total < cost;
    if (better) {
      broken = late;
      daysLate = days;
      cost = total;
      best = at.clone();
    }
  }

  static double total(int weeks, double visitCost, List<Job> jobs, int[] at) {
    double total = 0;
    for (int j = 0; j < at.length; j++) {
      total += jobs.get(j).cost(at[j]);
      boolean first = at[j] < weeks;
      for (int i = 0; i < j; i++) {
        first &= at[i] != at[j] || jobs.get(i).site() != jobs.get(j).site();
      }
      total += first ? visitCost : 0;
    }
    return total;
  }
}

package org.vaneward.schedule;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalInt;
import java.util.SplittableRandom;

/** Drawn fleets of jobs. */
public final class Instances {
  private Instances() {}

  /** Places a week, what a visit costs, and the jobs. */
  public static final class Instance {
    private final int[] places;
    private final double visitCost;
    private final List<Job> jobs;

    Instance(int[] places, double visitCost, List<Job> jobs) {
      this.places = places;
      this.visitCost = visitCost;
      this.jobs = List.copyOf(jobs);
    }

    /** By week. */
    public int[] places() {
      return places.clone();
    }

    /** What one costs. */
    public double visitCost() {
      return visitCost;
    }

    /** The jobs. */
    public List<Job> jobs() {
      return jobs;
    }
  }

  /** Few enough to try every schedule; closed weeks, limits (some past), committed jobs. */
  static Instance small(SplittableRandom random) {
    int weeks = random.nextInt(1, 7);
    int[] places = new int[weeks];
    int most = random.nextInt(1, 4);
    for (int w = 0; w < weeks; w++) {
      places[w] = random.nextInt(5) == 0 ? 0 : most;
    }
    List<Job> jobs = new ArrayList<>();
    int count = random.nextInt(1, 6);
    int sites = random.nextInt(1, 4);
    for (int j = 0; j < count; j++) {
      double[] cost = new double[weeks + 1];
      long[] late = new long[weeks + 1];
      boolean limited = random.nextInt(3) == 0;
      int limit = random.nextInt(-10, 7 * weeks);
      for (int w = 0; w <= weeks; w++) {
        cost[w] = random.nextInt(200);
        late[w] = limited ? Math.max(0, 7L * w - limit) : 0;
      }
      OptionalInt committed =
          random.nextInt(8) == 0 ? OptionalInt.of(random.nextInt(weeks + 1)) : OptionalInt.empty();
      jobs.add(new Job(random.nextInt(sites), cost, late, committed));
    }
    return new Instance(places, random.nextInt(3) * 75, jobs);
  }

  /**
   * A fleet: costs grow with the square of the weeks from the best one, a quarter are overdue, 15%
   * have limits, two weeks of every year are closed.
   */
  public static Instance fleet(
      int count, int sites, int weeks, int perWeek, double visitCost, long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    int[] places = new int[weeks];
    for (int w = 0; w < weeks; w++) {
      places[w] = w % 52 == 25 || w % 52 == 26 ? 0 : perWeek;
    }
    List<Job> jobs = new ArrayList<>();
    for (int j = 0; j < count; j++) {
      double perSquaredWeek = Math.exp(random.nextDouble(Math.log(0.3), Math.log(6)));
      boolean overdue = random.nextDouble() < 0.25;
      double best = overdue ? -random.nextDouble(30) : random.nextDouble(1.44 * weeks);
      boolean limited = random.nextDouble() < 0.15;
      long limit = Math.round(Math.max(20, best + 8 + random.nextDouble(30)));
      double least = overdue ? perSquaredWeek * best * best : 0;
      double[] cost = new double[weeks + 1];
      long[] late = new long[weeks + 1];
      for (int w = 0; w <= weeks; w++) {
        double off = w - best;
        cost[w] = w == weeks && best >= weeks ? 0 : perSquaredWeek * off * off - least;
        late[w] = limited ? Math.max(0, 7 * (w - limit)) : 0;
      }
      jobs.add(new Job(random.nextInt(sites), cost, late, OptionalInt.empty()));
    }
    return new Instance(places, visitCost, jobs);
  }
}

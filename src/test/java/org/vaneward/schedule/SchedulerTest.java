package org.vaneward.schedule;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.OptionalInt;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.ojalgo.optimisation.Expression;
import org.ojalgo.optimisation.ExpressionsBasedModel;
import org.ojalgo.optimisation.Optimisation;
import org.ojalgo.optimisation.Variable;

class SchedulerTest {
  private static final double CENT = 0.01;

  /** Every way tried, on drawn instances with closed weeks, limits, commitments and visits. */
  @Test
  void smallSchedulesAreTheBestOfAll() {
    SplittableRandom random = new SplittableRandom(5);
    int visitsMattered = 0;
    int limitsBroken = 0;
    for (int i = 0; i < 3000; i++) {
      Instances.Instance one = Instances.small(random);
      Schedule found = solve(one);
      BruteForce all = BruteForce.of(one.places(), one.visitCost(), one.jobs());
      assertEquals(all.broken, broken(one, found), "limits broken in trial " + i);
      assertEquals(all.daysLate, daysLate(one, found), "days late in trial " + i);
      assertTrue(found.optimal(), "not proved in trial " + i);
      assertEquals(
          BruteForce.total(one.places().length, one.visitCost(), one.jobs(), found.weeks()),
          found.total(),
          1e-9);
      if (all.broken == 0) {
        assertEquals(all.cost, found.total(), 1e-6, "cost in trial " + i);
        visitsMattered += found.visits() < one.jobs().size() && one.visitCost() > 0 ? 1 : 0;
      } else {
        // Which limits are given up is settled before visits are counted.
        assertTrue(found.total() >= all.cost - 1e-6);
        limitsBroken++;
      }
    }
    assertTrue(visitsMattered > 500, "shared visits: " + visitsMattered);
    assertTrue(limitsBroken > 200, "broken limits: " + limitsBroken);
  }

  /** A mixed-integer solver of another make, on calendars too large to try every way. */
  @Test
  void anotherSolverFindsNothingCheaper() {
    for (int seed = 1; seed <= 4; seed++) {
      Instances.Instance one = Instances.fleet(10, 2, 10, 2, 120, seed);
      Schedule found = solve(one);
      double other = mixedInteger(one);
      assertEquals(other, found.total(), 1e-5 * other, "seed " + seed);
      assertTrue(found.bound() <= other * (1 + 1e-6));
    }
  }

  @Test
  void feasibleFleetsBreakNothing() {
    for (int seed = 1; seed <= 6; seed++) {
      Instances.Instance one = Instances.fleet(30, 4, 52, 2, 300, seed);
      Schedule found = solve(one);
      assertHolds(one, found);
      assertEquals(0, broken(one, found));
      assertTrue(found.gap() < 0.10, "gap " + found.gap());
      assertTrue(found.bound() <= found.total());
    }
  }

  /** The size the calendar is made for. The gap is held, the time only printed. */
  @Test
  void fiveHundredPumpsOverTwoYears() {
    Instances.Instance one = Instances.fleet(500, 12, 104, 8, 450, 1);
    long start = System.nanoTime();
    Schedule found = solve(one);
    System.out.printf(
        Locale.ROOT,
        "500 pumps, 104 weeks: %.1f s, total %.0f, gap %.2f%%, %d visits%n",
        (System.nanoTime() - start) / 1e9,
        found.total(),
        100 * found.gap(),
        found.visits());
    assertHolds(one, found);
    assertEquals(0, broken(one, found));
    assertTrue(found.gap() < 0.02, "gap " + found.gap());
  }

  @Test
  void sameInputSameSchedule() {
    Instances.Instance one = Instances.fleet(40, 4, 52, 2, 300, 9);
    assertArrayEquals(solve(one).weeks(), solve(one).weeks());
    assertEquals(solve(one).bound(), solve(one).bound());
  }

  @Test
  void committingAScheduleKeepsIt() {
    Instances.Instance one = Instances.fleet(40, 4, 52, 2, 300, 3);
    Schedule first = solve(one);
    List<Job> committed = new ArrayList<>();
    for (int j = 0; j < one.jobs().size(); j++) {
      Job job = one.jobs().get(j);
      boolean booked = first.weeks()[j] < one.places().length;
      committed.add(
          new Job(
              job.site(),
              costs(job),
              new long[job.weeks() + 1],
              booked ? OptionalInt.of(first.weeks()[j]) : OptionalInt.empty()));
    }
    Schedule again = Scheduler.solve(one.places(), one.visitCost(), committed, said -> {});
    assertArrayEquals(first.weeks(), again.weeks());
    assertEquals(first.total(), again.total(), 1e-6);
  }

  @Test
  void latecomersShareTheEarliestPlaces() {
    long[] late = {5, 12, 19, 26};
    double[] flat = {0, 0, 0, 0};
    List<Job> jobs = new ArrayList<>();
    for (int site : new int[] {0, 1, 0, 1}) {
      jobs.add(new Job(site, flat, late, OptionalInt.empty()));
    }
    Schedule found = Scheduler.solve(new int[] {2, 2, 2}, 100, jobs, said -> {});
    assertEquals(2, found.visits());
    assertEquals(found.weeks()[0], found.weeks()[2]);
    assertEquals(found.weeks()[1], found.weeks()[3]);
    assertTrue(found.weeks()[0] < 2 && found.weeks()[1] < 2);
  }

  @Test
  void noJobsAndNoPlaces() {
    assertEquals(0, Scheduler.solve(new int[] {1}, 5, List.of(), said -> {}).total());
    Job job = new Job(0, new double[] {1, 9}, new long[] {0, 3}, OptionalInt.empty());
    Schedule found = Scheduler.solve(new int[] {0}, 5, List.of(job), said -> {});
    assertArrayEquals(new int[] {1}, found.weeks());
    assertTrue(found.optimal());
    assertEquals(9, found.total());
  }

  @Test
  void misuseIsRefused() {
    Job job = new Job(0, new double[] {1, 9}, new long[] {0, 3}, OptionalInt.empty());
    assertThrows(
        IllegalArgumentException.class,
        () -> Scheduler.solve(new int[] {1, 1}, 5, List.of(job), said -> {}));
    assertThrows(
        IllegalArgumentException.class,
        () -> Scheduler.solve(new int[] {1}, Double.NaN, List.of(job), said -> {}));
    assertThrows(
        IllegalArgumentException.class,
        () -> new Job(0, new double[] {1, Double.NaN}, new long[] {0, 3}, OptionalInt.empty()));
  }

  private static Schedule solve(Instances.Instance one) {
    return Scheduler.solve(one.places(), one.visitCost(), one.jobs(), said -> {});
  }

  private static double[] costs(Job job) {
    double[] costs = new double[job.weeks() + 1];
    Arrays.setAll(costs, job::cost);
    return costs;
  }

  private static void assertHolds(Instances.Instance one, Schedule found) {
    int[] load = new int[one.places().length];
    for (int week : found.weeks()) {
      if (week < load.length) {
        load[week]++;
      }
    }
    for (int w = 0; w < load.length; w++) {
      assertTrue(load[w] <= one.places()[w], "week " + w);
    }
    assertEquals(
        BruteForce.total(load.length, one.visitCost(), one.jobs(), found.weeks()),
        found.total(),
        CENT);
  }

  private static long broken(Instances.Instance one, Schedule found) {
    long broken = 0;
    int[] week = found.weeks();
    for (int j = 0; j < week.length; j++) {
      broken += one.jobs().get(j).daysLate(week[j]) > 0 ? 1 : 0;
    }
    return broken;
  }

  private static long daysLate(Instances.Instance one, Schedule found) {
    long days = 0;
    int[] week = found.weeks();
    for (int j = 0; j < week.length; j++) {
      days += one.jobs().get(j).daysLate(week[j]);
    }
    return days;
  }

  /** x[job, week] and y[site, week], x at most y; limits kept. */
  private static double mixedInteger(Instances.Instance one) {
    ExpressionsBasedModel model = new ExpressionsBasedModel();
    int weeks = one.places().length;
    int sites = one.jobs().stream().mapToInt(Job::site).max().orElse(0) + 1;
    Variable[][] y = new Variable[sites][weeks];
    Expression[] places = new Expression[weeks];
    for (int w = 0; w < weeks; w++) {
      places[w] = model.newExpression("places " + w).upper(one.places()[w]);
      for (int s = 0; s < sites; s++) {
        y[s][w] = model.newVariable("y" + s + "," + w).binary().weight(one.visitCost());
      }
    }
    for (int j = 0; j < one.jobs().size(); j++) {
      Job job = one.jobs().get(j);
      Expression once = model.newExpression("once " + j).level(1);
      for (int w = 0; w <= weeks; w++) {
        if (job.daysLate(w) > 0) {
          continue;
        }
        Variable x = model.newVariable("x" + j + "," + w).binary().weight(job.cost(w));
        once.set(x, 1);
        if (w < weeks) {
          places[w].set(x, 1);
          model.newExpression("visit " + j + "," + w).upper(0).set(x, 1).set(y[job.site()][w], -1);
        }
      }
    }
    Optimisation.Result result = model.minimise();
    assertTrue(result.getState().isOptimal(), () -> "the other solver: " + result.getState());
    return result.getValue();
  }
}

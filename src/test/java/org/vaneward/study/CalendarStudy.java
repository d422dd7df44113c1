package org.vaneward.study;

import java.util.Locale;
import org.vaneward.schedule.Instances;
import org.vaneward.schedule.Schedule;
import org.vaneward.schedule.Scheduler;

/** Prints how long drawn fleets take to schedule and how far from the bound they end. */
public final class CalendarStudy {
  private CalendarStudy() {}

  /** One row for each of five fleets of each size. */
  public static void main(String[] args) {
    System.out.println("| pumps | places | seed | seconds | cost | gap | visits |");
    System.out.println("| ---: | ---: | ---: | ---: | ---: | ---: | ---: |");
    for (int seed = 1; seed <= 5; seed++) {
      row(Instances.fleet(500, 12, 104, 8, 450, seed), 500, 8, seed);
    }
    for (int seed = 1; seed <= 5; seed++) {
      row(Instances.fleet(90, 6, 104, 2, 450, seed), 90, 2, seed);
    }
  }

  private static void row(Instances.Instance fleet, int pumps, int places, int seed) {
    long start = System.nanoTime();
    Schedule found = Scheduler.solve(fleet.places(), fleet.visitCost(), fleet.jobs(), said -> {});
    System.out.printf(
        Locale.ROOT,
        "| %d | %d | %d | %.1f | %,.0f | %.2f%% | %d |%n",
        pumps,
        places,
        seed,
        (System.nanoTime() - start) / 1e9,
        found.total(),
        100 * found.gap(),
        found.visits());
  }
}

package org.vaneward.study;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import org.vaneward.schedule.Instances;
import org.vaneward.schedule.Schedule;
import org.vaneward.schedule.Scheduler;

/**
 * Prints how long drawn fleets take to schedule and how far from the bound they end.
 *
 * <p>With a folder as argument it writes each fleet there too, in free MPS form, and beside it the
 * columns that the schedule found sets to 1, for a general solver to try on or to go on from:
 * src/bench/beside-solvers.sh.
 */
public final class CalendarStudy {
  private CalendarStudy() {}

  /** One row for each of five fleets of each size. */
  public static void main(String[] args) throws IOException {
    System.out.println("| pumps | places | seed | seconds | cost | at least | gap | visits |");
    System.out.println("| ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: |");
    for (int seed = 1; seed <= 5; seed++) {
      show(Instances.fleet(500, 12, 104, 8, 450, seed), 8, seed, args);
    }
    for (int seed = 1; seed <= 5; seed++) {
      show(Instances.fleet(90, 6, 104, 2, 450, seed), 2, seed, args);
    }
  }

  private static void show(Instances.Instance fleet, int places, int seed, String[] args)
      throws IOException {
    Schedule found = row(fleet, places, seed);
    if (args.length > 0) {
      Path folder = Files.createDirectories(Path.of(args[0]));
      String name = "fleet-" + fleet.jobs().size() + "-" + seed;
      Files.writeString(folder.resolve(name + ".mps"), MpsText.of(fleet));
      Files.writeString(folder.resolve(name + ".start"), MpsText.chosen(fleet, found));
    }
  }

  private static Schedule row(Instances.Instance fleet, int places, int seed) {
    long start = System.nanoTime();
    Schedule found = Scheduler.solve(fleet.places(), fleet.visitCost(), fleet.jobs(), said -> {});
    System.out.printf(
        Locale.ROOT,
        "| %d | %d | %d | %.1f | %,.0f | %,.0f | %.2f%% | %d |%n",
        fleet.jobs().size(),
        places,
        seed,
        (System.nanoTime() - start) / 1e9,
        found.total(),
        found.bound(),
        100 * found.gap(),
        found.visits());
    return found;
  }
}

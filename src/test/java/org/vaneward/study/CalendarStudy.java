package org.vaneward.study;

import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import org.vaneward.schedule.Instances;
import org.vaneward.schedule.Job;
import org.vaneward.schedule.Schedule;
import org.vaneward.schedule.Scheduler;

/**
 * Prints how long drawn fleets take to schedule and how far from the bound they end.
 *
 * <p>With a folder as argument it writes each fleet there too, in free MPS form, for a general
 * solver to try on: src/bench/beside-solvers.sh.
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
    if (args.length > 0) {
      Path file = Path.of(args[0], "fleet-" + fleet.jobs().size() + "-" + seed + ".mps");
      Files.createDirectories(file.getParent());
      try (PrintStream to = new PrintStream(file.toFile(), StandardCharsets.US_ASCII)) {
        mps(fleet, to);
      }
    }
    row(fleet, fleet.jobs().size(), places, seed);
  }

  private static void row(Instances.Instance fleet, int pumps, int places, int seed) {
    long start = System.nanoTime();
    Schedule found = Scheduler.solve(fleet.places(), fleet.visitCost(), fleet.jobs(), said -> {});
    System.out.printf(
        Locale.ROOT,
        "| %d | %d | %d | %.1f | %,.0f | %,.0f | %.2f%% | %d |%n",
        pumps,
        places,
        seed,
        (System.nanoTime() - start) / 1e9,
        found.total(),
        found.bound(),
        100 * found.gap(),
        found.visits());
  }

  /**
   * The model of docs/methods/calendar.md, limits as weeks that may not be taken: on these fleets
   * every limit can be kept.
   */
  private static void mps(Instances.Instance fleet, PrintStream to) {
    int[] places = fleet.places();
    StringBuilder rows = new StringBuilder("NAME fleet\nROWS\n N cost\n");
    StringBuilder columns = new StringBuilder("COLUMNS\n M1 'MARKER' 'INTORG'\n");
    StringBuilder right = new StringBuilder("RHS\n");
    StringBuilder bounds = new StringBuilder("BOUNDS\n");
    for (int w = 0; w < places.length; w++) {
      rows.append(" L places").append(w).append('\n');
      right.append(" r places").append(w).append(' ').append(places[w]).append('\n');
    }
    int sites = fleet.jobs().stream().mapToInt(Job::site).max().orElse(0) + 1;
    StringBuilder[][] visits = new StringBuilder[sites][places.length];
    for (int s = 0; s < sites; s++) {
      for (int w = 0; w < places.length; w++) {
        visits[s][w] = new StringBuilder(" y" + s + "_" + w + " cost " + fleet.visitCost() + "\n");
        bounds.append(" BV b y").append(s).append('_').append(w).append('\n');
      }
    }
    for (int j = 0; j < fleet.jobs().size(); j++) {
      Job job = fleet.jobs().get(j);
      rows.append(" E once").append(j).append('\n');
      right.append(" r once").append(j).append(" 1\n");
      for (int w = 0; w <= places.length; w++) {
        if (job.daysLate(w) > 0 || (w < places.length && places[w] == 0)) {
          continue;
        }
        String x = "x" + j + "_" + w;
        columns.append(String.format(Locale.ROOT, " %s once%d 1%n", x, j));
        if (w < places.length) {
          columns.append(String.format(Locale.ROOT, " %s places%d 1%n", x, w));
          columns.append(String.format(Locale.ROOT, " %s v%s 1%n", x, x));
          rows.append(" L v").append(x).append('\n');
          visits[job.site()][w].append(" y" + job.site() + "_" + w + " v" + x + " -1\n");
        }
        columns.append(String.format(Locale.ROOT, " %s cost %.9f%n", x, job.cost(w)));
        bounds.append(" BV b ").append(x).append('\n');
      }
    }
    to.print(rows);
    to.print(columns);
    for (StringBuilder[] ofSite : visits) {
      for (StringBuilder visit : ofSite) {
        to.print(visit);
      }
    }
    to.print(" M2 'MARKER' 'INTEND'\n");
    to.print(right);
    to.print(bounds);
    to.print("ENDATA\n");
  }
}

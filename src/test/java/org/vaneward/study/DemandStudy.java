package org.vaneward.study;

import java.util.Locale;
import org.vaneward.spares.DemandRequest;
import org.vaneward.spares.FleetAhead;
import org.vaneward.spares.Line;
import org.vaneward.spares.MadeFleet;
import org.vaneward.spares.Outlook;
import org.vaneward.spares.Rule;

/** Prints how long it takes to live 500 pumps of 5 positions forward 5 years, 10,000 times. */
public final class DemandStudy {
  private DemandStudy() {}

  /** One row for each of three runs of each rule, the first of them cold. */
  public static void main(String[] args) {
    System.out.println("| rule | seconds | openings a future | heap after, MB |");
    System.out.println("| --- | ---: | ---: | ---: |");
    for (int run = 1; run <= 3; run++) {
      row("plan", Rule.PLAN, run);
      row("run to failure, mended", Rule.TO_FAILURE.mending(), run);
    }
  }

  private static void row(String name, Rule rule, long seed) {
    FleetAhead fleet = MadeFleet.drawn(500, 12, seed).ahead(MadeFleet.usualLives(seed), 60);
    long start = System.nanoTime();
    Outlook outlook = Outlook.of(fleet, rule, new DemandRequest(60, 10_000, seed), said -> {});
    double seconds = (System.nanoTime() - start) / 1e9;
    double openings =
        outlook.counts(Line.PLANNED, m -> true).mean()
            + outlook.counts(Line.UNPLANNED, m -> true).mean();
    Runtime heap = Runtime.getRuntime();
    System.out.printf(
        Locale.ROOT,
        "| %s | %.1f | %,.0f | %,d |%n",
        name,
        seconds,
        openings,
        (heap.totalMemory() - heap.freeMemory()) >> 20);
  }
}

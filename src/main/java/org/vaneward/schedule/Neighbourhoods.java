package org.vaneward.schedule;

import java.util.Arrays;
import java.util.Optional;
import java.util.stream.IntStream;

/** Betters an arrangement by freeing a part of it and settling that part anew. */
final class Neighbourhoods {
  private static final int CLIMB = 120;
  private static final int BETWEEN = 25;
  private static final double SETTLED = 0.15;
  private static final double GAIN = 1e-6;

  /** Jobs of sites freed together: two sites at least, and more of them where they are small. */
  private static final int TOGETHER = 20;

  private final Core core;
  private int[] at;
  private double total;

  private Neighbourhoods(Core core, int[] at) {
    this.core = core;
    this.at = at.clone();
    this.total = core.total(at);
  }

  /**
   * Sweeps over stretches of weeks and over groups of sites until a sweep gains nothing.
   *
   * @param sweeps how many at most
   * @param lower no arrangement costs less
   */
  static int[] improve(Core core, int[] at, int sweeps, double lower) {
    Neighbourhoods now = new Neighbourhoods(core, at);
    for (int i = 0; i < sweeps && now.total > lower + GAIN; i++) {
      double before = now.total;
      int width = 8 + 4 * (i % 3);
      for (int from = 0; from < core.weeks; from += width / 2) {
        now.freeWeeks(from, Math.min(core.weeks, from + width));
      }
      now.freeGroupsOfSites(i);
      if (!(now.total < before - GAIN)) {
        break;
      }
    }
    return now.at;
  }

  private void freeWeeks(int from, int to) {
    int[] free = IntStream.range(0, core.jobs).filter(j -> at[j] >= from && at[j] < to).toArray();
    settle(free, IntStream.range(from, to).toArray());
  }

  /**
   * Each site with the one {@code apart + 1} further on, and those after it while all are small.
   */
  private void freeGroupsOfSites(int apart) {
    int step;
    for (int first = 0; first < core.sites; first += step) {
      int[] free = core.jobsOf(first);
      step = 0;
      while (step < 1 || (free.length < TOGETHER && step < core.sites - 1)) {
        int[] more = core.jobsOf((first + apart + 1 + step) % core.sites);
        free = IntStream.concat(Arrays.stream(free), Arrays.stream(more)).distinct().toArray();
        step++;
      }
      settle(IntStream.of(free).sorted().toArray(), IntStream.range(0, core.weeks).toArray());
    }
  }

  private void settle(int[] free, int[] open) {
    if (free.length < 2) {
      return;
    }
    Core part = core.part(free, open, at);
    PriceBound prices = PriceBound.of(part);
    prices.climb(CLIMB, Core.NEVER);
    Optional<Arrangement> found = Dive.from(part, prices, BETWEEN, SETTLED);
    if (found.isEmpty()) {
      return;
    }
    int[] next = at.clone();
    for (int i = 0; i < free.length; i++) {
      int week = found.get().at[i];
      next[free[i]] = week == open.length ? core.weeks : open[week];
    }
    double cost = core.total(next);
    if (cost < total - GAIN) {
      at = next;
      total = cost;
    }
  }
}

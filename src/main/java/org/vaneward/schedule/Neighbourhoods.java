package org.vaneward.schedule;

import java.util.Optional;
import java.util.stream.IntStream;

/** Betters an arrangement by freeing a part of it and settling that part anew. */
final class Neighbourhoods {
  private static final int CLIMB = 120;
  private static final int BETWEEN = 25;
  private static final double SETTLED = 0.15;
  private static final double GAIN = 1e-6;

  private final Core core;
  private int[] at;
  private double total;

  private Neighbourhoods(Core core, int[] at) {
    this.core = core;
    this.at = at.clone();
    this.total = core.total(at);
  }

  /**
   * Sweeps over stretches of weeks and over pairs of sites until a sweep gains nothing.
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
      for (int s = 0; s < core.sites; s++) {
        now.freeSites(s, (s + 1 + i) % core.sites);
      }
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

  private void freeSites(int a, int b) {
    int[] free =
        IntStream.range(0, core.jobs).filter(j -> core.site[j] == a || core.site[j] == b).toArray();
    settle(free, IntStream.range(0, core.weeks).toArray());
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

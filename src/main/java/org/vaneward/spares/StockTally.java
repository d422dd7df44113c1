package org.vaneward.spares;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.vaneward.fleet.FleetSettings.Stock;

/**
 * How much of each kit and loose part is asked for in a lead time, at each site and at all
 * together.
 *
 * <p>The time ahead is cut into as many whole lead times as it holds, and into lead times with a
 * review period; every stretch of every future counts as one. Levels follow the two systems of the
 * trade (Silver, Pyke and Thomas, Inventory and Production Management in Supply Chains, ch. 6, from
 * memory): the shelf watched all the time and ordered at a level that lasts a lead time, or looked
 * at in turns and filled up to a level that lasts a lead time and the turn.
 */
public final class StockTally {
  private static final int ALL = 0;
  private static final int UNPLANNED = 1;
  private static final short NONE = -1;
  private static final double DAYS_PER_YEAR = 365.25;

  private final FleetAhead fleet;
  private final int futures;
  private final int places;

  /** Lines that are bought and have a lead time. */
  private final List<Line> items = new ArrayList<>();

  private final int[] itemOfLine;

  /** Of each item: its lead time, then its lead time and the review: length, windows, where. */
  private final double[] length;

  private final int[] windows;
  private final int[] offset;
  private final int cells;

  /**
   * By gauge and day, the day of record being 0: the stretch it lies in, or none. Gauges of one
   * length share a row.
   */
  private final short[][] windowOn;

  /** Stretches by what was asked for, 1 and more, of each variant, place and gauge. */
  private final long[][] seen;

  StockTally(FleetAhead fleet, int futures) {
    this.fleet = fleet;
    this.futures = futures;
    this.places = fleet.sites.size() + 1;
    this.itemOfLine = new int[fleet.lines.size()];
    Arrays.fill(itemOfLine, -1);
    for (int i = 0; i < itemOfLine.length; i++) {
      if (fleet.leadTimeDays(fleet.lines.get(i)).isPresent()) {
        itemOfLine[i] = items.size();
        items.add(fleet.lines.get(i));
      }
    }
    int gauges = 2 * items.size();
    this.length = new double[gauges];
    this.windows = new int[gauges];
    this.offset = new int[gauges];
    int at = 0;
    for (int g = 0; g < gauges; g++) {
      int lead = fleet.leadTimeDays(items.get(g / 2)).orElse(0);
      length[g] = lead + (g % 2 == 0 ? 0 : fleet.settings.stock().reviewDays());
      windows[g] = length[g] > 0 ? (int) (fleet.months.days() / length[g]) : 0;
      offset[g] = at;
      at += windows[g];
    }
    this.cells = at;
    this.windowOn = new short[gauges][];
    for (int g = 0; g < gauges; g++) {
      windowOn[g] = sameLength(g) < g ? windowOn[sameLength(g)] : placeDays(g);
    }
    this.seen = new long[2 * places * gauges][];
  }

  private int sameLength(int g) {
    int first = 0;
    while (length[first] != length[g]) {
      first++;
    }
    return first;
  }

  private short[] placeDays(int g) {
    short[] on = new short[fleet.months.days() + 1];
    Arrays.fill(on, NONE);
    for (int day = 1; day < on.length && windows[g] > 0; day++) {
      int window = (int) Math.ceil(day / length[g]) - 1;
      on[day] = window < windows[g] ? (short) window : NONE;
    }
    return on;
  }

  Page page() {
    return new Page();
  }

  private int histogram(int variant, int place, int gauge) {
    return (variant * places + place) * windows.length + gauge;
  }

  /** Whole numbers above 0 in many cells, most of them empty. */
  private static final class Cells {
    private final int[] number;
    private int[] touched = new int[256];
    private int touches;

    Cells(int size) {
      number = new int[size];
    }

    void add(int cell, int n) {
      int before = number[cell];
      number[cell] = before + n;
      if (before == 0) {
        touch(cell);
      }
    }

    private void touch(int cell) {
      if (touches == touched.length) {
        touched = Arrays.copyOf(touched, 2 * touches);
      }
      touched[touches++] = cell;
    }

    int take(int cell) {
      int n = number[cell];
      number[cell] = 0;
      return n;
    }
  }

  /** Takes down futures one after another. */
  final class Page {
    private final int[] gaugeOf = new int[cells];

    /** Of planned openings and of unplanned ones, at each site. */
    private final Cells taken = new Cells(2 * (places - 1) * cells);

    /** By variant and place. */
    private final Cells asked = new Cells(2 * places * cells);

    private final long[][] mine = new long[seen.length][];

    private Page() {
      for (int g = 0; g < windows.length; g++) {
        Arrays.fill(gaugeOf, offset[g], offset[g] + windows[g], g);
      }
    }

    /** An opening at a site takes what its recipe says. */
    void take(int site, double day, boolean planned, Recipe recipe) {
      int on = Math.max(1, (int) Math.ceil(day));
      int first = ((planned ? ALL : UNPLANNED) * (places - 1) + site) * cells;
      for (int i = 0; i < recipe.line.length; i++) {
        int item = itemOfLine[recipe.line[i]];
        if (item >= 0) {
          take(2 * item, on, first, recipe.number[i]);
          take(2 * item + 1, on, first, recipe.number[i]);
        }
      }
    }

    private void take(int gauge, int on, int first, int number) {
      int window = windowOn[gauge][on];
      if (window != NONE) {
        taken.add(first + offset[gauge] + window, number);
      }
    }

    /**
     * What is taken at a site is asked for there and of all; unplanned or not, it counts as all.
     */
    private void gather() {
      for (int i = 0; i < taken.touches; i++) {
        int at = taken.touched[i];
        int cell = at % cells;
        int site = at / cells % (places - 1);
        int number = taken.take(at);
        for (int variant = ALL; variant <= at / cells / (places - 1); variant++) {
          asked.add((variant * places + site) * cells + cell, number);
          asked.add((variant * places + places - 1) * cells + cell, number);
        }
      }
      taken.touches = 0;
    }

    void end() {
      gather();
      for (int i = 0; i < asked.touches; i++) {
        int cell = asked.touched[i];
        int number = asked.take(cell);
        int histogram = cell / cells * windows.length + gaugeOf[cell % cells];
        mine[histogram] = grown(mine[histogram], number);
        mine[histogram][number]++;
      }
      asked.touches = 0;
    }

    void close() {
      // Sums of whole numbers: in whatever order the pages come, the same comes out.
      synchronized (seen) {
        for (int h = 0; h < seen.length; h++) {
          if (mine[h] != null) {
            seen[h] = grown(seen[h], mine[h].length - 1);
            for (int k = 0; k < mine[h].length; k++) {
              seen[h][k] += mine[h][k];
            }
          }
        }
      }
    }
  }

  private static long[] grown(long[] histogram, int number) {
    if (histogram == null) {
      return new long[Math.max(16, number + 1)];
    }
    return number < histogram.length
        ? histogram
        : Arrays.copyOf(histogram, Math.max(2 * histogram.length, number + 1));
  }

  /** Kits and loose parts that are asked for at all, in order. */
  public List<StockLevel> pooled() {
    return levels(places - 1);
  }

  /** Those asked for at a site. */
  public List<StockLevel> at(String site) {
    return levels(fleet.sites.indexOf(site));
  }

  private List<StockLevel> levels(int place) {
    List<StockLevel> levels = new ArrayList<>();
    for (int item = 0; item < items.size(); item++) {
      if (askedFor(item, place)) {
        levels.add(level(item, place));
      }
    }
    return levels;
  }

  private boolean askedFor(int item, int place) {
    return seen[histogram(ALL, place, 2 * item)] != null
        || seen[histogram(ALL, place, 2 * item + 1)] != null;
  }

  private StockLevel level(int item, int place) {
    Stock wanted = fleet.settings.stock();
    Line line = items.get(item);
    int lead = 2 * item;
    double p = wanted.serviceLevel();
    return new StockLevel(
        line,
        fleet.leadTimeDays(line).orElse(0),
        fleet.price(line),
        enough(ALL, place, lead, p),
        enough(ALL, place, lead + 1, p),
        enough(UNPLANNED, place, lead, p),
        enough(UNPLANNED, place, lead + 1, p),
        cheapest(place, lead, fleet.price(line)));
  }

  /** The least number that is enough in a share of the stretches; empty without a whole stretch. */
  private OptionalInt enough(int variant, int place, int gauge, double share) {
    if (length[gauge] == 0) {
      return OptionalInt.of(0);
    }
    if (windows[gauge] == 0) {
      return OptionalInt.empty();
    }
    long[] counts = counts(variant, place, gauge);
    double wanted = share * futures * windows[gauge] - 1e-6;
    long total = 0;
    for (int k = 0; k < counts.length; k++) {
      total += counts[k];
      if (total >= wanted) {
        return OptionalInt.of(k);
      }
    }
    return OptionalInt.of(counts.length - 1);
  }

  /** Stretches by what was asked for, none included. */
  private long[] counts(int variant, int place, int gauge) {
    long[] found = seen[histogram(variant, place, gauge)];
    long[] counts = found == null ? new long[1] : found.clone();
    long none = (long) futures * windows[gauge];
    for (long some : counts) {
      none -= some;
    }
    counts[0] = none;
    return counts;
  }

  /**
   * The level that costs least when each kit or part taken is ordered again at once: holding what
   * is on the shelf against waiting for what is not (the newsvendor's rule; Silver, Pyke and
   * Thomas, from memory).
   */
  private StockLevel.Cheapest cheapest(int place, int gauge, OptionalDouble price) {
    Stock stock = fleet.settings.stock();
    if (stock.holdingPerYear().isEmpty()
        || stock.waitingPerDay().isEmpty()
        || price.isEmpty()
        || windows[gauge] == 0) {
      return StockLevel.Cheapest.NOT_KNOWN;
    }
    double holding = stock.holdingPerYear().getAsDouble() * price.getAsDouble();
    double waiting = stock.waitingPerDay().getAsDouble() * DAYS_PER_YEAR;
    long[] counts = counts(UNPLANNED, place, gauge);
    double stretches = (double) futures * windows[gauge];
    int level = 0;
    double total = counts[0];
    while (level + 1 < counts.length && total < stretches * waiting / (waiting + holding)) {
      level++;
      total += counts[level];
    }
    double held = 0;
    double waited = 0;
    for (int k = 0; k < counts.length; k++) {
      held += counts[k] * Math.max(0, level - k);
      waited += counts[k] * Math.max(0, k - level);
    }
    return new StockLevel.Cheapest(
        OptionalInt.of(level), held / stretches * holding, waited / stretches * waiting);
  }
}

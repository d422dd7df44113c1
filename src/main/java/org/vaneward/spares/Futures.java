package org.vaneward.spares;

import java.util.Arrays;
import java.util.SplittableRandom;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.atomic.AtomicLong;
import java.util.function.Consumer;
import java.util.stream.IntStream;
import org.vaneward.fleet.FleetSettings.OpeningCost;
import org.vaneward.model.LifeDraws;

/**
 * Lives a fleet forward, future after future.
 *
 * <p>Each future takes one posterior draw of every life, in turn, and draws for each pump how much
 * it runs and when its parts fail: a Weibull life given the age reached. A pump is opened on the
 * day of its planned rebuild or when a part that stops it fails, whichever comes first.
 *
 * <p>Every pump in every future has random numbers of its own, made from the seed and both numbers:
 * the same seed gives the same figures on any number of threads, and two rules are compared over
 * the same first failures.
 */
final class Futures {
  private static final int CHUNK = 50;
  private static final long GOLDEN = 0x9E3779B97F4A7C15L;
  private static final long OTHER = 0xD1B54A32D192ED03L;
  private static final long SAID_EVERY = 2_000_000_000L;

  private final FleetAhead fleet;
  private final Rule rule;
  private final DemandRequest request;
  private final PumpAhead[] pumps;
  private final double horizon;

  private Futures(FleetAhead fleet, Rule rule, DemandRequest request) {
    this.fleet = fleet;
    this.rule = rule;
    this.request = request;
    this.pumps = fleet.pumps.toArray(PumpAhead[]::new);
    this.horizon = fleet.months.days();
  }

  /**
   * Lives them all.
   *
   * @param book takes down what happens
   */
  static void live(
      FleetAhead fleet, Rule rule, DemandRequest request, Book book, Consumer<String> progress) {
    new Futures(fleet, rule, request).all(book, progress);
  }

  /** Takes down what happens; asked for a page by each stretch of futures. */
  interface Book {
    /** A page of its own for some futures, one after another. */
    Page page();
  }

  /** Takes down futures one after another. */
  interface Page {
    /** Every opening of one future comes after this. */
    void start(int future);

    /** An opening. */
    void open(
        PumpAhead pump,
        double day,
        boolean planned,
        Recipe recipe,
        OpeningCost cost,
        boolean visit);

    /** The future is over. */
    void end();

    /** No more futures on this page. */
    void close();
  }

  private void all(Book book, Consumer<String> progress) {
    int chunks = (request.futures() + CHUNK - 1) / CHUNK;
    AtomicInteger done = new AtomicInteger();
    AtomicLong told = new AtomicLong(System.nanoTime());
    IntStream.range(0, chunks)
        .parallel()
        .forEach(
            chunk -> {
              Page page = book.page();
              Future future = new Future(page);
              int end = Math.min(request.futures(), (chunk + 1) * CHUNK);
              for (int f = chunk * CHUNK; f < end; f++) {
                future.live(f);
              }
              page.close();
              tell(done.incrementAndGet(), chunks, told, progress);
            });
  }

  /** Only where it takes long: every few seconds. */
  private static void tell(int done, int chunks, AtomicLong told, Consumer<String> progress) {
    long now = System.nanoTime();
    long last = told.get();
    if (now - last > SAID_EVERY && told.compareAndSet(last, now)) {
      progress.accept(done * 100 / chunks + "% of the futures lived");
    }
  }

  /** One future, reused for the next. */
  private final class Future {
    private final Page page;
    private final double[] shape = new double[fleet.lives.size()];
    private final double[] inverse = new double[shape.length];
    private final double[] logScale = new double[shape.length];
    private final int[] visited = new int[fleet.visits];
    private double[] fails = new double[8];
    private double[] hiddenFails = new double[8];
    private SplittableRandom random = new SplittableRandom(0);
    private double perDay;

    Future(Page page) {
      this.page = page;
      Arrays.fill(visited, -1);
    }

    void live(int f) {
      for (int k = 0; k < shape.length; k++) {
        LifeDraws draws = fleet.lives.get(k);
        int draw = f % draws.size();
        shape[k] = draws.shape(draw);
        inverse[k] = 1 / shape[k];
        logScale[k] = draws.logScale(draw);
      }
      page.start(f);
      long seed = mixed(request.seed() + GOLDEN * (f + 1));
      for (int p = 0; p < pumps.length; p++) {
        random = new SplittableRandom(mixed(seed + OTHER * (p + 1)));
        live(pumps[p], f);
      }
      page.end();
    }

    private void live(PumpAhead pump, int f) {
      int stoppers = pump.stopperLife.length;
      int hidden = pump.hiddenLife.length;
      if (fails.length < Math.max(stoppers, hidden)) {
        fails = new double[Math.max(stoppers, hidden)];
        hiddenFails = new double[fails.length];
      }
      double swing = random.nextGaussian();
      perDay = pump.perDay * Math.exp(pump.relativeSd * swing);
      for (int k = 0; k < stoppers; k++) {
        fails[k] = further(pump.stopperLife[k], pump.stopperAge[k]);
      }
      for (int k = 0; rule.mends() && k < hidden; k++) {
        hiddenFails[k] = further(pump.hiddenLife[k], pump.hiddenAge[k]);
      }
      double due = first(pump);
      boolean booked = pump.visit >= 0;
      while (true) {
        int next = firstOf(stoppers);
        double stop = next < 0 ? Double.POSITIVE_INFINITY : fails[next];
        double day = Math.min(due, stop);
        if (!(day <= horizon)) {
          return;
        }
        if (due <= stop) {
          boolean shared = booked && visited[pump.visit] == f;
          if (booked) {
            visited[pump.visit] = f;
          }
          page.open(
              pump,
              day,
              true,
              fleet.books.get(pump.book).full,
              fleet.settings.costs().planned(),
              !shared);
        } else {
          stop(pump, next, day);
        }
        if (due <= stop || !rule.mends()) {
          renew(pump, day);
          due = rule.planned() ? day + interval(pump) : Double.POSITIVE_INFINITY;
          booked = false;
        }
      }
    }

    private void stop(PumpAhead pump, int position, double day) {
      int component = pump.stopperComponent[position];
      RecipeBook recipes = fleet.books.get(pump.book);
      Recipe recipe = recipes.full;
      if (rule.mends()) {
        int mask = 0;
        for (int h = 0; h < pump.hiddenLife.length; h++) {
          if (hiddenFails[h] <= day) {
            mask |= 1 << h;
            hiddenFails[h] = day + fresh(pump.hiddenLife[h]);
          }
        }
        recipe = recipes.mend(component, mask);
        fails[position] = day + fresh(pump.stopperLife[position]);
      }
      page.open(pump, day, false, recipe, fleet.stopCosts.get(component), true);
    }

    private void renew(PumpAhead pump, double day) {
      for (int k = 0; k < pump.stopperLife.length; k++) {
        fails[k] = day + fresh(pump.stopperLife[k]);
      }
      for (int k = 0; rule.mends() && k < pump.hiddenLife.length; k++) {
        hiddenFails[k] = day + fresh(pump.hiddenLife[k]);
      }
    }

    private int firstOf(int stoppers) {
      int first = -1;
      for (int k = 0; k < stoppers; k++) {
        if (first < 0 || fails[k] < fails[first]) {
          first = k;
        }
      }
      return first;
    }

    /** Days a new part lasts. */
    private double fresh(int life) {
      return Math.exp(Math.log(random.nextExponential()) * inverse[life] + logScale[life]) / perDay;
    }

    /** Days a part that has reached {@code age} still lasts: the hazard left is exponential. */
    private double further(int life, double age) {
      double run = age > 0 ? Math.exp(shape[life] * (Math.log(age) - logScale[life])) : 0;
      double until =
          Math.exp(Math.log(run + random.nextExponential()) * inverse[life] + logScale[life]);
      return Math.max(0, until - age) / perDay;
    }

    private double first(PumpAhead pump) {
      if (!rule.planned()) {
        return Double.POSITIVE_INFINITY;
      }
      if (rule.intervalFactor() == 1 || pump.interval == Double.POSITIVE_INFINITY) {
        return pump.firstDay;
      }
      double moved = pump.firstDay + (rule.intervalFactor() - 1) * pump.interval / pump.perDay;
      // A limit that is broken as it stands is not broken further.
      return Math.max(1, Math.min(moved, Math.max(pump.latestDay, pump.firstDay)));
    }

    /** Days from a full rebuild to the next planned one. */
    private double interval(PumpAhead pump) {
      double interval = Math.min(pump.mostInterval, rule.intervalFactor() * pump.interval);
      return Math.min(fleet.mandatedDays, interval / perDay);
    }
  }

  /** Spreads numbers that follow one another over all numbers there are: SplitMix64's finish. */
  private static long mixed(long z) {
    long y = (z ^ (z >>> 30)) * 0xBF58476D1CE4E5B9L;
    y = (y ^ (y >>> 27)) * 0x94D049BB133111EBL;
    return y ^ (y >>> 31);
  }
}

package org.vaneward.spares;

import java.util.Arrays;
import java.util.SplittableRandom;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.atomic.AtomicLong;
import java.util.function.Consumer;
import java.util.stream.IntStream;
import org.vaneward.fleet.FleetSettings.OpeningCost;
import org.vaneward.model.LifeDraws;
import org.vaneward.stats.Streams;

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

  /** Swing of the usage up to which it is known beforehand which parts last long enough. */
  private static final double USUAL_SWING = 3;

  /** By so much a hazard has to lie beyond another to be told apart whatever the rounding. */
  private static final double CLEARLY = 1 + 1e-9;

  private static final long SAID_EVERY = 2_000_000_000L;

  private final FleetAhead fleet;
  private final Rule rule;
  private final DemandRequest request;
  private final PumpAhead[] pumps;

  /** Day of each pump's next planned rebuild; infinite when none is planned. */
  private final double[] firstDay;

  private final double horizon;

  private Futures(FleetAhead fleet, Rule rule, DemandRequest request) {
    this.fleet = fleet;
    this.rule = rule;
    this.request = request;
    this.pumps = fleet.pumps.toArray(PumpAhead[]::new);
    this.firstDay = Arrays.stream(pumps).mapToDouble(this::first).toArray();
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
    int[] order = order();
    int chunks = (order.length + CHUNK - 1) / CHUNK;
    AtomicInteger done = new AtomicInteger();
    AtomicLong told = new AtomicLong(System.nanoTime());
    IntStream.range(0, chunks)
        .parallel()
        .forEach(
            chunk -> {
              Page page = book.page();
              Future future = new Future(page);
              int end = Math.min(order.length, (chunk + 1) * CHUNK);
              for (int i = chunk * CHUNK; i < end; i++) {
                future.live(order[i]);
              }
              page.close();
              tell(done.incrementAndGet(), chunks, told, progress);
            });
  }

  /** The futures, those of one draw of the lives together: they share what follows from it. */
  private int[] order() {
    int draws = fleet.lives.stream().mapToInt(LifeDraws::size).max().orElse(1);
    int[] order = new int[request.futures()];
    int n = 0;
    for (int d = 0; d < Math.min(draws, order.length); d++) {
      for (int f = d; f < order.length; f += draws) {
        order[n++] = f;
      }
    }
    return order;
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

  /** Only where it takes long: every few seconds. */
  private static void tell(int done, int chunks, AtomicLong told, Consumer<String> progress) {
    long now = System.nanoTime();
    long last = told.get();
    if (now - last > SAID_EVERY && told.compareAndSet(last, now)) {
      progress.accept(done * 100 / chunks + "% of the futures lived");
    }
  }

  /** Parts of one pump as one draw of their lives sees them: cumulative hazards. */
  private static final class Parts {
    /** Reached so far. */
    final double[] reached;

    /** Past which the part outlasts the next planned rebuild or the horizon at any usual usage. */
    final double[] enough;

    Parts(int n) {
      reached = new double[n];
      enough = new double[n];
    }
  }

  /** One future, reused for the next. */
  private final class Future {
    private final Page page;
    private final int[] draw = new int[fleet.lives.size()];
    private final double[] shape = new double[draw.length];
    private final double[] inverse = new double[draw.length];
    private final double[] logScale = new double[draw.length];
    private final Parts[] stoppers = new Parts[pumps.length];
    private final Parts[] hidden = new Parts[pumps.length];
    private final int[] visited = new int[fleet.visits];
    private final double[] fails;
    private final double[] hiddenFails;
    private SplittableRandom random = new SplittableRandom(0);
    private double perDay;

    /** Day after which nothing matters until the pump is rebuilt. */
    private double limit;

    Future(Page page) {
      this.page = page;
      Arrays.fill(draw, -1);
      Arrays.fill(visited, -1);
      int most = 0;
      for (int p = 0; p < pumps.length; p++) {
        stoppers[p] = new Parts(pumps[p].stopperLife.length);
        hidden[p] = new Parts(rule.mends() ? pumps[p].hiddenLife.length : 0);
        most = Math.max(most, Math.max(pumps[p].stopperLife.length, pumps[p].hiddenLife.length));
      }
      this.fails = new double[most];
      this.hiddenFails = new double[most];
    }

    void live(int f) {
      if (draws(f)) {
        for (int p = 0; p < pumps.length; p++) {
          settle(pumps[p], firstDay[p], stoppers[p], hidden[p]);
        }
      }
      page.start(f);
      for (int p = 0; p < pumps.length; p++) {
        random = Streams.of(request.seed(), f, p);
        live(p, f);
      }
      page.end();
    }

    /** Takes up the draw of each life; whether one is another than before. */
    private boolean draws(int f) {
      boolean changed = false;
      for (int k = 0; k < draw.length; k++) {
        LifeDraws draws = fleet.lives.get(k);
        int now = f % draws.size();
        changed |= now != draw[k];
        draw[k] = now;
        shape[k] = draws.shape(now);
        inverse[k] = 1 / shape[k];
        logScale[k] = draws.logScale(now);
      }
      return changed;
    }

    private void settle(PumpAhead pump, double first, Parts stops, Parts unseen) {
      double most =
          Math.min(first, horizon) * pump.perDay * Math.exp(pump.relativeSd * USUAL_SWING);
      settle(stops, pump.stopperLife, pump.stopperAge, most);
      settle(unseen, pump.hiddenLife, pump.hiddenAge, most);
    }

    private void settle(Parts parts, int[] life, double[] age, double most) {
      for (int k = 0; k < parts.reached.length; k++) {
        parts.reached[k] = age[k] > 0 ? hazard(life[k], age[k]) : 0;
        parts.enough[k] = CLEARLY * hazard(life[k], age[k] + most);
      }
    }

    private double hazard(int life, double age) {
      return Math.exp(shape[life] * (Math.log(age) - logScale[life]));
    }

    private void live(int p, int f) {
      PumpAhead pump = pumps[p];
      double swing = random.nextGaussian();
      perDay = pump.perDay * Math.exp(pump.relativeSd * swing);
      boolean usual = swing <= USUAL_SWING;
      double due = firstDay[p];
      limit = Math.min(due, horizon);
      first(stoppers[p], pump.stopperLife, pump.stopperAge, usual, fails);
      first(hidden[p], pump.hiddenLife, pump.hiddenAge, usual, hiddenFails);
      boolean booked = pump.visit >= 0;
      while (true) {
        int next = firstOf(pump.stopperLife.length);
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
          due = rule.planned() ? day + interval(pump) : Double.POSITIVE_INFINITY;
          limit = Math.min(due, horizon);
          renew(pump.stopperLife, pump.stopperLife.length, day, fails);
          renew(pump.hiddenLife, rule.mends() ? pump.hiddenLife.length : 0, day, hiddenFails);
          booked = false;
        }
      }
    }

    /**
     * Days the parts still last that have reached an age: the hazard left is exponential. Infinite
     * where that is beyond the limit and nobody asks.
     */
    private void first(Parts parts, int[] life, double[] age, boolean usual, double[] into) {
      for (int k = 0; k < parts.reached.length; k++) {
        double until = parts.reached[k] + random.nextExponential();
        into[k] =
            usual && until > parts.enough[k]
                ? Double.POSITIVE_INFINITY
                : Math.max(0, age(life[k], until) - age[k]) / perDay;
      }
    }

    /** Age at a cumulative hazard. */
    private double age(int life, double hazard) {
      return Math.exp(Math.log(hazard) * inverse[life] + logScale[life]);
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

    /** New parts from {@code day} on. */
    private void renew(int[] life, int n, double day, double[] into) {
      double logLeft = Math.log((limit - day) * perDay);
      double enough = 0;
      for (int k = 0; k < n; k++) {
        if (k == 0 || life[k] != life[k - 1]) {
          enough = CLEARLY * Math.exp(shape[life[k]] * (logLeft - logScale[life[k]]));
        }
        double until = random.nextExponential();
        into[k] = until > enough ? Double.POSITIVE_INFINITY : day + age(life[k], until) / perDay;
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
      return age(life, random.nextExponential()) / perDay;
    }

    /** Days from a full rebuild to the next planned one. */
    private double interval(PumpAhead pump) {
      double interval = Math.min(pump.mostInterval, rule.intervalFactor() * pump.interval);
      return Math.min(fleet.mandatedDays, interval / perDay);
    }
  }
}

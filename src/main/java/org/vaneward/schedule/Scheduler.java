package org.vaneward.schedule;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.stream.IntStream;

/**
 * Puts jobs into weeks at least cost.
 *
 * <p>Limits come first: as few broken as can be, then as few days late as can be ({@link
 * LimitPlaces}); committed jobs stay. Among the schedules left, the sum of the jobs' costs and of
 * the visits (once for each site and week) is minimised: a bound from prices ({@link PriceBound}),
 * arrangements from dives along those prices, improved part by part, branch and bound, and what is
 * not proved best by then goes to a library's constraint solver ({@link CpSat}). The work is
 * counted in iterations, nodes and that solver's own units, not in seconds: the same input gives
 * the same schedule however fast the machine is.
 */
public final class Scheduler {
  private static final int CLIMB = 900;

  /** Pairs of job and week up to which a calendar is searched to the end. */
  private static final int SMALL = 20_000;

  /**
   * Gap, as a share of the cost, at which a calendar of {@link #SMALL} pairs is left as it is. It
   * widens with their number: what is left to gain is spread over as many more jobs, and the search
   * for it takes longer than in proportion.
   */
  private static final double CLOSE = 0.001;

  /** The widest such gap, however many pairs there are. */
  private static final double CLOSE_AT_MOST = 0.01;

  /** Two at a time, each: iterations between settlings, and the share settled at a time. */
  private static final double[][][] DIVES = {{{60, 0.08}, {30, 0.02}}, {{30, 0.04}, {100, 0.04}}};

  private static final long NODE_WORK = 1_000_000;
  private static final int MOST_NODES = 5_000;

  private final int[] places;
  private final double visitCost;
  private final List<Job> jobs;
  private final Consumer<String> progress;
  private final int[] week;

  private Scheduler(int[] places, double visitCost, List<Job> jobs, Consumer<String> progress) {
    this.places = places.clone();
    this.visitCost = visitCost;
    this.jobs = jobs;
    this.progress = progress;
    this.week = new int[jobs.size()];
  }

  /**
   * The schedule.
   *
   * @param places how many jobs each week can take; 0 for a closed week
   * @param visitCost cost of one visit, at least 0
   * @param jobs the jobs; ties between them go by this order
   * @param progress is told, in a few words, how far a long search has come
   * @throws IllegalArgumentException when the numbers of weeks disagree or a number is negative
   */
  public static Schedule solve(
      int[] places, double visitCost, List<Job> jobs, Consumer<String> progress) {
    if (!(visitCost >= 0 && visitCost < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException("a visit costs at least 0, not " + visitCost);
    }
    if (places.length < 1 || Arrays.stream(places).anyMatch(p -> p < 0)) {
      throw new IllegalArgumentException("at least 1 week, and places of at least 0");
    }
    for (Job job : jobs) {
      if (job.weeks() != places.length) {
        throw new IllegalArgumentException(
            "a job of " + job.weeks() + " weeks in a schedule of " + places.length);
      }
    }
    return new Scheduler(places, visitCost, List.copyOf(jobs), progress).solve();
  }

  private Schedule solve() {
    int sites = jobs.stream().mapToInt(Job::site).max().orElse(0) + 1;
    double[][] visit = new double[sites][places.length];
    for (double[] row : visit) {
      Arrays.fill(row, visitCost);
    }
    double fixed = settleCommitted(visit);
    int[] latePlaces = new int[places.length];
    List<Integer> free = new ArrayList<>();
    boolean[] late = settleLimits(latePlaces, free);
    for (int j = 0; j < week.length; j++) {
      if (late[j] && week[j] == places.length) {
        fixed += jobs.get(j).cost(week[j]);
      }
    }
    double bound = fixed;
    if (!free.isEmpty()) {
      Core core = core(free, late, latePlaces, visit);
      BranchAndBound.Result found = search(core, firstOf(core, free));
      for (int i = 0; i < free.size(); i++) {
        week[free.get(i)] = found.best().at[i];
      }
      bound += found.bound();
    }
    return result(sites, bound);
  }

  /** Takes their places, as far as there are any, and pays their visits. */
  private double settleCommitted(double[][] visit) {
    double cost = 0;
    for (int j = 0; j < week.length; j++) {
      Job job = jobs.get(j);
      if (job.committed().isEmpty()) {
        continue;
      }
      int at = job.committed().getAsInt();
      week[j] = at;
      cost += job.cost(at);
      if (at < places.length) {
        places[at] = Math.max(0, places[at] - 1);
        cost += visit[job.site()][at];
        visit[job.site()][at] = 0;
      }
    }
    return cost;
  }

  /**
   * Marks the jobs that break their limit, sets places apart for them and gives every job with a
   * limit a week.
   */
  private boolean[] settleLimits(int[] latePlaces, List<Integer> free) {
    boolean[] late = new boolean[week.length];
    int[] open = IntStream.range(0, week.length).filter(this::isFree).toArray();
    int[] limited = Arrays.stream(open).filter(j -> jobs.get(j).limited()).toArray();
    int[] at = LimitPlaces.of(Arrays.stream(limited).mapToObj(jobs::get).toList(), places);
    Arrays.stream(open).forEach(j -> week[j] = places.length);
    for (int i = 0; i < limited.length; i++) {
      int j = limited[i];
      week[j] = at[i];
      late[j] = jobs.get(j).daysLate(at[i]) > 0;
      if (late[j] && at[i] < places.length) {
        latePlaces[at[i]]++;
      }
    }
    Arrays.stream(open).filter(j -> !late[j] || week[j] < places.length).forEach(free::add);
    return late;
  }

  private boolean isFree(int job) {
    return jobs.get(job).committed().isEmpty();
  }

  private Core core(List<Integer> free, boolean[] late, int[] latePlaces, double[][] visit) {
    double[][] cost = new double[free.size()][];
    int[] site = new int[cost.length];
    int[] pool = new int[cost.length];
    int[] rest = places.clone();
    for (int w = 0; w < rest.length; w++) {
      rest[w] -= latePlaces[w];
    }
    for (int i = 0; i < cost.length; i++) {
      Job job = jobs.get(free.get(i));
      boolean breaks = late[free.get(i)];
      pool[i] = breaks ? 1 : 0;
      site[i] = job.site();
      cost[i] = new double[rest.length + 1];
      for (int w = 0; w < cost[i].length; w++) {
        boolean closed = w < rest.length && (breaks ? latePlaces[w] : rest[w]) == 0;
        boolean tooLate = breaks ? w == rest.length : job.daysLate(w) > 0;
        cost[i][w] = closed || tooLate ? Core.NEVER : job.cost(w);
      }
    }
    return new Core(cost, site, pool, new int[][] {rest, latePlaces}, visit);
  }

  /** The weeks of {@link #settleLimits} keep every limit that can be kept: a place to start. */
  private Arrangement firstOf(Core core, List<Integer> free) {
    Arrangement first = Arrangement.of(core, free.stream().mapToInt(j -> week[j]).toArray());
    Descent.of(first);
    return first;
  }

  private BranchAndBound.Result search(Core core, Arrangement first) {
    PriceBound prices = PriceBound.of(core);
    prices.climb(CLIMB, first.total());
    report(core, first.total(), prices.bound());
    Arrangement best = first;
    for (double[][] dives : DIVES) {
      if (isClose(core, best.total(), prices.bound())) {
        return new BranchAndBound.Result(best, prices.bound());
      }
      best = cheapest(best, dives(core, prices, dives));
    }
    return proved(core, prices, improved(core, best.at, 9, prices.bound()));
  }

  /** Struck out, branched and bounded, and what is left handed on. */
  private BranchAndBound.Result proved(Core core, PriceBound prices, Arrangement best) {
    double upper = best.total();
    prices.climb(CLIMB, upper);
    report(core, upper, prices.bound());
    Core narrow = core.copy();
    prices.strikeOut(narrow, upper + BranchAndBound.tolerance(upper));
    int nodes = (int) Math.min(MOST_NODES, NODE_WORK / pairs(core));
    BranchAndBound.Result found = BranchAndBound.search(narrow, best.at, upper, prices, nodes);
    return found.closed() || isClose(core, found.best().total(), found.bound())
        ? found
        : bettered(narrow, prices, found);
  }

  private static long pairs(Core core) {
    return (long) core.jobs * (core.weeks + 1);
  }

  private static boolean isLarge(Core core) {
    return pairs(core) > SMALL;
  }

  /** So near to the bound that going on, which takes long on a large fleet, has little to gain. */
  private static boolean isClose(Core core, double cost, double bound) {
    double share = Math.min(CLOSE_AT_MOST, CLOSE * pairs(core) / SMALL);
    return isLarge(core) && cost - bound <= share * Math.abs(cost);
  }

  /** What the library's solver makes of it; the better arrangement and the better bound count. */
  private BranchAndBound.Result bettered(
      Core narrow, PriceBound prices, BranchAndBound.Result found) {
    Optional<String> missing = CpSat.missing();
    if (missing.isPresent()) {
      progress.accept(
          "calendar: the last step is left out, OR-Tools does not run here: " + missing.get());
      return found;
    }
    double upper = found.best().total();
    report(narrow, upper, found.bound());
    prices.strikeOut(narrow, upper + BranchAndBound.tolerance(upper));
    BranchAndBound.Result other = CpSat.search(narrow, found.best().at, upper);
    double bound = Math.max(found.bound(), other.bound());
    return new BranchAndBound.Result(other.best(), Math.min(bound, other.best().total()));
  }

  /** On all processors; what each finds, and their order, do not depend on how many there are. */
  private static List<Optional<Arrangement>> dives(Core core, PriceBound prices, double[][] dives) {
    return Arrays.stream(dives)
        .parallel()
        .map(
            dive ->
                Dive.from(core, prices, (int) dive[0], dive[1])
                    .map(a -> improved(core, a.at, 2, prices.bound())))
        .toList();
  }

  private static Arrangement cheapest(Arrangement best, List<Optional<Arrangement>> others) {
    return others.stream()
        .flatMap(Optional::stream)
        .reduce(best, (a, b) -> b.total() < a.total() ? b : a);
  }

  private static Arrangement improved(Core core, int[] at, int sweeps, double lower) {
    return Arrangement.of(core, Neighbourhoods.improve(core, at, sweeps, lower));
  }

  private void report(Core core, double upper, double bound) {
    if (isLarge(core) && upper > 0) {
      progress.accept(
          String.format(
              Locale.ROOT,
              "calendar: %,.0f found, at least %,.0f needed",
              upper,
              Math.max(0, bound)));
    }
  }

  private Schedule result(int sites, double bound) {
    boolean[][] seen = new boolean[sites][places.length];
    double extra = 0;
    int visits = 0;
    for (int j = 0; j < week.length; j++) {
      Job job = jobs.get(j);
      extra += job.cost(week[j]);
      if (week[j] < places.length && !seen[job.site()][week[j]]) {
        seen[job.site()][week[j]] = true;
        visits++;
      }
    }
    double paid = visits * visitCost;
    return new Schedule(week, extra, visits, paid, Math.min(bound, extra + paid));
  }
}

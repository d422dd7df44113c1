package org.vaneward.schedule;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.PriorityQueue;

/**
 * Closes the gap between the cheapest arrangement known and the bound, as far as its nodes reach:
 * the node with the lowest bound is split into "this job by week m" and "this job after week m".
 */
final class BranchAndBound {
  private static final int CLIMB = 60;

  private final Core root;
  private final PriorityQueue<Node> open =
      new PriorityQueue<>(
          Comparator.<Node>comparingDouble(n -> n.bound).thenComparingLong(n -> n.serial));
  private int[] best;
  private double upper;
  private long serial;

  /** A job kept to weeks from..to. */
  private record Kept(int job, int from, int to) {}

  private static final class Node {
    final double bound;
    final long serial;
    final List<Kept> kept;
    final double[] prices;

    Node(double bound, long serial, List<Kept> kept, double[] prices) {
      this.bound = bound;
      this.serial = serial;
      this.kept = kept;
      this.prices = prices;
    }
  }

  /**
   * Where it ended.
   *
   * @param best the cheapest arrangement
   * @param bound no arrangement costs less
   */
  record Result(Arrangement best, double bound) {
    /** Whether nothing cheaper is left to look for. */
    boolean closed() {
      double upper = best.total();
      return bound >= upper - tolerance(upper);
    }
  }

  private BranchAndBound(Core root, int[] at, double upper) {
    this.root = root;
    this.best = at;
    this.upper = upper;
  }

  /** Cost within which two arrangements count as equally good. */
  static double tolerance(double upper) {
    return 1e-7 * Math.max(1, Math.abs(upper));
  }

  /**
   * Searches.
   *
   * @param root weeks that no cheaper arrangement can use struck out
   * @param at an arrangement
   * @param upper what it costs
   * @param nodes how many nodes at most
   */
  static Result search(Core root, int[] at, double upper, PriceBound start, int nodes) {
    BranchAndBound search = new BranchAndBound(root, at, upper);
    search.open.add(new Node(start.bound(), 0, List.of(), start.prices()));
    for (int i = 0; i < nodes && !search.done(); i++) {
      search.split(search.open.remove());
    }
    double bound =
        search.done()
            ? search.upper
            : Math.max(start.bound(), Math.min(search.upper, search.open.element().bound));
    return new Result(Arrangement.of(root, search.best), bound);
  }

  private boolean done() {
    return open.isEmpty() || open.element().bound >= upper - tolerance(upper);
  }

  private void split(Node node) {
    Core core = narrowed(node.kept);
    if (emptied(core)) {
      return;
    }
    PriceBound prices = new PriceBound(core, node.prices);
    prices.climb(CLIMB, upper);
    double bound = Math.max(node.bound, prices.bound());
    if (bound >= upper - tolerance(upper)) {
      return;
    }
    Arrangement.guided(core, prices.share()).ifPresent(this::offer);
    Optional<Kept> half = half(core, prices.share());
    if (half.isEmpty()) {
      // Every job has one week left: guided() has offered that arrangement if there is room for it.
      return;
    }
    Kept early = half.get();
    add(node, early, bound, prices.prices());
    add(node, new Kept(early.job(), early.to() + 1, root.weeks), bound, prices.prices());
  }

  private void add(Node node, Kept one, double bound, double[] prices) {
    List<Kept> kept = new ArrayList<>(node.kept);
    kept.add(one);
    open.add(new Node(bound, ++serial, kept, prices));
  }

  private void offer(Arrangement made) {
    take(made.at);
    Arrangement freed = Arrangement.of(root, made.at);
    Descent.of(freed);
    take(freed.at);
  }

  private void take(int[] at) {
    double total = root.total(at);
    if (total < upper) {
      upper = total;
      best = at.clone();
    }
  }

  private Core narrowed(List<Kept> kept) {
    Core core = root.copy();
    for (Kept one : kept) {
      double[] cost = core.cost[one.job()];
      Arrays.fill(cost, 0, one.from(), Core.NEVER);
      Arrays.fill(cost, one.to() + 1, cost.length, Core.NEVER);
    }
    return core;
  }

  private static boolean emptied(Core core) {
    for (double[] cost : core.cost) {
      if (Arrays.stream(cost).allMatch(c -> c == Core.NEVER)) {
        return true;
      }
    }
    return false;
  }

  /** The early half of the job whose shares lie furthest apart; empty when every job is settled. */
  private static Optional<Kept> half(Core core, double[][] share) {
    Optional<Kept> found = Optional.empty();
    double widest = -1;
    for (int j = 0; j < core.jobs; j++) {
      int first = first(core, j);
      int last = last(core, j);
      if (first == last) {
        continue;
      }
      double mean = mean(share[j], (first + last) / 2.0);
      double spread = spread(share[j], mean);
      if (spread > widest) {
        widest = spread;
        int middle = Math.max(first, Math.min(last - 1, (int) Math.floor(mean)));
        found = Optional.of(new Kept(j, 0, middle));
      }
    }
    return found;
  }

  private static double mean(double[] share, double otherwise) {
    double sum = 0;
    double moment = 0;
    for (int w = 0; w < share.length; w++) {
      sum += share[w];
      moment += w * share[w];
    }
    return sum > 0 ? moment / sum : otherwise;
  }

  private static double spread(double[] share, double mean) {
    double sum = 0;
    for (int w = 0; w < share.length; w++) {
      sum += share[w] * (w - mean) * (w - mean);
    }
    return sum;
  }

  private static int first(Core core, int job) {
    int w = 0;
    while (!core.allowed(job, w)) {
      w++;
    }
    return w;
  }

  private static int last(Core core, int job) {
    int w = core.weeks;
    while (!core.allowed(job, w)) {
      w--;
    }
    return w;
  }
}

package org.vaneward.policy;

import java.util.Arrays;
import org.vaneward.model.LifeDraws;
import org.vaneward.stats.numeric.GaussLegendre;

/** The panels of a {@link DrawnRun}. */
final class DrawnRunGrid {
  static final int POINTS = 10;
  static final GaussLegendre RULE = GaussLegendre.of(POINTS);

  /** Cumulative hazard at the end of the last panel: survival 4e-18. */
  static final double END_HAZARD = 40;

  /** Start of the first panel as a share of the shortest scale, where a part is new. */
  private static final double START_SHARE = 1e-7;

  /**
   * Where every part has an age: end of the first panel, which starts at 0, as a share of the
   * youngest age, and as a share of that age over the shape.
   */
  private static final double AGED_SHARE = 0.1;

  private static final double STEEP_SHARE = 0.5;

  /** Cumulative hazard added within that first panel, at most. */
  private static final double FIRST_HAZARD = 0.5;

  /** Cumulative hazard below which a position's curvature does not matter. */
  private static final double NOTICEABLE_HAZARD = 1e-9;

  /** Widest panel in log s, and its width times the steepest shape. */
  private static final double WIDEST = 1;

  /** Further running has no use beyond this many halvings or doublings. */
  private static final int MOST_DOUBLINGS = 2000;

  private final int[] groupOf;
  private final DrawnGroup[] groups;
  private final int draws;
  private final boolean anyAnnounces;
  private final double hiddenPerHour;

  /** Whether every part has an age: hazards are smooth from the first hour on. */
  private final boolean aged;

  private final double[] logEdges;
  private final double[] edges;
  private final DrawnNodes nodes;

  private DrawnRunGrid(DrawnGroup[] byPosition, int draws) {
    this.draws = draws;
    this.groups = Arrays.stream(byPosition).distinct().toArray(DrawnGroup[]::new);
    this.groupOf =
        Arrays.stream(byPosition).mapToInt(g -> Arrays.asList(groups).indexOf(g)).toArray();
    this.anyAnnounces = Arrays.stream(groups).anyMatch(g -> g.announces);
    this.hiddenPerHour =
        Arrays.stream(groups).filter(g -> !g.announces).mapToDouble(g -> g.count * g.price).sum();
    this.aged = Arrays.stream(groups).allMatch(g -> g.age > 0);
    double start = aged ? smoothEnd() : START_SHARE * shortestScale();
    this.logEdges = panels(Math.log(start), Math.log(lastEdge(start)));
    this.edges = Arrays.stream(logEdges).map(Math::exp).toArray();
    this.nodes = placeNodes();
  }

  static DrawnRunGrid of(DrawnCostModel model, double[] ages) {
    return new DrawnRunGrid(DrawnGroup.of(model, ages), model.draws());
  }

  int size() {
    return edges.length;
  }

  double edge(int j) {
    return edges[j];
  }

  double[] edges() {
    return edges.clone();
  }

  /** Index of the edge at {@code hours}, as {@link Arrays#binarySearch(double[], double)}. */
  int edgeAt(double hours) {
    return Arrays.binarySearch(edges, hours);
  }

  boolean anyAnnounces() {
    return anyAnnounces;
  }

  double hiddenPerHour() {
    return hiddenPerHour;
  }

  /** All points of all panels, one panel after the other. */
  DrawnNodes nodes() {
    return nodes;
  }

  /**
   * First point of the panel that ends at edge {@code j}; negative where there is none: before the
   * first edge when a part is new.
   */
  int firstNode(int j) {
    return (aged ? j : j - 1) * POINTS;
  }

  double survival(int draw, double hours) {
    double total = 0;
    for (DrawnGroup g : groups) {
      if (g.announces && hours != 0) {
        total += g.count * g.added(draw, g.growth(hours));
      }
    }
    return Math.exp(-total);
  }

  /** Log age of each group after {@code hours} more. */
  double[] logAges(double hours) {
    double[] logs = new double[groups.length];
    for (int i = 0; i < logs.length; i++) {
      logs[i] = Math.log(groups[i].age + hours);
    }
    return logs;
  }

  /**
   * The slope R (m − g) after {@code hours} more; R counts as 1 looking back.
   *
   * @param logAges {@link #logAges} of the hours
   */
  double slope(int draw, double hours, double[] logAges, double costPerHour) {
    double hazard = 0;
    double price = 0;
    for (int i = 0; i < groups.length; i++) {
      DrawnGroup g = groups[i];
      double age = g.age + hours;
      if (!(age > 0)) {
        price += g.count * g.marginalCost(draw, age, logAges[i]);
        continue;
      }
      double cumulative = g.hazardTo(draw, logAges[i]);
      if (g.announces) {
        hazard += g.count * (cumulative - g.hazardNow[draw]);
        price += g.count * g.price * g.shape[draw] * cumulative / age;
      } else {
        price += g.count * g.price * LifeDraws.failedBy(cumulative);
      }
    }
    return (hours > 0 ? Math.exp(-hazard) : 1) * (price - costPerHour);
  }

  /** Price of running one hour more after {@code hours} more, by group. */
  void marginalCosts(int draw, double hours, double[] logAges, double[] into) {
    for (int i = 0; i < groups.length; i++) {
      into[i] = groups[i].marginalCost(draw, groups[i].age + hours, logAges[i]);
    }
  }

  int groups() {
    return groups.length;
  }

  /** Group of the position at {@code index} of the model. */
  int groupOf(int index) {
    return groupOf[index];
  }

  /** A and B before the first panel where a part is new and next to nothing has failed. */
  double[] below(int draw, double hours) {
    double all = 0;
    double priced = 0;
    double hidden = 0;
    for (DrawnGroup g : groups) {
      if (g.announces) {
        double added = g.count * g.added(draw, g.growth(hours));
        all += added;
        priced += g.price * added;
      } else {
        hidden += g.count * g.price * -Math.expm1(-g.hazardNow[draw]) * hours;
      }
    }
    // The chance that any fails, shared out by hazard.
    double failed = all > 0 ? priced / all * -Math.expm1(-all) : 0;
    return new double[] {hours, failed + hidden};
  }

  /** Whether all before the first edge is next to nothing, rather than a panel of its own. */
  boolean startsNew() {
    return !aged;
  }

  /**
   * Points of a part: from the start of the panel that ends at edge {@code j} up to {@code hours}.
   */
  DrawnNodes part(int j, double hours) {
    double[] at = new double[POINTS];
    double[] weight = new double[POINTS];
    if (j == 0) {
      placeLinear(hours, at, weight);
    } else {
      placeLog(logEdges[j - 1], Math.log(hours), 0, at, weight);
    }
    return new DrawnNodes(groups, at, weight);
  }

  /**
   * Where between −1 and 1 {@code hours} lies in the panel that ends at edge {@code j}: in the
   * measure in which the panel's points are placed.
   */
  double placeIn(int j, double hours) {
    if (j == 0) {
      return 2 * hours / edges[0] - 1;
    }
    return 2 * (Math.log(hours) - logEdges[j - 1]) / (logEdges[j] - logEdges[j - 1]) - 1;
  }

  private DrawnNodes placeNodes() {
    int n = firstNode(edges.length);
    double[] hours = new double[n];
    double[] weight = new double[n];
    if (aged) {
      placeLinear(edges[0], hours, weight);
    }
    for (int j = 1; j < edges.length; j++) {
      placeLog(logEdges[j - 1], logEdges[j], firstNode(j), hours, weight);
    }
    return new DrawnNodes(groups, hours, weight);
  }

  private static void placeLinear(double to, double[] hours, double[] weight) {
    for (int p = 0; p < POINTS; p++) {
      hours[p] = to * (1 + RULE.node(p)) / 2;
      weight[p] = to * RULE.weight(p) / 2;
    }
  }

  private static void placeLog(
      double logFrom, double logTo, int first, double[] hours, double[] weight) {
    double half = (logTo - logFrom) / 2;
    for (int p = 0; p < POINTS; p++) {
      hours[first + p] = Math.exp(logFrom + half + half * RULE.node(p));
      weight[first + p] = half * RULE.weight(p) * hours[first + p];
    }
  }

  private double shortestScale() {
    double least = Double.POSITIVE_INFINITY;
    for (DrawnGroup g : groups) {
      least = Math.min(least, g.shortest);
      if (g.age > 0) {
        least = Math.min(least, g.age);
      }
    }
    return least;
  }

  /** Further running within which hazards are smooth in the hours and add next to nothing. */
  private double smoothEnd() {
    double end = Double.POSITIVE_INFINITY;
    for (DrawnGroup g : groups) {
      end = Math.min(end, g.age * Math.min(AGED_SHARE, STEEP_SHARE / g.steepest));
    }
    while (mostHazard(end) > FIRST_HAZARD) {
      end /= 2;
    }
    return end;
  }

  private double mostHazard(double hours) {
    double most = 0;
    for (DrawnGroup g : groups) {
      double growth = g.growth(hours);
      for (int d = 0; d < draws; d++) {
        most = Math.max(most, g.count * g.added(d, growth));
      }
    }
    return most;
  }

  /** Where in every draw the pump has surely stopped or, if nothing stops it, all has failed. */
  private double lastEdge(double start) {
    double hours = 2 * start;
    int weakest = 0;
    for (int i = 0; i < MOST_DOUBLINGS; i++) {
      // The draw that was weakest last time mostly still is: all are asked only when it is not.
      if (!(stopping(weakest, hours) < END_HAZARD)) {
        weakest = weakest(hours);
        if (!(stopping(weakest, hours) < END_HAZARD)) {
          break;
        }
      }
      hours *= 2;
    }
    return hours;
  }

  private int weakest(double hours) {
    int weakest = 0;
    double least = Double.POSITIVE_INFINITY;
    for (int d = 0; d < draws; d++) {
      double one = stopping(d, hours);
      if (one < least) {
        least = one;
        weakest = d;
      }
    }
    return weakest;
  }

  /** Cumulative hazard added of what stops the pump; where nothing does, of what fails last. */
  private double stopping(int draw, double hours) {
    double total = 0;
    double last = Double.POSITIVE_INFINITY;
    for (DrawnGroup g : groups) {
      if (g.announces || !anyAnnounces) {
        double added = g.added(draw, g.growth(hours));
        total += g.count * added;
        last = Math.min(last, added);
      }
    }
    return anyAnnounces ? total : last;
  }

  private double[] panels(double from, double to) {
    double[] cuts = new double[64];
    boolean[] noticed = new boolean[groups.length];
    int n = 0;
    double x = from;
    while (x < to) {
      if (n + 2 > cuts.length) {
        cuts = Arrays.copyOf(cuts, 2 * cuts.length);
      }
      cuts[n++] = x;
      x += width(x, noticed);
    }
    cuts[n++] = Math.max(to, x);
    return Arrays.copyOf(cuts, n);
  }

  /**
   * Width of the panel from {@code x} on.
   *
   * @param noticed which groups' hazards matter already; they do ever after
   */
  private double width(double x, boolean[] noticed) {
    double width = WIDEST;
    for (int i = 0; i < groups.length; i++) {
      DrawnGroup g = groups[i];
      double hours = Math.exp(x + width);
      noticed[i] = noticed[i] || isNoticeable(g, hours);
      if (noticed[i]) {
        double steepness = g.steepest * hours / (g.age + hours);
        width = Math.min(width, WIDEST / Math.max(1, steepness));
      }
    }
    return width;
  }

  private boolean isNoticeable(DrawnGroup g, double hours) {
    double growth = g.growth(hours);
    for (int d = 0; d < draws; d++) {
      if (g.added(d, growth) > NOTICEABLE_HAZARD) {
        return true;
      }
    }
    return false;
  }
}

package org.vaneward.policy;

import java.util.Arrays;
import org.vaneward.model.LifeDraws;
import org.vaneward.stats.numeric.GaussLegendre;

/** The panels of a {@link DrawnRun} and the integrands at their nodes. */
final class DrawnRunGrid {
  /** Cumulative hazard at the end of the last panel: survival 4e-18. */
  private static final double END_HAZARD = 40;

  /** Start of the first panel as a share of the shortest scale. */
  private static final double START_SHARE = 1e-7;

  /** Cumulative hazard below which a position's curvature does not matter. */
  private static final double NOTICEABLE_HAZARD = 1e-9;

  /** Widest panel in log s, and its width times the steepest shape. */
  private static final double WIDEST = 1;

  private static final int POINTS = 8;
  private static final GaussLegendre RULE = GaussLegendre.of(POINTS);

  /** Further running has no use beyond this many halvings or doublings. */
  private static final int MOST_DOUBLINGS = 2000;

  private final Group[] byPosition;
  private final Group[] groups;
  private final boolean anyAnnounces;
  private final double hiddenPerHour;
  private final double[] logEdges;
  private final double[] edges;

  /** Further running and its weight at each node, so many to a panel. */
  private final double[] nodeHours;

  private final double[] nodeWeight;

  private DrawnRunGrid(Group[] byPosition) {
    this.byPosition = byPosition;
    this.groups = Arrays.stream(byPosition).distinct().toArray(Group[]::new);
    this.anyAnnounces = Arrays.stream(groups).anyMatch(g -> g.announces);
    this.hiddenPerHour =
        Arrays.stream(groups).filter(g -> !g.announces).mapToDouble(g -> g.count * g.price).sum();
    double start = START_SHARE * shortestScale();
    this.logEdges = panels(Math.log(start), Math.log(lastEdge(start)));
    this.edges = Arrays.stream(logEdges).map(Math::exp).toArray();
    int nodes = (edges.length - 1) * POINTS;
    this.nodeHours = new double[nodes];
    this.nodeWeight = new double[nodes];
    placeNodes();
  }

  static DrawnRunGrid of(DrawnCostModel model, double[] ages) {
    return new DrawnRunGrid(Group.of(model, ages));
  }

  /** Positions that share a life, an age and a price. */
  static final class Group {
    final LifeDraws life;
    final double age;
    final boolean announces;

    /** Cost of a stop beyond a planned rebuild, or of an hour on an unseen failure. */
    final double price;

    private final double[] hazardNow;
    int count;
    double[] logAgeAtNode = {};

    Group(LifeDraws life, double age, boolean announces, double price) {
      this.life = life;
      this.age = age;
      this.announces = announces;
      this.price = price;
      this.hazardNow = new double[life.size()];
      for (int d = 0; d < hazardNow.length && age > 0; d++) {
        hazardNow[d] = hazardTo(d, Math.log(age));
      }
    }

    /** The group of each position; the same object where they share one. */
    static Group[] of(DrawnCostModel model, double[] ages) {
      Group[] groups = new Group[ages.length];
      for (int i = 0; i < ages.length; i++) {
        DrawnRisk risk = model.positions().get(i);
        double price =
            risk.announces()
                ? risk.unplannedCost() - model.plannedCost()
                : risk.hiddenCostPerHour();
        groups[i] = find(groups, i, new Group(risk.life(), ages[i], risk.announces(), price));
        groups[i].count++;
      }
      return groups;
    }

    private static Group find(Group[] groups, int known, Group one) {
      for (int i = 0; i < known; i++) {
        Group other = groups[i];
        if (other.life.equals(one.life)
            && other.age == one.age
            && other.announces == one.announces
            && other.price == one.price) {
          return other;
        }
      }
      return one;
    }

    /** Cumulative hazard at log age. */
    double hazardTo(int draw, double logAge) {
      return Math.exp(life.shape(draw) * (logAge - life.logScale(draw)));
    }

    double hazardNow(int draw) {
      return hazardNow[hazardNow.length == 1 ? 0 : draw];
    }

    /** Growth of the cumulative hazard within {@code hours}, with all its digits. */
    double added(int draw, double hours) {
      return age > 0
          ? hazardNow(draw) * Math.expm1(life.shape(draw) * Math.log1p(hours / age))
          : hazardTo(draw, Math.log(hours));
    }
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

  double survival(int draw, double hours) {
    double total = 0;
    for (Group g : groups) {
      if (g.announces && hours != 0) {
        total += g.count * g.added(draw, hours);
      }
    }
    return Math.exp(-total);
  }

  /** Price of running one hour more instead of rebuilding, after {@code hours} more. */
  double marginalCost(int draw, double hours) {
    double total = 0;
    for (Group g : groups) {
      total += g.count * marginalCost(g, draw, hours);
    }
    return total;
  }

  /** The part of it that the position at {@code index} of the model adds. */
  double marginalCost(int draw, int index, double hours) {
    return marginalCost(byPosition[index], draw, hours);
  }

  private static double marginalCost(Group g, int draw, double hours) {
    double age = g.age + hours;
    if (!g.announces) {
      return age > 0 ? g.price * -Math.expm1(-g.hazardTo(draw, Math.log(age))) : 0;
    }
    return g.price == 0 ? 0 : g.price * hazard(g, draw, g.life.shape(draw), age);
  }

  private static double hazard(Group g, int draw, double shape, double age) {
    if (age > 0) {
      return shape * g.hazardTo(draw, Math.log(age)) / age;
    }
    return shape > 1 ? 0 : shape == 1 ? 1 / g.life.scale(draw) : Double.POSITIVE_INFINITY;
  }

  /** A and B before the first panel, where next to nothing has failed. */
  double[] below(int draw, double hours) {
    double all = 0;
    double priced = 0;
    double hidden = 0;
    for (Group g : groups) {
      if (g.announces) {
        double added = g.count * g.added(draw, hours);
        all += added;
        priced += g.price * added;
      } else {
        hidden += g.count * g.price * -Math.expm1(-g.hazardNow(draw)) * hours;
      }
    }
    // The chance that any fails, shared out by hazard.
    double failed = all > 0 ? priced / all * -Math.expm1(-all) : 0;
    return new double[] {hours, failed + hidden};
  }

  /** Adds the panel that ends at edge {@code j}. */
  void addPanel(int draw, int j, double[] sums) {
    int from = (j - 1) * POINTS;
    int to = from + POINTS;
    for (int p = from; p < to; p++) {
      double hazard = 0;
      double cost = 0;
      double hours = nodeHours[p];
      for (Group g : groups) {
        double cumulative =
            Math.exp(g.life.shape(draw) * (g.logAgeAtNode[p] - g.life.logScale(draw)));
        if (g.announces) {
          hazard += g.count * (cumulative - g.hazardNow(draw));
          cost += g.count * g.price * g.life.shape(draw) * cumulative / (g.age + hours);
        } else {
          cost += g.count * g.price * -Math.expm1(-cumulative);
        }
      }
      double alive = nodeWeight[p] * Math.exp(-hazard);
      sums[0] += alive;
      sums[1] += alive * cost;
    }
  }

  /** Adds the part of the panel after edge {@code panel} up to {@code hours}. */
  void addPart(int draw, int panel, double hours, double[] sums) {
    double half = (Math.log(hours) - logEdges[panel]) / 2;
    double middle = logEdges[panel] + half;
    for (int p = 0; p < POINTS; p++) {
      double at = Math.exp(middle + half * RULE.node(p));
      double alive = half * RULE.weight(p) * at * survival(draw, at);
      sums[0] += alive;
      sums[1] += alive * marginalCost(draw, at);
    }
  }

  private void placeNodes() {
    for (int j = 1; j < edges.length; j++) {
      double half = (logEdges[j] - logEdges[j - 1]) / 2;
      double middle = logEdges[j - 1] + half;
      for (int p = 0; p < POINTS; p++) {
        int node = (j - 1) * POINTS + p;
        nodeHours[node] = Math.exp(middle + half * RULE.node(p));
        nodeWeight[node] = half * RULE.weight(p) * nodeHours[node];
      }
    }
    for (Group g : groups) {
      g.logAgeAtNode = Arrays.stream(nodeHours).map(s -> Math.log(g.age + s)).toArray();
    }
  }

  private double shortestScale() {
    double least = Double.POSITIVE_INFINITY;
    for (Group g : groups) {
      for (int d = 0; d < g.life.size(); d++) {
        least = Math.min(least, g.life.scale(d));
      }
      if (g.age > 0) {
        least = Math.min(least, g.age);
      }
    }
    return least;
  }

  /** Where in every draw the pump has surely stopped or, if nothing stops it, all has failed. */
  private double lastEdge(double start) {
    double hours = 2 * start;
    for (int i = 0; i < MOST_DOUBLINGS && leastHazard(hours) < END_HAZARD; i++) {
      hours *= 2;
    }
    return hours;
  }

  private double leastHazard(double hours) {
    int draws = Arrays.stream(groups).mapToInt(g -> g.life.size()).max().orElseThrow();
    double least = Double.POSITIVE_INFINITY;
    for (int d = 0; d < draws; d++) {
      double total = 0;
      double weakest = Double.POSITIVE_INFINITY;
      for (Group g : groups) {
        double added = g.added(d, hours);
        total += g.announces ? g.count * added : 0;
        weakest = g.announces ? weakest : Math.min(weakest, added);
      }
      least = Math.min(least, anyAnnounces ? total : weakest);
    }
    return least;
  }

  private double[] panels(double from, double to) {
    double[] cuts = new double[64];
    int n = 0;
    double x = from;
    while (x < to) {
      if (n + 2 > cuts.length) {
        cuts = Arrays.copyOf(cuts, 2 * cuts.length);
      }
      cuts[n++] = x;
      x += width(x);
    }
    cuts[n++] = Math.max(to, x);
    return Arrays.copyOf(cuts, n);
  }

  private double width(double x) {
    double width = WIDEST;
    for (Group g : groups) {
      int steepest = 0;
      double mostHazard = 0;
      double hours = Math.exp(x + width);
      for (int d = 0; d < g.life.size(); d++) {
        steepest = g.life.shape(d) > g.life.shape(steepest) ? d : steepest;
        mostHazard = Math.max(mostHazard, g.added(d, hours));
      }
      if (mostHazard > NOTICEABLE_HAZARD) {
        double steepness = g.life.shape(steepest) * hours / (g.age + hours);
        width = Math.min(width, WIDEST / Math.max(1, steepness));
      }
    }
    return width;
  }
}

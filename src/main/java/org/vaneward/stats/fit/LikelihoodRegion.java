package org.vaneward.stats.fit;

import org.vaneward.stats.fit.LogAgeLikelihood.Slice;
import org.vaneward.stats.fit.WeibullLikelihood.Derivatives;

/**
 * All (k, log shape) whose log-likelihood lies within a given drop of the best: the profile limits
 * of any quantity are its least and greatest value on this region's edge.
 *
 * <p>At each shape the region is one stretch of k, since the log-likelihood is concave in k; its
 * two ends are two curves over the shapes between the shape's own limits. Shapes are taken as the
 * cosine of an angle, in which the curves stay smooth where they meet. The curves are kept at some
 * angles with their directions; a limit is then closed in on where the quantity is stationary along
 * the curve.
 */
final class LikelihoodRegion {
  /** Angles at which the edge is kept. */
  private static final int NODES = 25;

  /** What a further step could still change in a limit's logarithm, relative, when it is left. */
  private static final double ACCURACY = 1e-13;

  private static final int MOST_STEPS = 40;

  private final ShapeProfile whole;
  private final LogAgeLikelihood group;
  private final double level;
  private final double lowest;
  private final double highest;
  private final double shapeLower;
  private final double shapeUpper;
  private final Edge[] below;
  private final Edge[] above;

  /**
   * A point of the edge.
   *
   * @param angle which point
   * @param shape the shape there
   * @param k the k there
   * @param turnShape derivative of log shape in the angle
   * @param turnK derivative of k in the angle
   */
  private record Edge(double angle, double shape, double k, double turnShape, double turnK) {}

  /**
   * The region of one group's k and the shape.
   *
   * @param whole profile in the shape over all groups that carry a scale
   * @param group the group whose k is meant; one of those, or one without failures
   * @param peak maximum of the profile
   * @param drop by how much the log-likelihood may fall
   */
  LikelihoodRegion(
      ShapeProfile whole, LogAgeLikelihood group, ShapeSearch.Found peak, double drop) {
    this.whole = whole;
    this.group = group;
    level = peak.point().value() - drop;
    double low = ShapeSearch.dropped(whole, peak, drop, false);
    double high = ShapeSearch.dropped(whole, peak, drop, true);
    shapeLower = Math.exp(low);
    shapeUpper = Math.exp(high);
    lowest = Math.max(low, Math.min(ShapeSearch.lowest(whole), peak.logShape()));
    highest = Math.min(high, Math.max(ShapeSearch.highest(whole), peak.logShape()));
    below = new Edge[NODES];
    above = new Edge[NODES];
    fill();
  }

  /** The region when the shape is stated. */
  LikelihoodRegion(LogAgeLikelihood group, double logShape, double drop) {
    whole = group;
    this.group = group;
    Slice slice = group.slice(logShape);
    level = slice.value(slice.k()) - drop;
    lowest = logShape;
    highest = logShape;
    shapeLower = slice.shape();
    shapeUpper = slice.shape();
    below = new Edge[] {new Edge(0, slice.shape(), slice.edge(drop, false), 0, 0)};
    above = new Edge[] {new Edge(0, slice.shape(), slice.edge(drop, true), 0, 0)};
  }

  private void fill() {
    for (int i = 0; i < NODES; i++) {
      double angle = Math.PI * i / (NODES - 1);
      Section section = new Section(angle);
      below[i] = section.edge(false);
      above[i] = section.edge(true);
    }
  }

  /** The region at one angle, that is at one shape. */
  private final class Section {
    private final double angle;
    private final double turnShape;
    private final Slice slice;
    private final ShapeProfile.Point own;
    private final ShapeProfile.Point all;

    Section(double angle) {
      this.angle = angle;
      double half = (highest - lowest) / 2;
      double logShape = lowest + half - half * Math.cos(angle);
      turnShape = half * Math.sin(angle);
      slice = group.slice(logShape);
      boolean silent = group.failures() == 0;
      own = silent ? new ShapeProfile.Point(0, 0, 0) : slice.profile();
      all = whole == group ? own : whole.at(logShape);
    }

    Edge edge(boolean upper) {
      double room = all.value() - level;
      double k = slice.edge(room, upper);
      return new Edge(angle, slice.shape(), k, turnShape, turnK(k, room, upper));
    }

    private double turnK(double k, double room, boolean upper) {
      Derivatives d = slice.derivatives(k);
      if (room > 1e-9 * (1 + Math.abs(level))) {
        double inShape = d.s() + all.slope() - own.slope();
        return -inShape / d.k() * turnShape;
      }
      // Where the two curves meet: k leaves its best value as the root of the room, which grows as
      // the square of the angle from there.
      double turn = Math.sqrt(Math.abs(all.slope()) * (highest - lowest) / (-2 * d.kk()));
      return upper == (angle < 1) ? turn : -turn;
    }
  }

  /** Lower limit of the shape; 0 when there is none. */
  double shapeLower() {
    return shapeLower;
  }

  /** Upper limit of the shape; infinite when there is none. */
  double shapeUpper() {
    return shapeUpper;
  }

  /** Least log age (k + c) / shape, on the centred scale: the scale with c 0, a quantile else. */
  double leastLogAge(double c) {
    return least(below, new LogAge(1, c));
  }

  /** Greatest log age (k + c) / shape, on the centred scale. */
  double greatestLogAge(double c) {
    return -least(above, new LogAge(-1, c));
  }

  /** Least log cumulative hazard at a centred log age. */
  double leastLogHazard(double logAge) {
    return least(above, new LogHazard(1, logAge));
  }

  /** Greatest log cumulative hazard at a centred log age. */
  double greatestLogHazard(double logAge) {
    return -least(below, new LogHazard(-1, logAge));
  }

  /**
   * Least log mean life k / shape + logMean(shape), on the centred scale.
   *
   * @param logMean the mean of log life's part that is the shape's alone
   */
  double leastLogMean(MeanOfShape logMean) {
    return least(below, new LogMean(1, logMean));
  }

  /** Greatest log mean life, on the centred scale. */
  double greatestLogMean(MeanOfShape logMean) {
    return -least(above, new LogMean(-1, logMean));
  }

  private interface Quantity {
    double at(Edge edge);

    /** Derivative in the angle. */
    double turn(Edge edge);
  }

  private record LogAge(int sign, double c) implements Quantity {
    @Override
    public double at(Edge e) {
      return sign * (e.k + c) / e.shape;
    }

    @Override
    public double turn(Edge e) {
      return sign * (e.turnK - (e.k + c) * e.turnShape) / e.shape;
    }
  }

  private record LogHazard(int sign, double logAge) implements Quantity {
    @Override
    public double at(Edge e) {
      return sign * (e.shape * logAge - e.k);
    }

    @Override
    public double turn(Edge e) {
      return sign * (e.shape * logAge * e.turnShape - e.turnK);
    }
  }

  private record LogMean(int sign, MeanOfShape mean) implements Quantity {
    @Override
    public double at(Edge e) {
      return sign * (e.k / e.shape + mean.log(e.shape));
    }

    @Override
    public double turn(Edge e) {
      double inK = (e.turnK - e.k * e.turnShape) / e.shape;
      return sign * (inK + mean.slope(e.shape) * e.turnShape);
    }
  }

  private double least(Edge[] curve, Quantity quantity) {
    int best = 0;
    for (int i = 1; i < curve.length; i++) {
      if (quantity.at(curve[i]) < quantity.at(curve[best])) {
        best = i;
      }
    }
    double kept = quantity.at(curve[best]);
    if (curve.length == 1 || Double.isInfinite(kept)) {
      return kept;
    }
    boolean falls = quantity.turn(curve[best]) < 0;
    int left = falls ? best : best - 1;
    if (left < 0 || left + 1 == curve.length) {
      return kept;
    }
    return Math.min(kept, closeIn(curve == above, curve[left], curve[left + 1], quantity));
  }

  /** Between two points of the curve the quantity falls, then rises: where it is least. */
  private double closeIn(boolean upper, Edge left, Edge right, Quantity quantity) {
    double low = left.angle;
    double high = right.angle;
    double slope = (quantity.turn(right) - quantity.turn(left)) / (high - low);
    double at = firstGuess(left, right, quantity);
    double least = Double.POSITIVE_INFINITY;
    double before = Double.NaN;
    double turnBefore = Double.NaN;
    for (int i = 0; i < MOST_STEPS; i++) {
      if (!(at > low && at < high)) {
        at = low + (high - low) / 2;
      }
      Edge edge = new Section(at).edge(upper);
      double turn = quantity.turn(edge);
      least = Math.min(least, quantity.at(edge));
      if (turn > 0) {
        high = at;
      } else {
        low = at;
      }
      double secant = (turn - turnBefore) / (at - before);
      slope = secant > 0 ? secant : slope;
      double gain = turn * turn / slope;
      if (gain <= ACCURACY * (1 + Math.abs(least)) || high - low < 1e-9) {
        return least;
      }
      before = at;
      turnBefore = turn;
      at -= turn / slope;
    }
    return least;
  }

  /** Least point of the cubic through two values with their slopes. */
  private static double firstGuess(Edge left, Edge right, Quantity quantity) {
    double width = right.angle - left.angle;
    double from = quantity.turn(left);
    double to = quantity.turn(right);
    double chord = (quantity.at(right) - quantity.at(left)) / width;
    double z = from + to - 3 * chord;
    double w = Math.sqrt(Math.max(0, z * z - from * to));
    return right.angle - width * (to + w - z) / (to - from + 2 * w);
  }
}

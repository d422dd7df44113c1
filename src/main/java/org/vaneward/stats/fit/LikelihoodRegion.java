package org.vaneward.stats.fit;

import java.util.function.DoubleUnaryOperator;
import org.vaneward.stats.numeric.Minimum;

/**
 * All (k, log shape) whose log-likelihood lies within a given drop of the best: the profile limits
 * of any quantity are its least and greatest value on this region's edge.
 *
 * <p>At each shape the region is one stretch of k, since the log-likelihood is concave in k; its
 * two ends are two curves over the shapes between the shape's own limits. Shapes are taken as the
 * cosine of an angle, in which the curves stay smooth where they meet.
 */
final class LikelihoodRegion {
  /** Angles at which the edge is kept; a limit is closed in on between neighbours of the best. */
  private static final int NODES = 25;

  private final ShapeProfile whole;
  private final WeibullLikelihood group;
  private final double level;
  private final double lowest;
  private final double highest;
  private final double shapeLower;
  private final double shapeUpper;
  private final Edge[] below = new Edge[NODES];
  private final Edge[] above = new Edge[NODES];

  private record Edge(double shape, double k) {}

  /**
   * The region of one group's k and the shape.
   *
   * @param whole profile in the shape over all groups
   * @param group the group whose k is meant; one of those in the profile
   * @param peak maximum of the profile
   * @param drop by how much the log-likelihood may fall
   */
  LikelihoodRegion(
      ShapeProfile whole, WeibullLikelihood group, ShapeSearch.Found peak, double drop) {
    this.whole = whole;
    this.group = group;
    level = peak.point().value() - drop;
    double low = ShapeSearch.dropped(whole, peak, drop, false);
    double high = ShapeSearch.dropped(whole, peak, drop, true);
    shapeLower = Math.exp(low);
    shapeUpper = Math.exp(high);
    lowest = Math.max(low, Math.min(ShapeSearch.lowest(whole), peak.logShape()));
    highest = Math.min(high, Math.max(ShapeSearch.highest(whole), peak.logShape()));
    fill();
  }

  /** The region when the shape is stated. */
  LikelihoodRegion(WeibullLikelihood group, double logShape, double drop) {
    whole = group;
    this.group = group;
    WeibullLikelihood.Slice slice = group.slice(logShape);
    level = slice.value(slice.k) - drop;
    lowest = logShape;
    highest = logShape;
    shapeLower = slice.shape;
    shapeUpper = slice.shape;
    fill();
  }

  private void fill() {
    for (int i = 0; i < NODES; i++) {
      WeibullLikelihood.Slice slice = group.slice(logShape(angle(i)));
      double room = room(slice, logShape(angle(i)));
      below[i] = new Edge(slice.shape, slice.edge(room, false));
      above[i] = new Edge(slice.shape, slice.edge(room, true));
    }
  }

  private double room(WeibullLikelihood.Slice slice, double logShape) {
    double best = whole == group ? slice.value(slice.k) : whole.at(logShape).value();
    return best - level;
  }

  private static double angle(int i) {
    return Math.PI * i / (NODES - 1);
  }

  private double logShape(double angle) {
    return (lowest + highest) / 2 + (lowest - highest) / 2 * Math.cos(angle);
  }

  private Edge edge(double angle, boolean upper) {
    double s = logShape(angle);
    WeibullLikelihood.Slice slice = group.slice(s);
    return new Edge(slice.shape, slice.edge(room(slice, s), upper));
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
    return least(false, e -> (e.k + c) / e.shape);
  }

  /** Greatest log age (k + c) / shape, on the centred scale. */
  double greatestLogAge(double c) {
    return -least(true, e -> -(e.k + c) / e.shape);
  }

  /** Least log cumulative hazard at a centred log age. */
  double leastLogHazard(double logAge) {
    return least(true, e -> e.shape * logAge - e.k);
  }

  /** Greatest log cumulative hazard at a centred log age. */
  double greatestLogHazard(double logAge) {
    return -least(false, e -> e.k - e.shape * logAge);
  }

  private interface Quantity {
    double of(Edge edge);
  }

  private double least(boolean upper, Quantity quantity) {
    Edge[] nodes = upper ? above : below;
    int best = 0;
    for (int i = 1; i < NODES; i++) {
      if (quantity.of(nodes[i]) < quantity.of(nodes[best])) {
        best = i;
      }
    }
    double kept = quantity.of(nodes[best]);
    if (lowest == highest || Double.isInfinite(kept)) {
      return kept;
    }
    DoubleUnaryOperator f = angle -> quantity.of(edge(angle, upper));
    double from = angle(Math.max(best - 1, 0));
    double to = angle(Math.min(best + 1, NODES - 1));
    return Math.min(kept, Minimum.between(f, from, to, 3).value());
  }
}

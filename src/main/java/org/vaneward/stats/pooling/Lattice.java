package org.vaneward.stats.pooling;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Deque;
import java.util.List;
import java.util.Optional;
import org.vaneward.stats.numeric.LogSpace;

/**
 * The posterior density on a lattice: planes of one standard deviation between log scales each, in
 * them sheets of one typical log scale, in those columns of one standard deviation between log
 * shapes, and along a column the typical log shape.
 *
 * <p>Each direction is centred and scaled by the density itself, so that a step is a fraction of a
 * standard deviation; where the first look at it was off, the lattice is laid anew.
 */
final class Lattice {
  /** Greatest step in the typical log scale, in its standard deviations. */
  private static final double COARSEST = 0.95;

  /** Standard deviation of a plane, in its first guess, that makes far more sheets than needed. */
  private static final double MUCH_TOO_FINE = 2.5;

  /** Distance of a plane's mean from its middle, in widths, at which it is laid anew. */
  private static final double FAR_OFF = 2;

  /** So many times what is nothing below the best all is one: polynomials stay within bounds. */
  private static final double DEEP = 2.5;

  /** Of a cell in four directions. */
  private static final int CORNERS = 16;

  private static final int MOST_LAYINGS = 8;
  private static final int MOST_PLANES = 400;

  /** Every so many sheets the nodes are doubled, as a check. */
  private static final int CHECK_EVERY = 7;

  final Spread scales;
  final Spread shapes;

  /** Planes at places first, first + 1, … */
  final List<Plane> planes;

  final int first;

  private final Hyper hyper;
  private final Start start;
  private final Layout layout;
  private double best = Double.NEGATIVE_INFINITY;
  private int points;
  private double sum;
  private double nodesChange;

  private Lattice(Hyper hyper, Start start, Layout layout, List<Plane> planes, int first) {
    this.hyper = hyper;
    this.start = start;
    this.layout = layout;
    scales = layout.scales();
    shapes = layout.shapes();
    this.planes = planes;
    this.first = first;
  }

  /** The lattice around the mode; empty when no mode is found or the density does not fall. */
  static Optional<Lattice> of(Hyper hyper) {
    Start start = Start.of(hyper);
    double shapesScale = hyper.priors.shapesBetweenScale();
    Layout layout =
        new Layout(
            new Spread(start.unit, hyper.precision.firstStep),
            shapesScale > 0
                ? new Spread(Math.min(start.shapeUnit, shapesScale), hyper.precision.firstStep)
                : Spread.none(),
            0,
            1,
            0);
    for (int i = 0; i < MOST_LAYINGS; i++) {
      double last = hyper.precision.endless * shapesScale;
      if (layout.shapes().lastBelow(last) > MOST_PLANES) {
        return Optional.empty();
      }
      Optional<Lattice> lattice = new Walk(hyper, start, layout).lattice();
      if (lattice.isEmpty()) {
        return lattice;
      }
      Layout better = lattice.get().better();
      if (better.equals(layout)) {
        if (lattice.get().fill()) {
          return lattice;
        }
        better = layout.withMoreNodes();
      }
      layout = better;
    }
    return Optional.empty();
  }

  /**
   * How a lattice is laid.
   *
   * @param offset of the middle of each plane from the first guess, in its widths
   * @param factor of the width of each plane beside the first guess
   * @param moreNodes by how many rules the groups' integrals are better than they settle with
   */
  private record Layout(Spread scales, Spread shapes, double offset, double factor, int moreNodes) {
    Layout withMoreNodes() {
      return new Layout(scales, shapes, offset, factor, moreNodes + 1);
    }

    Optional<Plane> plane(Hyper hyper, Start start, int place, double best, double b, double sdB) {
      double sd = scales.at(place);
      double floor = best - hyper.precision.nothing - scales.logStretch(place);
      return Plane.of(
          hyper, shapes, sd, middle(start, sd), width(start, sd), moreNodes, floor, b, sdB);
    }

    double middle(Start start, double sd) {
      return start.middle(sd) + offset * start.width(sd);
    }

    double width(Start start, double sd) {
      return factor * start.width(sd);
    }
  }

  /** From a plane in the middle outwards, until there is nothing any more. */
  private static final class Walk {
    private final Deque<Plane> planes = new ArrayDeque<>();
    private final Hyper hyper;
    private final Start start;
    private final Layout layout;
    private final int middle;
    private int first;
    private double best = Double.NEGATIVE_INFINITY;

    Walk(Hyper hyper, Start start, Layout layout) {
      this.hyper = hyper;
      this.start = start;
      this.layout = layout;
      middle = layout.scales().lastBelow(start.between);
      first = middle;
      for (ShapeNodes nodes : hyper.nodes) {
        nodes.startAt(start.b);
      }
    }

    Optional<Lattice> lattice() {
      Optional<Plane> plane = layout.plane(hyper, start, middle, best, start.b, start.sdB);
      if (plane.isEmpty()) {
        return Optional.empty();
      }
      planes.add(plane.get());
      best = weight(plane.get(), middle);
      return outwards(1) && outwards(-1)
          ? Optional.of(new Lattice(hyper, start, layout, new ArrayList<>(planes), first))
          : Optional.empty();
    }

    private double weight(Plane plane, int place) {
      return plane.laplace() + layout.scales().logStretch(place);
    }

    /** Whether each plane on the way is found and there are not too many. */
    private boolean outwards(int side) {
      Sheet from = (side > 0 ? planes.getLast() : planes.getFirst()).best();
      int last = layout.scales().lastBelow(hyper.precision.endless * hyper.priors.betweenScale());
      double before = best;
      for (int i = middle + side; i >= 0 && i <= last; i += side) {
        Optional<Plane> next = layout.plane(hyper, start, i, best, from.middle(), from.sd());
        if (next.isEmpty() || planes.size() > MOST_PLANES) {
          return false;
        }
        double weight = weight(next.get(), i);
        best = Math.max(best, weight);
        if (weight < best - hyper.precision.nothing && weight < before) {
          return true;
        }
        before = weight;
        from = next.get().best();
        if (side > 0) {
          planes.addLast(next.get());
        } else {
          planes.addFirst(next.get());
          first = i;
        }
      }
      return true;
    }
  }

  /** The same layout when its steps are fine enough, else a better one. */
  private Layout better() {
    double[] byPlane = new double[planes.size()];
    double total = Double.NEGATIVE_INFINITY;
    for (int p = 0; p < byPlane.length; p++) {
      byPlane[p] = planes.get(p).laplace() + scales.logStretch(first + p);
      total = LogSpace.logSumExp(total, byPlane[p]);
    }
    double[] byColumn =
        new double
            [1 + shapes.lastBelow(hyper.precision.endless * hyper.priors.shapesBetweenScale())];
    double meanZ = 0;
    double sdZ = 0;
    for (int p = 0; p < byPlane.length; p++) {
      Plane plane = planes.get(p);
      double w = Math.exp(byPlane[p] - total);
      meanZ += w * plane.meanZ();
      sdZ += w * plane.sdZ();
      plane.addColumns(w, byColumn);
    }
    boolean off = Math.abs(meanZ) > FAR_OFF || hyper.step > COARSEST * sdZ || sdZ > MUCH_TOO_FINE;
    return new Layout(
        scales.fineEnoughFor(scales.width(byPlane, first), hyper.precision),
        shapes.fineEnoughFor(shapes.width(logs(byColumn), 0), hyper.precision),
        off ? layout.offset() + meanZ * layout.factor() : layout.offset(),
        off ? layout.factor() * sdZ : layout.factor(),
        layout.moreNodes());
  }

  private static double[] logs(double[] x) {
    return Arrays.stream(x).map(Math::log).toArray();
  }

  /** Works out all columns; whether the groups' integrals are as good as is asked for. */
  private boolean fill() {
    for (int p = 0; p < planes.size(); p++) {
      double stretch = planes.get(p).logStep() + scales.logStretch(first + p);
      for (int k = planes.get(p).first(); k <= planes.get(p).last(); k++) {
        best = Math.max(best, planes.get(p).sheet(k).laplace() + stretch);
      }
    }
    int sheets = 0;
    double change = 0;
    for (int p = 0; p < planes.size(); p++) {
      Plane plane = planes.get(p);
      double stretch = plane.logStep() + scales.logStretch(first + p);
      for (int k = plane.first(); k <= plane.last(); k++) {
        Sheet sheet = plane.sheet(k);
        sheet.fill(best - stretch);
        double w = scales.share(first + p) * sheet.sum(best - stretch);
        sum += w;
        points += sheet.points();
        if (sheets++ % CHECK_EVERY == 0) {
          change += CHECK_EVERY * w * Math.abs(hyper.doubled(sheet, plane.between, plane.rules));
        }
      }
    }
    nodesChange = change / sum;
    return nodesChange <= hyper.precision.mostNodesChange;
  }

  /** The plane at a place; the nearest there is beyond the last. */
  Plane plane(int place) {
    return planes.get(Math.max(0, Math.min(planes.size() - 1, place - first)));
  }

  /** Log scale of the typical group between planes and sheets. */
  double m(double place, double k) {
    double sd = scales.at(place);
    return layout.middle(start, sd) + layout.width(start, sd) * hyper.step * k;
  }

  /**
   * Log weight of a point, shares in the rules left out; the nearest there is beyond the last. The
   * columns have to be worked out.
   */
  double logWeight(int place, int k, int l, int j) {
    Plane plane = plane(place);
    double weight =
        plane.sheet(k).logWeight(l, j)
            + plane.logStep()
            + scales.logStretch(Math.max(first, Math.min(first + planes.size() - 1, place)));
    return Math.max(weight, best - DEEP * hyper.precision.nothing);
  }

  /**
   * The weights with straight lines between the points, relative to the best; 0 beyond the last
   * points, where there is next to nothing.
   */
  double straight(double place, double k, double shapesPlace, double j) {
    int i0 = (int) Math.floor(place);
    int k0 = (int) Math.floor(k);
    int l0 = (int) Math.floor(shapesPlace);
    int j0 = (int) Math.floor(j);
    double sum = 0;
    for (int corner = 0; corner < CORNERS; corner++) {
      int di = corner & 1;
      int dk = corner >> 1 & 1;
      int dl = corner >> 2 & 1;
      int dj = corner >> 3;
      double near =
          side(place - i0, di) * side(k - k0, dk) * side(shapesPlace - l0, dl) * side(j - j0, dj);
      if (near > 0) {
        if (!holds(i0 + di, k0 + dk, l0 + dl, j0 + dj)) {
          return 0;
        }
        sum += near * Math.exp(logWeight(i0 + di, k0 + dk, l0 + dl, j0 + dj) - best);
      }
    }
    return sum;
  }

  private static double side(double f, int above) {
    return above == 1 ? f : 1 - f;
  }

  private boolean holds(int place, int k, int l, int j) {
    if (place < first || place >= first + planes.size()) {
      return false;
    }
    Plane plane = plane(place);
    return k >= plane.first()
        && k <= plane.last()
        && l < plane.sheet(k).size()
        && Math.abs(j) <= hyper.side;
  }

  /** Log density times the volume of a step in each direction, interpolated. */
  double logDensity(double place, double k, double shapesPlace, double j) {
    int j0 = (int) Math.floor(j);
    double[] along = Cubic.weights(j - j0);
    return overColumns(
        place,
        k,
        shapesPlace,
        (i, sheet, l) -> {
          double sum = 0;
          for (int dj = 0; dj < Cubic.POINTS; dj++) {
            sum += along[dj] * logWeight(i, sheet, l, j0 + dj - 1);
          }
          return sum;
        });
  }

  /** Log shape of the typical group, between columns as on them. */
  double b(double place, double k, double shapesPlace, double j) {
    double middle =
        overColumns(place, k, shapesPlace, (i, sheet, l) -> plane(i).sheet(sheet).column(l).middle);
    double logSd =
        overColumns(
            place, k, shapesPlace, (i, sheet, l) -> Math.log(plane(i).sheet(sheet).column(l).sd));
    return middle + Math.exp(logSd) * hyper.step * j;
  }

  private interface OfColumn {
    double at(int place, int k, int l);
  }

  /** A smooth function of the column, known on the columns there are, interpolated. */
  private double overColumns(double place, double k, double shapesPlace, OfColumn of) {
    int i0 = (int) Math.floor(place);
    int k0 = (int) Math.floor(k);
    int l0 = (int) Math.floor(shapesPlace);
    double[] wi = Cubic.weights(place - i0);
    double[] wk = Cubic.weights(k - k0);
    double[] wl = Cubic.weights(shapesPlace - l0);
    double sum = 0;
    for (int di = 0; di < Cubic.POINTS; di++) {
      for (int dk = 0; dk < Cubic.POINTS; dk++) {
        for (int dl = 0; dl < Cubic.POINTS; dl++) {
          double w = wi[di] * wk[dk] * wl[dl];
          if (w != 0) {
            // even about 0 in both standard deviations
            sum += w * of.at(Math.abs(i0 + di - 1), k0 + dk - 1, Math.abs(l0 + dl - 1));
          }
        }
      }
    }
    return sum;
  }

  /** The likelihood of a group between the sheets around a point. */
  OwnShape.Nearby nearby(double place, double k, int group) {
    int i0 = (int) Math.floor(place);
    int k0 = (int) Math.floor(k);
    ShapeCurve[] curves = new ShapeCurve[4];
    double[] weights = new double[4];
    for (int corner = 0; corner < 4; corner++) {
      int di = corner & 1;
      int dk = corner >> 1;
      curves[corner] = plane(i0 + di).sheet(k0 + dk).curves[group];
      weights[corner] = side(place - i0, di) * side(k - k0, dk);
    }
    return new OwnShape.Nearby(curves, weights);
  }

  /** About the greatest log weight. */
  double best() {
    return best;
  }

  int points() {
    return points;
  }

  double logMarginal() {
    return best + Math.log(sum);
  }

  double nodesChange() {
    return nodesChange;
  }

  int mostNodes() {
    return planes.stream()
        .flatMapToInt(plane -> Arrays.stream(plane.rules))
        .map(GroupIntegral::nodes)
        .max()
        .orElse(0);
  }
}

package org.vaneward.stats.pooling;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.Optional;

/**
 * The posterior density of (log shape b, log scale m, standard deviation between groups) on a
 * lattice of planes, one for each standard deviation.
 *
 * <p>The standard deviation is unit sinh(x) and the planes are equally spaced in x from 0 on. The
 * density is an even function of x, smooth within a strip whose width does not depend on the data
 * once the unit is the standard error of the best known group: the trapezoidal rule then converges
 * faster than any power of its step. So it does in the plane, where the density falls like a bell.
 */
final class Lattice {
  /** Widest step in x. */
  private static final double WIDEST = 0.35;

  /** Step in x, in standard deviations of x. */
  private static final double FINE = 0.5;

  private static final int MOST_HALVINGS = 8;
  private static final int MOST_PLANES = 2000;

  /** Priors' scale times this is a standard deviation that the prior rules out. */
  private static final double ENDLESS = 9;

  private static final double MOST_NODES_CHANGE = 1e-8;

  /** Every so many lattice points the nodes are doubled, as a check. */
  private static final int CHECK_EVERY = 7;

  final double unit;
  final double step;

  /** Planes at x = first * step, (first + 1) * step, … */
  final List<Plane> planes;

  final int first;

  /** Greatest log weight of a plane, as if normal. */
  private final double best;

  private int points;
  private double logSum;
  private double nodesChange;

  private Lattice(double unit, double step, List<Plane> planes, int first) {
    this.unit = unit;
    this.step = step;
    this.planes = planes;
    this.first = first;
    double top = Double.NEGATIVE_INFINITY;
    for (int i = 0; i < planes.size(); i++) {
      top = Math.max(top, planes.get(i).logPeakWeight() + logStretch(i));
    }
    best = top;
  }

  /** The lattice around the mode; empty when no mode is found or the density does not fall. */
  static Optional<Lattice> of(Hyper hyper) {
    Start start = Start.of(hyper);
    double step = WIDEST;
    Optional<Lattice> lattice = march(hyper, start, step);
    for (int i = 0; i < MOST_HALVINGS && lattice.isPresent(); i++) {
      if (step <= FINE * lattice.get().spread()) {
        return lattice.get().fill(hyper) ? lattice : Optional.empty();
      }
      step /= 2;
      lattice = march(hyper, start, step);
    }
    return Optional.empty();
  }

  /** The planes; where a quick look at the density leads astray, by a closer one. */
  private static Optional<Lattice> march(Hyper hyper, Start start, double step) {
    Optional<Lattice> quickly = marchOnce(hyper, start, step);
    if (quickly.isPresent()) {
      return quickly;
    }
    hyper.lookClosely();
    return marchOnce(hyper, start, step);
  }

  private static Optional<Lattice> marchOnce(Hyper hyper, Start start, double step) {
    double unit = start.unit();
    int middle = (int) Math.round(asinh(start.sd() / unit) / step);
    Optional<Plane> plane =
        Plane.near(
            hyper, unit * Math.sinh(middle * step), start.b(), start.m(), start.sdB(), start.sdM());
    if (plane.isEmpty()) {
      return Optional.empty();
    }
    Walk walk = new Walk(hyper, unit, step, plane.get(), middle);
    return walk.outwards(1) && walk.outwards(-1)
        ? Optional.of(new Lattice(unit, step, new ArrayList<>(walk.planes), walk.first))
        : Optional.empty();
  }

  /** From a plane in the middle outwards, until there is nothing any more. */
  private static final class Walk {
    final Deque<Plane> planes = new ArrayDeque<>();

    /** Place of the first plane. */
    int first;

    private final Hyper hyper;
    private final double unit;
    private final double step;
    private final int middle;
    private double best;

    Walk(Hyper hyper, double unit, double step, Plane plane, int middle) {
      this.hyper = hyper;
      this.unit = unit;
      this.step = step;
      this.middle = middle;
      planes.add(plane);
      first = middle;
      best = weight(plane, middle);
    }

    private double weight(Plane plane, int i) {
      return plane.laplace() + Math.log(Math.cosh(i * step));
    }

    private double sd(int i) {
      return unit * Math.sinh(i * step);
    }

    /** Whether each plane on the way has a mode and there are not too many. */
    boolean outwards(int side) {
      Plane from = side > 0 ? planes.getLast() : planes.getFirst();
      double last = ENDLESS * hyper.priors.betweenScale();
      for (int i = middle + side; i >= 0 && sd(i) < last; i += side) {
        Optional<Plane> next = from.next(sd(i));
        if (next.isEmpty() || planes.size() > MOST_PLANES) {
          return false;
        }
        from = next.get();
        double weight = weight(from, i);
        best = Math.max(best, weight);
        if (weight < best - Plane.NOTHING) {
          return true;
        }
        if (side > 0) {
          planes.addLast(from);
        } else {
          planes.addFirst(from);
          first = i;
        }
      }
      return true;
    }
  }

  private static double asinh(double x) {
    return Math.log(x + Math.sqrt(x * x + 1));
  }

  double x(int plane) {
    return (first + plane) * step;
  }

  /** Log of the derivative of the standard deviation in x. */
  double logStretch(double x) {
    return Math.log(unit * Math.cosh(x));
  }

  private double logStretch(int plane) {
    return logStretch(x(plane));
  }

  /** Standard deviation of x, each plane taken as normal. */
  private double spread() {
    double sum = 0;
    double mean = 0;
    double square = 0;
    double top = Double.NEGATIVE_INFINITY;
    for (int i = 0; i < planes.size(); i++) {
      top = Math.max(top, planes.get(i).laplace() + logStretch(i));
    }
    for (int i = 0; i < planes.size(); i++) {
      double w = Math.exp(planes.get(i).laplace() + logStretch(i) - top);
      sum += w;
      mean += w * x(i);
      square += w * x(i) * x(i);
    }
    mean /= sum;
    return Math.sqrt(Math.max(square / sum - mean * mean, 0));
  }

  /** Log weight of a lattice point: density in (x, z1, z2); negative infinity if not there. */
  double logWeight(int plane, int i, int j) {
    return plane >= 0 && plane < planes.size()
        ? planes.get(plane).at(i, j) + logStretch(plane)
        : Double.NEGATIVE_INFINITY;
  }

  /** The share of a plane in the trapezoidal rule: the first one, at x = 0, counts half. */
  double share(int plane) {
    return first + plane == 0 ? 0.5 : 1;
  }

  /** The greatest log weight. */
  double best() {
    return best;
  }

  private boolean fill(Hyper hyper) {
    double[] sums = new double[2];
    for (int p = 0; p < planes.size(); p++) {
      Plane plane = planes.get(p);
      plane.settle();
      if (!plane.fill(best, logStretch(p))) {
        return false;
      }
      int at = p;
      plane.forEach(
          (i, j, logWeight) -> {
            double w = share(at) * Math.exp(logWeight + logStretch(at) - best);
            sums[0] += w;
            if (points++ % CHECK_EVERY == 0) {
              sums[1] += CHECK_EVERY * w * Math.expm1(plane.doubled(i, j));
            }
          });
    }
    logSum = best + Math.log(sums[0] * step * hyper.step * hyper.step);
    nodesChange = Math.abs(sums[1]) / sums[0];
    return nodesChange <= MOST_NODES_CHANGE;
  }

  int points() {
    return points;
  }

  double logMarginal() {
    return logSum;
  }

  double nodesChange() {
    return nodesChange;
  }

  int mostNodes() {
    int most = 0;
    for (Plane plane : planes) {
      for (int rule : plane.rules) {
        most = Math.max(most, GroupIntegral.nodes(rule));
      }
    }
    return most;
  }
}

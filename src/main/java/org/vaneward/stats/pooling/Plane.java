package org.vaneward.stats.pooling;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * The posterior density at one standard deviation between groups, as a density in log shape b and
 * log scale m: its mode with the curvature there, and its values on a lattice of points
 *
 * <pre>
 *   b = modeB + l11 z1,   m = modeM + l21 z1 + l22 z2
 * </pre>
 *
 * at whole multiples of {@value #STEP} of z1 and z2, as far out as there is anything.
 */
final class Plane {
  /** Lattice step in standard deviations. */
  static final double STEP = 0.7;

  /** Points this much below the best of all, on the log scale, are left out. */
  static final double NOTHING = 23;

  /** Most lattice steps from the mode in one direction. */
  private static final int FARTHEST = 60;

  private static final double PROBE = 0.3;
  private static final double LONGEST_STEP = 3;
  private static final double ARRIVED = 1e-3;
  private static final int MOST_STEPS = 100;

  private final Hyper hyper;

  /** Standard deviation between groups. */
  final double sd;

  double modeB;
  double modeM;

  /** Lower triangular root of the covariance of (b, m). */
  double l11;

  double l21;
  double l22;

  /** Log density at the mode. */
  double peak;

  /** Rules that settle the groups' integrals hereabouts. */
  final int[] rules;

  private final List<Column> columns = new ArrayList<>();
  private int firstColumn;

  /** A run of lattice points with the same z1. */
  @SuppressWarnings("ArrayRecordComponent")
  private record Column(int first, double[] logDensity) {
    double at(int j) {
      int i = j - first;
      return i >= 0 && i < logDensity.length ? logDensity[i] : Double.NEGATIVE_INFINITY;
    }
  }

  private Plane(Hyper hyper, double sd, double b, double m, double sdB, double sdM) {
    this.hyper = hyper;
    this.sd = sd;
    modeB = b;
    modeM = m;
    l11 = sdB;
    l22 = sdM;
    rules = new int[hyper.groups.length];
  }

  /** The plane with its mode, or nothing when none is found. */
  static Optional<Plane> near(Hyper hyper, double sd, double b, double m, double sdB, double sdM) {
    Plane plane = new Plane(hyper, sd, b, m, sdB, sdM);
    return plane.climb() ? Optional.of(plane) : Optional.empty();
  }

  /** The plane at another standard deviation, its mode looked for from here. */
  Optional<Plane> next(double otherSd) {
    return near(hyper, otherSd, modeB, modeM, l11, Math.hypot(l21, l22));
  }

  /** Log of the integral over (b, m) as if it were normal. */
  double laplace() {
    return peak + Math.log(2 * Math.PI * l11 * l22);
  }

  /** Log of the volume of (b, m) that a unit of (z1, z2) stands for. */
  double logVolume() {
    return Math.log(l11 * l22);
  }

  private double density(double b, double m) {
    return hyper.quickLook(hyper.slices(b), m, sd);
  }

  /** Newton's method with differences over a fraction of a standard deviation. */
  private boolean climb() {
    double value = density(modeB, modeM);
    for (int i = 0; i < MOST_STEPS && value > Double.NEGATIVE_INFINITY; i++) {
      Parabola p = parabola(value);
      if (!p.adopt(this)) {
        return false;
      }
      double decrement = (p.stepB * p.slopeB + p.stepM * p.slopeM) / 2;
      if (p.bowl && decrement < ARRIVED) {
        peak = value;
        return true;
      }
      double next = value;
      for (int half = 0; half < 30; half++) {
        double shrink = Math.scalb(1.0, -half);
        next = density(modeB + shrink * p.stepB, modeM + shrink * p.stepM);
        if (next > value) {
          modeB += shrink * p.stepB;
          modeM += shrink * p.stepM;
          break;
        }
      }
      if (!(next > value)) {
        peak = value;
        return p.bowl;
      }
      value = next;
    }
    return false;
  }

  /** The density near the mode so far, by differences. */
  private Parabola parabola(double value) {
    double db = PROBE * l11;
    double dm = PROBE * Math.hypot(l21, l22);
    GroupLikelihood.Slice[] here = hyper.slices(modeB);
    GroupLikelihood.Slice[] more = hyper.slices(modeB + db);
    GroupLikelihood.Slice[] less = hyper.slices(modeB - db);
    double bMore = hyper.quickLook(more, modeM, sd);
    double bLess = hyper.quickLook(less, modeM, sd);
    double mMore = hyper.quickLook(here, modeM + dm, sd);
    double mLess = hyper.quickLook(here, modeM - dm, sd);
    double both = hyper.quickLook(more, modeM + dm, sd) + hyper.quickLook(less, modeM - dm, sd);
    return new Parabola(
        (bMore - bLess) / (2 * db),
        (mMore - mLess) / (2 * dm),
        (2 * value - bMore - bLess) / (db * db),
        (2 * value - mMore - mLess) / (dm * dm),
        (bMore + bLess + mMore + mLess - 2 * value - both) / (2 * db * dm));
  }

  /** Slope and information at a point, and the Newton step from there. */
  private static final class Parabola {
    final double slopeB;
    final double slopeM;
    final double infoB;
    final double infoM;
    final double infoBm;
    final boolean bowl;
    double stepB;
    double stepM;

    Parabola(double slopeB, double slopeM, double infoB, double infoM, double infoBm) {
      this.slopeB = slopeB;
      this.slopeM = slopeM;
      this.infoB = infoB;
      this.infoM = infoM;
      this.infoBm = infoBm;
      bowl = infoB > 0 && infoM > 0 && infoB * infoM - infoBm * infoBm > 1e-10 * infoB * infoM;
    }

    /** Takes over the spread where there is one, and sets the step. */
    boolean adopt(Plane plane) {
      if (bowl) {
        double det = infoB * infoM - infoBm * infoBm;
        plane.l11 = Math.sqrt(infoM / det);
        plane.l21 = -infoBm / det / plane.l11;
        plane.l22 = 1 / Math.sqrt(infoM);
        stepB = (infoM * slopeB - infoBm * slopeM) / det;
        stepM = (infoB * slopeM - infoBm * slopeB) / det;
      } else {
        stepB = slopeB * plane.l11 * plane.l11;
        stepM = slopeM * (plane.l21 * plane.l21 + plane.l22 * plane.l22);
      }
      double size =
          Math.max(Math.abs(stepB) / plane.l11, Math.abs(stepM) / Math.hypot(plane.l21, plane.l22));
      if (!(size < Double.POSITIVE_INFINITY)) {
        return false;
      }
      double shrink = Math.min(1, LONGEST_STEP / Math.max(size, 1e-300));
      stepB *= shrink;
      stepM *= shrink;
      return true;
    }
  }

  /** Settles the rules at the mode and three standard deviations from it either way. */
  void settle() {
    for (int i = -1; i <= 1; i++) {
      double z1 = 3 * i;
      GroupLikelihood.Slice[] slices = hyper.slices(modeB + l11 * z1);
      for (int j = -1; j <= 1; j++) {
        hyper.settle(slices, modeM + l21 * z1 + l22 * 3 * j, sd, rules);
      }
    }
  }

  /**
   * Works out the lattice.
   *
   * @param best the greatest log density times volume of all planes
   * @param logStretch log of the factor from this plane's density to that scale
   * @return whether it ended before the farthest point allowed
   */
  boolean fill(double best, double logStretch) {
    double floor = best - NOTHING - logStretch - logVolume();
    columns.clear();
    firstColumn = 0;
    for (int side = -1; side <= 1; side += 2) {
      int empty = 0;
      for (int i = side < 0 ? -1 : 0; empty < 2; i += side) {
        if (Math.abs(i) > FARTHEST) {
          return false;
        }
        Optional<Column> column = column(i, floor);
        if (column.isEmpty()) {
          return false;
        }
        empty = column.get().logDensity().length == 0 ? empty + 1 : 0;
        if (side < 0) {
          columns.add(0, column.get());
          firstColumn = i;
        } else {
          columns.add(column.get());
        }
      }
    }
    return true;
  }

  /** In m the density is log-concave: from the column's best outwards, until it has fallen. */
  private Optional<Column> column(int i, double floor) {
    double z1 = i * STEP;
    GroupLikelihood.Slice[] slices = hyper.slices(modeB + l11 * z1);
    List<Double> up = new ArrayList<>();
    List<Double> down = new ArrayList<>();
    double start = along(slices, z1, 0);
    if (!outwards(slices, z1, start, floor, 1, up)
        || !outwards(slices, z1, start, floor, -1, down)) {
      return Optional.empty();
    }
    double[] values = new double[up.size() + down.size() + 1];
    for (int j = 0; j < down.size(); j++) {
      values[j] = down.get(down.size() - 1 - j);
    }
    values[down.size()] = start;
    for (int j = 0; j < up.size(); j++) {
      values[down.size() + 1 + j] = up.get(j);
    }
    return Optional.of(trimmed(-down.size(), values, floor));
  }

  private boolean outwards(
      GroupLikelihood.Slice[] slices,
      double z1,
      double start,
      double floor,
      int side,
      List<Double> values) {
    double before = start;
    for (int j = 1; ; j++) {
      double value = along(slices, z1, side * j);
      if (value < floor && !(value > before)) {
        return true;
      }
      if (j > FARTHEST) {
        return false;
      }
      values.add(value);
      before = value;
    }
  }

  private double along(GroupLikelihood.Slice[] slices, double z1, int j) {
    return hyper.at(slices, modeM + l21 * z1 + l22 * j * STEP, sd, rules);
  }

  private static Column trimmed(int first, double[] values, double floor) {
    int from = 0;
    int to = values.length;
    while (from < to && values[from] < floor) {
      from++;
    }
    while (to > from && values[to - 1] < floor) {
      to--;
    }
    double[] kept = new double[to - from];
    System.arraycopy(values, from, kept, 0, kept.length);
    return new Column(first + from, kept);
  }

  /** What is done with each lattice point. */
  interface Visitor {
    void visit(int i, int j, double logDensity);
  }

  void forEach(Visitor visitor) {
    for (int c = 0; c < columns.size(); c++) {
      Column column = columns.get(c);
      for (int j = 0; j < column.logDensity().length; j++) {
        visitor.visit(firstColumn + c, column.first() + j, column.logDensity()[j]);
      }
    }
  }

  /** Log density at a lattice point; negative infinity where there is nothing. */
  double at(int i, int j) {
    int c = i - firstColumn;
    return c >= 0 && c < columns.size() ? columns.get(c).at(j) : Double.NEGATIVE_INFINITY;
  }

  /** Log density at a lattice point, worked out again with each rule doubled. */
  double doubled(int i, int j) {
    int[] other = new int[rules.length];
    for (int s = 0; s < rules.length; s++) {
      other[s] = Math.min(rules[s] + 1, GroupIntegral.TWICE_EVENLY);
    }
    double z1 = i * STEP;
    GroupLikelihood.Slice[] slices = hyper.slices(modeB + l11 * z1);
    return hyper.at(slices, modeM + l21 * z1 + l22 * j * STEP, sd, other);
  }
}

package org.vaneward.stats.pooling;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * The posterior density at one standard deviation between groups, as a density in log shape b and
 * log scale m: its mode with the curvature there, and its values on columns of points, one at each
 *
 * <pre>
 *   b = modeB + l11 z1
 * </pre>
 *
 * with z1 a whole multiple of {@value #STEP}, as far out as there is anything.
 */
final class Plane {
  /** Lattice step in standard deviations. */
  static final double STEP = 0.75;

  /** Points this much below the best of all, on the log scale, are left out. */
  static final double NOTHING = 23;

  /** Most lattice steps from the mode in one direction. */
  private static final int FARTHEST = 100;

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

  /** Log of density times volume at the mode. */
  double logPeakWeight() {
    return peak + Math.log(l11 * l22);
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

  /** Settles the rules at the mode and about three standard deviations from it either way. */
  void settle() {
    for (int i = -1; i <= 1; i++) {
      double b = modeB + l11 * 3 * i;
      GroupLikelihood.Slice[] slices = hyper.slices(b);
      Column column = Column.at(hyper, slices, sd, modeM + l21 * 3 * i, l22);
      for (int j = -1; j <= 1; j++) {
        hyper.settle(slices, column.m(3 * j), sd, rules);
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
    double floor = best - NOTHING - logStretch - Math.log(l11);
    columns.clear();
    firstColumn = 0;
    for (int side = 1; side >= -1; side -= 2) {
      int empty = 0;
      for (int i = side < 0 ? -1 : 0; empty < 2; i += side) {
        if (Math.abs(i) > FARTHEST || !add(i, side, floor)) {
          return false;
        }
        empty = columns.get(i - firstColumn).size() == 0 ? empty + 1 : 0;
      }
    }
    return true;
  }

  /** Adds a column next to the last one on its side; the search for its middle starts there. */
  private boolean add(int i, int side, double floor) {
    GroupLikelihood.Slice[] slices = hyper.slices(b(i));
    double nearM = modeM;
    double nearSd = l22;
    if (!columns.isEmpty()) {
      Column near = columns.get(side < 0 ? 0 : columns.size() - 1);
      nearM = near.middle();
      nearSd = near.sd();
    }
    Column column = Column.at(hyper, slices, sd, nearM, nearSd);
    if (!column.fill(hyper, slices, sd, rules, floor)) {
      return false;
    }
    columns.add(side < 0 ? 0 : columns.size(), column);
    firstColumn = Math.min(firstColumn, i);
    return true;
  }

  private double b(int i) {
    return modeB + l11 * i * STEP;
  }

  /** The column at place {@code i}, or the nearest there is. */
  Column column(int i) {
    return columns.get(Math.max(0, Math.min(columns.size() - 1, i - firstColumn)));
  }

  /** What is done with each lattice point. */
  interface Visitor {
    void visit(int i, int j, double logWeight);
  }

  /** Visits each point; weights are log density times the volume of a unit of (z1, z2). */
  void forEach(Visitor visitor) {
    for (int c = 0; c < columns.size(); c++) {
      Column column = columns.get(c);
      for (int j = column.first(); j < column.first() + column.size(); j++) {
        visitor.visit(firstColumn + c, j, weight(column, j));
      }
    }
  }

  private double weight(Column column, int j) {
    return column.logDensity(j) + Math.log(l11 * column.sd());
  }

  /** Log weight of a lattice point; negative infinity where there is nothing. */
  double at(int i, int j) {
    int c = i - firstColumn;
    return c >= 0 && c < columns.size() ? weight(columns.get(c), j) : Double.NEGATIVE_INFINITY;
  }

  /** By how much the log density at a lattice point changes when each rule is doubled. */
  double doubled(int i, int j) {
    int[] other = new int[rules.length];
    for (int s = 0; s < rules.length; s++) {
      other[s] = Math.min(rules[s] + 1, GroupIntegral.TWICE_EVENLY);
    }
    Column column = column(i);
    double m = column.m(j * STEP);
    return hyper.at(hyper.slices(b(i)), m, sd, other) - column.logDensity(j);
  }
}

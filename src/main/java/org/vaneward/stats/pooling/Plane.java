package org.vaneward.stats.pooling;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * The posterior density at one standard deviation between groups, as a density in log shape b and
 * log scale m: its mode with the curvature there, and its values on columns of points, one at each
 *
 * <pre>
 *   b = modeB + sdB z1
 * </pre>
 *
 * with z1 a whole multiple of {@link Hyper#step}, as far out as there is anything.
 */
final class Plane {
  /** Points this much below the best of all, on the log scale, are left out. */
  static final double NOTHING = 23;

  /** Most lattice steps from the mode in one direction. */
  private static final int FARTHEST = 100;

  private static final double PROBE = 0.3;
  private static final double LONGEST_STEP = 3;

  /** Distance from the mode, in standard deviations, that is near enough for a middle. */
  private static final double NEAR = 0.05;

  private static final int MOST_STEPS = 100;
  private static final int HALVINGS = 12;

  private final Hyper hyper;

  /** Standard deviation between groups. */
  final double sd;

  double modeB;

  /** Middle and width of the column at the mode. */
  double modeM;

  double sdM;

  /** Standard deviation of b. */
  double sdB;

  private double logPeakWeight;

  /** Rules that settle the groups' integrals hereabouts. */
  final int[] rules;

  private final List<Column> columns = new ArrayList<>();
  private int firstColumn;

  private Plane(Hyper hyper, double sd, double b, double sdB) {
    this.hyper = hyper;
    this.sd = sd;
    modeB = b;
    this.sdB = sdB;
    rules = new int[hyper.groups.length];
  }

  /** The plane with its mode, or nothing when none is found. */
  static Optional<Plane> near(Hyper hyper, double sd, double b, double m, double sdB, double sdM) {
    Plane plane = new Plane(hyper, sd, b, sdB);
    return plane.climb(m, sdM) ? Optional.of(plane) : Optional.empty();
  }

  /** The plane at another standard deviation, its mode looked for from here. */
  Optional<Plane> next(double otherSd) {
    return near(hyper, otherSd, modeB, modeM, sdB, sdM);
  }

  /** Log of the integral over (b, m) as if it were normal. */
  double laplace() {
    return logPeakWeight + Math.log(2 * Math.PI);
  }

  /** Log of density times the volume of a unit of (z1, z2), at the mode. */
  double logPeakWeight() {
    return logPeakWeight;
  }

  private Column middle(double b) {
    return Column.at(hyper, hyper.slices(b), sd, modeM, sdM);
  }

  /**
   * Newton's method in log shape, by differences over a fraction of a standard deviation, on the
   * density with log scale integrated out as if it were normal.
   */
  private boolean climb(double startM, double startSd) {
    modeM = startM;
    sdM = startSd;
    Column at = middle(modeB);
    for (int i = 0; i < MOST_STEPS; i++) {
      double value = at.logPeakWeight();
      if (!(Math.abs(value) < Double.POSITIVE_INFINITY)) {
        return false;
      }
      modeM = at.middle();
      sdM = at.sd();
      double probe = PROBE * sdB;
      double more = middle(modeB + probe).logPeakWeight();
      double less = middle(modeB - probe).logPeakWeight();
      double slope = (more - less) / (2 * probe);
      double info = (2 * value - more - less) / (probe * probe);
      double step = info > 0 ? slope / info : Math.copySign(sdB, slope);
      double longest = LONGEST_STEP * sdB;
      sdB = info > 0 ? Math.min(1 / Math.sqrt(info), 2 * hyper.priors.shapeLogSd()) : sdB;
      if (info > 0 && Math.abs(step) <= NEAR * sdB) {
        logPeakWeight = value + Math.log(sdB);
        return true;
      }
      step = Math.max(-longest, Math.min(longest, step));
      Column next = middle(modeB + step);
      for (int half = 0; half < HALVINGS && !(next.logPeakWeight() > value); half++) {
        step /= 2;
        next = middle(modeB + step);
      }
      if (!(next.logPeakWeight() > value)) {
        // no way up: as near as differences can tell
        logPeakWeight = value + Math.log(sdB);
        return info > 0;
      }
      modeB += step;
      at = next;
    }
    return false;
  }

  /** Settles the rules at the mode and about three standard deviations from it either way. */
  void settle() {
    for (int i = -1; i <= 1; i++) {
      double b = modeB + sdB * 3 * i;
      GroupLikelihood.Slice[] slices = hyper.slices(b);
      Column column = Column.at(hyper, slices, sd, modeM, sdM);
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
    double floor = best - NOTHING - logStretch - Math.log(sdB);
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
    double nearSd = sdM;
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
    return modeB + sdB * i * hyper.step;
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
    return column.logDensity(j) + Math.log(sdB * column.sd());
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
    double m = column.m(j * hyper.step);
    return hyper.at(hyper.slices(b(i)), m, sd, other) - column.logDensity(j);
  }
}

package org.vaneward.stats.regression;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.vaneward.stats.numeric.NonNegativeLeastSquares;
import org.vaneward.stats.regression.Covariates.Categorical;
import org.vaneward.stats.regression.Design.Term;

/**
 * Finds directions in which the likelihood never falls, which prove that it has no finite maximum
 * (the counterpart of separation in binary regression: A. Albert and J. A. Anderson, Biometrika 71,
 * 1984, 1–10).
 *
 * <p>At any shape the log-likelihood is concave in the coefficients. Moving them so that k = shape
 * log scale grows in a cell raises it there if no life of the cell failed, lowers it in the end if
 * one did; making k less lowers it if a life of the cell was seen to run. So a direction in which
 * it never falls moves k not at all in cells with both, up only in cells of survivors, down only in
 * cells whose every life failed before it was seen to run. By Stiemke's theorem there is one
 * exactly when no positive weights make those cells' rows, on the directions the others leave free,
 * sum to zero: a least-squares problem with non-negative weights, whose remainder is the direction.
 * It is verified before it is reported.
 */
final class Divergence {
  /** Movement of k, in a direction of length 1 and a row of length 1, that is rounding. */
  private static final double NO_MOVE = 1e-8;

  /** Log ages nearer than this are the same. */
  private static final double SAME_AGE = 1e-11;

  private final Design design;
  private final LifeCells data;
  private final Set<String> named = new LinkedHashSet<>();
  private final List<String> reasons = new ArrayList<>();

  /** Cells that a direction found before moves off. */
  private final boolean[] gone;

  private Divergence(Design design, LifeCells data) {
    this.design = design;
    this.data = data;
    gone = new boolean[design.cells()];
  }

  /** Covariates whose coefficients run off without bound. */
  static Optional<Fault> inScales(Design design, LifeCells data) {
    Divergence search = new Divergence(design, data);
    for (Term term : design.terms()) {
      if (term.column() instanceof Categorical categorical) {
        search.levels(categorical);
      }
    }
    search.directions();
    return search.named.isEmpty()
        ? Optional.empty()
        : Optional.of(new Fault(String.join("; ", search.reasons), List.copyOf(search.named)));
  }

  /** A level none of whose lives failed, or none was seen to run: its own indicator moves off. */
  private void levels(Categorical categorical) {
    int n = categorical.levels().size();
    boolean[] ran = new boolean[n];
    boolean[] failed = new boolean[n];
    for (int c = 0; c < design.cells(); c++) {
      int level = design.level(categorical, c);
      ran[level] |= data.wasSeenToRun(c);
      failed[level] |= data.cellFailures[c] > 0;
    }
    List<String> silent = new ArrayList<>();
    List<String> unseen = new ArrayList<>();
    for (int level = 0; level < n; level++) {
      if (!failed[level] || !ran[level]) {
        (failed[level] ? unseen : silent)
            .add(categorical.name() + "=" + categorical.levels().get(level));
      }
    }
    for (int c = 0; c < design.cells(); c++) {
      int level = design.level(categorical, c);
      gone[c] |= !failed[level] || !ran[level];
    }
    named.addAll(silent);
    named.addAll(unseen);
    if (!silent.isEmpty()) {
      reasons.add("no failures at " + Fault.listed(silent) + ": leave out or merge with another");
    }
    if (!unseen.isEmpty()) {
      reasons.add(
          "no life was seen to run at "
              + Fault.listed(unseen)
              + ": leave out or merge with another");
    }
  }

  private boolean isHeld(int cell) {
    return data.wasSeenToRun(cell) && data.cellFailures[cell] > 0;
  }

  private void directions() {
    RowSpace held = new RowSpace(design.columns());
    for (int c = 0; c < design.cells() && !held.isFull(); c++) {
      if (isHeld(c)) {
        held.add(row(c), 0);
      }
    }
    if (held.isFull()) {
      return;
    }
    List<double[]> free = held.free();
    while (true) {
      double[] direction = direction(free);
      if (direction.length == 0) {
        return;
      }
      report(direction);
    }
  }

  private double[] row(int cell) {
    double[] z = design.matrix();
    int p = design.columns();
    return Arrays.copyOfRange(z, cell * p, (cell + 1) * p);
  }

  /** A direction in which some cell moves off and none comes back; empty when there is none. */
  private double[] direction(List<double[]> free) {
    List<double[]> rows = new ArrayList<>();
    for (int c = 0; c < design.cells(); c++) {
      if (!gone[c] && !isHeld(c)) {
        double[] z = row(c);
        double size = RowSpace.norm(z) * (data.wasSeenToRun(c) ? 1 : -1);
        double[] a = new double[free.size()];
        for (int i = 0; i < a.length; i++) {
          a[i] = RowSpace.dot(z, free.get(i)) / size;
        }
        if (RowSpace.norm(a) > NO_MOVE) {
          rows.add(a);
        }
      }
    }
    if (rows.isEmpty()) {
      return new double[0];
    }
    double[] sum = new double[free.size()];
    for (double[] a : rows) {
      for (int i = 0; i < sum.length; i++) {
        sum[i] -= a[i] / rows.size();
      }
    }
    double[] rest = NonNegativeLeastSquares.remainder(rows.toArray(double[][]::new), sum);
    double size = RowSpace.norm(rest);
    double most = 0;
    double least = 0;
    for (double[] a : rows) {
      double move = -RowSpace.dot(a, rest) / size;
      most = Math.max(most, move);
      least = Math.min(least, move);
    }
    if (!(size > 1e-12 && most > NO_MOVE && least > -NO_MOVE / 100)) {
      return new double[0];
    }
    double[] direction = new double[design.columns()];
    for (int i = 0; i < rest.length; i++) {
      for (int j = 0; j < direction.length; j++) {
        direction[j] -= rest[i] / size * free.get(i)[j];
      }
    }
    return direction;
  }

  private void report(double[] direction) {
    for (int c = 0; c < design.cells(); c++) {
      double[] z = row(c);
      gone[c] |= !isHeld(c) && Math.abs(RowSpace.dot(z, direction)) > NO_MOVE * RowSpace.norm(z);
    }
    List<String> parts = new ArrayList<>();
    for (Term term : design.terms()) {
      double most = 0;
      for (int j = 0; j < term.columns(); j++) {
        boolean known = named.contains(design.names().get(term.first() + j));
        most = Math.max(most, known ? 0 : Math.abs(direction[term.first() + j]));
      }
      if (most > NO_MOVE && named.add(term.name())) {
        parts.add(term.name());
      }
    }
    if (!parts.isEmpty()) {
      reasons.add(
          Fault.listed(parts)
              + (parts.size() == 1
                  ? " parts lives that never failed from the others: leave it out"
                  : " together part lives that never failed from the others: leave out one of them"));
    }
  }

  /**
   * Whether coefficients exist by which every failure may have come at its own scale and no life
   * ran beyond its scale: then the likelihood never falls as the shape grows without end.
   */
  static boolean inShape(Design design, LifeCells data) {
    return new Divergence(design, data).noLifeIsOffItsScale();
  }

  private boolean noLifeIsOffItsScale() {
    RowSpace failures = new RowSpace(design.columns());
    double[] until = new double[design.cells()];
    Arrays.fill(until, Double.POSITIVE_INFINITY);
    for (int i = 0; i < data.intervals.size; i++) {
      int c = data.intervals.cell[i];
      until[c] = Math.min(until[c], data.intervals.to[i] - data.centre);
    }
    for (int c = 0; c < design.cells(); c++) {
      boolean exact = data.exposure.exact(c) > 0;
      double ran = data.exposure.top(c) - data.centre;
      if (ran > until[c] + SAME_AGE || (exact && data.exposure.firstExact(c) < -SAME_AGE)) {
        return false;
      }
      if (exact && failures.add(row(c), ran) > SAME_AGE * (1 + data.spread)) {
        return false;
      }
    }
    return canHold(failures, until);
  }

  private boolean canHold(RowSpace failures, double[] until) {
    double[] base = failures.solution();
    List<double[]> free = failures.isFull() ? List.of() : failures.free();
    List<double[]> constraints = new ArrayList<>();
    for (int c = 0; c < design.cells(); c++) {
      if (data.exposure.exact(c) > 0) {
        continue;
      }
      double[] z = row(c);
      double at = RowSpace.dot(z, base);
      if (data.wasSeenToRun(c)) {
        constraints.add(constraint(z, free, 1, data.exposure.top(c) - data.centre - at));
      }
      if (until[c] < Double.POSITIVE_INFINITY) {
        constraints.add(constraint(z, free, -1, at - until[c]));
      }
    }
    return meets(constraints, free.size());
  }

  /** Coefficients of w, then the bound that their sum must reach. */
  private static double[] constraint(double[] z, List<double[]> free, int sign, double bound) {
    double[] g = new double[free.size() + 1];
    double size = RowSpace.norm(z);
    for (int i = 0; i < free.size(); i++) {
      double along = sign * RowSpace.dot(z, free.get(i)) / size;
      g[i] = Math.abs(along) > 1e-12 ? along : 0;
    }
    g[free.size()] = bound / size;
    return g;
  }

  /** Least distance programming (Lawson and Hanson, 1974, ch. 23): whether some w meets all. */
  private boolean meets(List<double[]> constraints, int n) {
    double slack = SAME_AGE * (1 + data.spread);
    double[] w = new double[n];
    if (n > 0 && !constraints.isEmpty()) {
      double[] point = new double[n + 1];
      point[n] = 1;
      double[] rest =
          NonNegativeLeastSquares.remainder(constraints.toArray(double[][]::new), point);
      if (!(RowSpace.norm(rest) > 1e-9 && rest[n] > 0)) {
        return false;
      }
      for (int i = 0; i < n; i++) {
        w[i] = -rest[i] / rest[n];
      }
      slack *= 1 + RowSpace.norm(w);
    }
    for (double[] g : constraints) {
      double reached = 0;
      for (int i = 0; i < n; i++) {
        reached += g[i] * w[i];
      }
      if (!(reached >= g[n] - slack)) {
        return false;
      }
    }
    return true;
  }
}

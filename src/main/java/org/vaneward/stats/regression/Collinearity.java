package org.vaneward.stats.regression;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * Finds columns of a design that are combinations of those before them, by orthogonalising the
 * columns in order, each twice, and names the combination.
 */
final class Collinearity {
  /** What is left of a column, relative to its length, when it is a combination of others. */
  private static final double NOTHING = 1e-9;

  /** A weight in a combination, relative to the largest, that is rounding. */
  private static final double NO_PART = 1e-7;

  private final Design design;
  private final List<double[]> basis = new ArrayList<>();

  /** For each vector of the basis its column, and how the columns make it up. */
  private final List<double[]> recipes = new ArrayList<>();

  private Collinearity(Design design) {
    this.design = design;
  }

  static Optional<Fault> of(Design design) {
    return new Collinearity(design).find();
  }

  private Optional<Fault> find() {
    Set<String> terms = new LinkedHashSet<>();
    String reason = "";
    for (int j = 0; j < design.columns(); j++) {
      List<String> parts = take(j);
      if (parts.isEmpty()) {
        continue;
      }
      String name = design.names().get(j);
      if (reason.isEmpty()) {
        reason = name + " " + made(parts) + ": leave out one of them";
      }
      terms.add(name);
      terms.addAll(parts);
    }
    terms.remove(design.names().get(0));
    return terms.isEmpty() ? Optional.empty() : Optional.of(new Fault(reason, List.copyOf(terms)));
  }

  private static String made(List<String> parts) {
    return parts.size() == 1
        ? "says the same as " + parts.get(0)
        : "is a combination of " + Fault.listed(parts);
  }

  /** Takes a column in; names those it is a combination of, if it is one. */
  private List<String> take(int j) {
    double[] v = new double[design.cells()];
    for (int c = 0; c < v.length; c++) {
      v[c] = design.at(c, j);
    }
    double size = RowSpace.norm(v);
    double[] recipe = new double[design.columns()];
    recipe[j] = 1;
    for (int twice = 0; twice < 2; twice++) {
      for (int k = 0; k < basis.size(); k++) {
        double along = RowSpace.dot(basis.get(k), v);
        subtract(v, along, basis.get(k));
        subtract(recipe, along, recipes.get(k));
      }
    }
    double left = RowSpace.norm(v);
    if (!(left > NOTHING * size)) {
      return parts(recipe, j);
    }
    for (int c = 0; c < v.length; c++) {
      v[c] /= left;
    }
    for (int i = 0; i < recipe.length; i++) {
      recipe[i] /= left;
    }
    basis.add(v);
    recipes.add(recipe);
    return List.of();
  }

  private List<String> parts(double[] recipe, int j) {
    List<String> names = new ArrayList<>();
    for (int i = 1; i < recipe.length; i++) {
      if (i != j && Math.abs(recipe[i]) > NO_PART) {
        names.add(design.names().get(i));
      }
    }
    return names.isEmpty() ? List.of(design.names().get(0)) : names;
  }

  private static void subtract(double[] v, double times, double[] w) {
    for (int i = 0; i < v.length; i++) {
      v[i] -= times * w[i];
    }
  }
}

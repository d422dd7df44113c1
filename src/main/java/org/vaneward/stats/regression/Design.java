package org.vaneward.stats.regression;

import java.util.ArrayList;
import java.util.List;
import org.vaneward.stats.regression.Covariates.Categorical;
import org.vaneward.stats.regression.Covariates.Column;
import org.vaneward.stats.regression.Covariates.Numeric;

/**
 * The design of a regression: a row of numbers for each cell. Column 0 is the intercept; numeric
 * columns are centred and scaled over the cells, levels are 0 or 1.
 */
final class Design {
  /** Spread of a column, relative to its size, that is rounding. */
  private static final double NO_SPREAD = 1e-13;

  /**
   * A covariate and its columns.
   *
   * @param name of the covariate
   * @param first its first column
   * @param columns how many it has
   * @param column what was given
   */
  record Term(String name, int first, int columns, Column column) {}

  private final Cells cells;
  private final int[] firstRows;
  private final int columns;
  private final double[] z;
  private final List<String> names = new ArrayList<>();
  private final List<Term> terms = new ArrayList<>();
  private final double[] centre;
  private final double[] scale;

  private Design(Covariates covariates) {
    cells = Cells.of(covariates);
    firstRows = cells.firstRows();
    int p = 1;
    names.add("intercept");
    for (Column column : covariates.columns()) {
      int own = 1;
      if (column instanceof Categorical c) {
        own = c.levels().size() - 1;
        c.levels().stream().skip(1).forEach(level -> names.add(c.name() + "=" + level));
      } else {
        names.add(column.name());
      }
      terms.add(new Term(column.name(), p, own, column));
      p += own;
    }
    columns = p;
    centre = new double[p];
    scale = new double[p];
    z = new double[Math.multiplyExact(cells.count(), p)];
    fill();
  }

  static Design of(Covariates covariates) {
    return new Design(covariates);
  }

  /** Names of covariates that are the same in all rows. */
  static List<String> constant(Covariates covariates) {
    List<String> names = new ArrayList<>();
    for (Column column : covariates.columns()) {
      boolean constant =
          column instanceof Categorical c
              ? c.levels().size() < 2
              : !spreads(((Numeric) column).values());
      if (constant) {
        names.add(column.name());
      }
    }
    return names;
  }

  private static boolean spreads(double[] values) {
    double least = Double.POSITIVE_INFINITY;
    double most = Double.NEGATIVE_INFINITY;
    for (double value : values) {
      least = Math.min(least, value);
      most = Math.max(most, value);
    }
    return most / 2 - least / 2 > NO_SPREAD * Math.max(Math.abs(least), Math.abs(most));
  }

  private void fill() {
    scale[0] = 1;
    for (int c = 0; c < cells.count(); c++) {
      z[c * columns] = 1;
    }
    for (Term term : terms) {
      if (term.column() instanceof Categorical categorical) {
        for (int j = 0; j < term.columns(); j++) {
          scale[term.first() + j] = 1;
        }
        for (int c = 0; c < cells.count(); c++) {
          int code = categorical.codes()[firstRows[c]];
          if (code > 0) {
            z[c * columns + term.first() + code - 1] = 1;
          }
        }
      } else {
        fill(term.first(), ((Numeric) term.column()).values());
      }
    }
  }

  private void fill(int column, double[] values) {
    double most = 0;
    for (int row : firstRows) {
      most = Math.max(most, Math.abs(values[row]));
    }
    double mean = 0;
    for (int row : firstRows) {
      mean += values[row] / most;
    }
    mean /= firstRows.length;
    double square = 0;
    for (int row : firstRows) {
      double from = values[row] / most - mean;
      square += from * from;
    }
    double deviation = Math.sqrt(square / firstRows.length);
    centre[column] = mean * most;
    scale[column] = deviation * most;
    for (int c = 0; c < firstRows.length; c++) {
      z[c * columns + column] = (values[firstRows[c]] / most - mean) / deviation;
    }
  }

  int cells() {
    return cells.count();
  }

  int[] cellOfRows() {
    return cells.ofRows();
  }

  int columns() {
    return columns;
  }

  /** The intercept's name, then those of the other columns. */
  List<String> names() {
    return names;
  }

  List<Term> terms() {
    return terms;
  }

  /** Row by row. */
  double[] matrix() {
    return z;
  }

  double at(int cell, int column) {
    return z[cell * columns + column];
  }

  /** What was taken from a column before it was scaled. */
  double centre(int column) {
    return centre[column];
  }

  /** By what a column was divided. */
  double scale(int column) {
    return scale[column];
  }

  /** Level of a categorical covariate in a cell. */
  int level(Categorical categorical, int cell) {
    return categorical.codes()[firstRows[cell]];
  }

  /** All columns but some that stand side by side. */
  int[] without(int first, int count) {
    int[] keep = new int[columns - count];
    for (int j = 0; j < keep.length; j++) {
      keep[j] = j < first ? j : j + count;
    }
    return keep;
  }

  /** Some columns only, row by row. */
  double[] matrix(int[] keep) {
    double[] part = new double[cells.count() * keep.length];
    for (int c = 0; c < cells.count(); c++) {
      for (int j = 0; j < keep.length; j++) {
        part[c * keep.length + j] = z[c * columns + keep[j]];
      }
    }
    return part;
  }
}

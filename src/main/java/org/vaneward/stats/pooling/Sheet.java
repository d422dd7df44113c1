package org.vaneward.stats.pooling;

import java.util.ArrayList;
import java.util.List;
import org.vaneward.stats.numeric.LogSpace;

/**
 * The posterior density at one log scale of the typical group and one standard deviation between
 * the groups' log scales: a {@link Column} along the typical log shape for each place of the
 * standard deviation between log shapes.
 */
final class Sheet {
  final double m;

  /** One for each group. */
  final ShapeCurve[] curves;

  private final Hyper hyper;
  private final double between;
  private final int[] rules;
  private final Spread shapes;
  private final List<Column> columns = new ArrayList<>();
  private double laplace = Double.NEGATIVE_INFINITY;

  /**
   * The sheet with the modes of its columns.
   *
   * @param near a guess of the mode of the first column
   * @param nearSd a guess of its standard deviation
   */
  Sheet(
      Hyper hyper,
      double m,
      double between,
      int[] rules,
      Spread shapes,
      double near,
      double nearSd) {
    this.hyper = hyper;
    this.m = m;
    this.between = between;
    this.rules = rules;
    this.shapes = shapes;
    curves = hyper.curves(m, between, rules);
    double best = Double.NEGATIVE_INFINITY;
    double b = near;
    double sd = nearSd;
    int last = shapes.lastBelow(hyper.precision.endless * hyper.priors.shapesBetweenScale());
    double mostSd = 2 * (hyper.priors.shapeLogSd() + hyper.priors.shapesBetweenScale());
    for (int place = 0; place <= last; place++) {
      double sigma = shapes.at(place);
      Column column = Column.at(x -> density(x, sigma), b, sd, mostSd, hyper);
      columns.add(column);
      b = column.middle;
      sd = column.sd;
      double weight = columnLaplace(place);
      laplace = LogSpace.logSumExp(laplace, weight + Math.log(shapes.share(place)));
      best = Math.max(best, weight);
      if (weight < best - hyper.precision.nothing) {
        break;
      }
    }
  }

  private double density(double b, double sigma) {
    return hyper.at(curves, rules, b, m, between, sigma);
  }

  /** Log of the sum over the sheet, each column taken as normal. */
  double laplace() {
    return laplace;
  }

  /** Log of the sum over a column taken as normal, its share in the rule left out. */
  double columnLaplace(int place) {
    return column(place).laplace() + shapes.logStretch(place);
  }

  /** A guess for the sheet next to this one. */
  double middle() {
    return columns.get(0).middle;
  }

  double sd() {
    return columns.get(0).sd;
  }

  int size() {
    return columns.size();
  }

  /** The column at a place; the last one beyond it. */
  Column column(int place) {
    return columns.get(Math.min(place, columns.size() - 1));
  }

  /** Works out the columns; roughly where there is next to nothing beside {@code best}. */
  void fill(double best) {
    for (int place = 0; place < columns.size(); place++) {
      double sigma = shapes.at(place);
      Column column = columns.get(place);
      if (columnLaplace(place) < best - hyper.precision.nothing) {
        column.fillRoughly();
      } else {
        column.fill(x -> density(x, sigma));
      }
    }
  }

  /** The sum of the points' weights, each over exp({@code best}). */
  double sum(double best) {
    int side = hyper.side;
    double sum = 0;
    for (int place = 0; place < columns.size(); place++) {
      for (int j = -side; j <= side; j++) {
        sum += shapes.share(place) * Math.exp(logWeight(place, j) - best);
      }
    }
    return sum;
  }

  int points() {
    return columns.size() * (2 * hyper.side + 1);
  }

  /** Log weight of a point, the place's share in the rule left out. */
  double logWeight(int place, int j) {
    return column(place).logWeight(j) + shapes.logStretch(place);
  }
}

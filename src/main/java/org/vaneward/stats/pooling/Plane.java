package org.vaneward.stats.pooling;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.Optional;
import org.vaneward.stats.numeric.LogSpace;

/**
 * The posterior density at one standard deviation between the groups' log scales: a {@link Sheet}
 * at each log scale m of the typical group, m = middle + width z with z whole multiples of {@link
 * Hyper#step}, as far from the best as there is anything.
 */
final class Plane {
  private static final int FARTHEST = 300;

  final double between;
  final double middle;
  final double width;

  /** Rules that settle the groups' integrals hereabouts. */
  final int[] rules;

  private final Hyper hyper;
  private final Spread shapes;
  private final Deque<Sheet> walked = new ArrayDeque<>();
  private List<Sheet> sheets = new ArrayList<>();
  private int first;
  private double laplace = Double.NEGATIVE_INFINITY;
  private double meanZ;
  private double sdZ;

  private Plane(
      Hyper hyper, Spread shapes, double between, double middle, double width, int moreNodes) {
    this.hyper = hyper;
    this.shapes = shapes;
    this.between = between;
    this.middle = middle;
    this.width = width;
    rules = hyper.settle(middle, 3 * width, between);
    for (int s = 0; s < rules.length; s++) {
      rules[s] = Math.min(rules[s] + moreNodes, GroupIntegral.EVENLY);
    }
  }

  /**
   * The plane; empty when the density does not fall within {@value #FARTHEST} steps.
   *
   * @param floor log weight of a sheet, its distance to the next counted in, that is nothing beside
   *     other planes
   * @param moreNodes by how many rules the groups' integrals are better than they settle with
   * @param b a guess of the typical log shape
   * @param sdB a guess of its standard deviation
   */
  static Optional<Plane> of(
      Hyper hyper,
      Spread shapes,
      double between,
      double middle,
      double width,
      int moreNodes,
      double floor,
      double b,
      double sdB) {
    Plane plane = new Plane(hyper, shapes, between, middle, width, moreNodes);
    return plane.walk(floor - plane.logStep(), b, sdB) ? Optional.of(plane) : Optional.empty();
  }

  private boolean walk(double floor, double b, double sdB) {
    walked.add(sheet(0, b, sdB));
    double best = walked.getFirst().laplace();
    for (int side = 1; side >= -1; side -= 2) {
      Sheet from = side > 0 ? walked.getLast() : walked.getFirst();
      double value = from.laplace();
      double before = Double.NEGATIVE_INFINITY;
      for (int k = side;
          value >= Math.max(floor, best - hyper.precision.nothing) || value > before;
          k += side) {
        if (Math.abs(k) > FARTHEST || !(value > Double.NEGATIVE_INFINITY)) {
          return false;
        }
        from = sheet(k, from.middle(), from.sd());
        before = value;
        value = from.laplace();
        best = Math.max(best, value);
        if (side > 0) {
          walked.addLast(from);
        } else {
          walked.addFirst(from);
          first = k;
        }
      }
    }
    sheets = List.copyOf(walked);
    moments();
    return true;
  }

  private Sheet sheet(int k, double b, double sdB) {
    return new Sheet(hyper, m(k), between, rules, shapes, b, sdB);
  }

  private void moments() {
    double sum = 0;
    double squares = 0;
    for (Sheet sheet : sheets) {
      laplace = LogSpace.logSumExp(laplace, sheet.laplace());
    }
    for (int i = 0; i < sheets.size(); i++) {
      double z = hyper.step * (first + i);
      double w = Math.exp(sheets.get(i).laplace() - laplace);
      sum += w * z;
      squares += w * z * z;
    }
    meanZ = sum;
    sdZ = Math.sqrt(Math.max(squares - sum * sum, 0));
    laplace += logStep();
  }

  double m(double k) {
    return middle + width * hyper.step * k;
  }

  /** Log of the distance between two sheets. */
  double logStep() {
    return Math.log(width * hyper.step);
  }

  /** Log of the sum over the plane, each column taken as normal. */
  double laplace() {
    return laplace;
  }

  /** Mean of m, in widths from the middle. */
  double meanZ() {
    return meanZ;
  }

  /** Standard deviation of m, in widths. */
  double sdZ() {
    return sdZ;
  }

  /**
   * Adds the weight of each place of the standard deviation between shapes, each column taken as
   * normal.
   *
   * @param weight of the whole plane
   */
  void addColumns(double weight, double[] byPlace) {
    for (Sheet sheet : sheets) {
      for (int l = 0; l < sheet.size(); l++) {
        byPlace[l] += weight * Math.exp(sheet.columnLaplace(l) + logStep() - laplace);
      }
    }
  }

  /** The sheet whose density is greatest. */
  Sheet best() {
    Sheet best = sheets.get(0);
    for (Sheet sheet : sheets) {
      best = sheet.laplace() > best.laplace() ? sheet : best;
    }
    return best;
  }

  int first() {
    return first;
  }

  int last() {
    return first + sheets.size() - 1;
  }

  /** The sheet at a place; the nearest there is beyond the last. */
  Sheet sheet(int k) {
    return sheets.get(Math.max(0, Math.min(sheets.size() - 1, k - first)));
  }
}

package org.vaneward.stats.pooling;

import java.util.ArrayList;
import java.util.List;

/**
 * The posterior density along log scale m, log shape and standard deviation between groups held:
 * log-concave, on points at m = middle + sd z2 with z2 a whole multiple of {@link Hyper#step}.
 */
final class Column {
  private static final int MOST_STEPS = 60;
  private static final int FARTHEST = 100;
  private static final double PROBE = 0.3;
  private static final double LONGEST_STEP = 4;

  /** Distance from the mode, in standard deviations, that is near enough for a middle. */
  private static final double NEAR = 0.05;

  private final double middle;
  private final double sd;
  private final double peak;
  private int first;
  private double[] logDensity = new double[0];

  private Column(double middle, double sd, double peak) {
    this.middle = middle;
    this.sd = sd;
    this.peak = peak;
  }

  /** A column without points, around the mode. */
  static Column at(
      Hyper hyper, GroupLikelihood.Slice[] slices, double between, double near, double nearSd) {
    double m = near;
    double width = nearSd;
    double peak = Double.NEGATIVE_INFINITY;
    for (int i = 0; i < MOST_STEPS; i++) {
      double probe = PROBE * width;
      double here = hyper.quickLook(slices, m, between);
      double more = hyper.quickLook(slices, m + probe, between);
      double less = hyper.quickLook(slices, m - probe, between);
      double info = (2 * here - more - less) / (probe * probe);
      if (!(info > 0 && info < Double.POSITIVE_INFINITY)) {
        break;
      }
      double step = (more - less) / (2 * probe) / info;
      double longest = LONGEST_STEP * width;
      width = 1 / Math.sqrt(info);
      step = Math.max(-longest, Math.min(longest, step));
      m += step;
      // the parabola's top: the last step is so short that it is as good as a new value
      peak = here + step * step * info / 2;
      if (Math.abs(step) <= NEAR * width) {
        break;
      }
    }
    return new Column(m, width, peak);
  }

  /** Log density at the middle, plus the log of the width. */
  double logPeakWeight() {
    return peak + Math.log(sd);
  }

  double middle() {
    return middle;
  }

  double sd() {
    return sd;
  }

  /** Log scale at {@code z2}. */
  double m(double z2) {
    return middle + sd * z2;
  }

  int first() {
    return first;
  }

  int size() {
    return logDensity.length;
  }

  /** Log density at a point; negative infinity where there is nothing. */
  double logDensity(int j) {
    int i = j - first;
    return i >= 0 && i < logDensity.length ? logDensity[i] : Double.NEGATIVE_INFINITY;
  }

  /**
   * Works out the points, from the middle outwards until the weight has fallen below the floor.
   *
   * @return whether it did before the farthest point allowed
   */
  boolean fill(
      Hyper hyper, GroupLikelihood.Slice[] slices, double between, int[] rules, double floor) {
    double least = floor - Math.log(sd);
    List<Double> up = new ArrayList<>();
    List<Double> down = new ArrayList<>();
    double start = hyper.at(slices, middle, between, rules);
    for (int side = -1; side <= 1; side += 2) {
      double before = start;
      double value = start;
      for (int j = 1; value >= least || value > before; j++) {
        if (j > FARTHEST) {
          return false;
        }
        before = value;
        value = hyper.at(slices, m(side * j * hyper.step), between, rules);
        (side < 0 ? down : up).add(value);
      }
    }
    double[] values = new double[up.size() + down.size() + 1];
    values[down.size()] = start;
    for (int j = 0; j < down.size(); j++) {
      values[down.size() - 1 - j] = down.get(j);
    }
    for (int j = 0; j < up.size(); j++) {
      values[down.size() + 1 + j] = up.get(j);
    }
    trim(-down.size(), values, least);
    return true;
  }

  private void trim(int start, double[] values, double least) {
    int from = 0;
    int to = values.length;
    while (from < to && !(values[from] >= least)) {
      from++;
    }
    while (to > from && !(values[to - 1] >= least)) {
      to--;
    }
    first = start + from;
    logDensity = new double[to - from];
    System.arraycopy(values, from, logDensity, 0, logDensity.length);
  }
}

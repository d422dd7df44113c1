package org.vaneward.stats.pooling;

import java.util.Arrays;

/**
 * Makes the {@link ShapeCurve}s of one group. Log shapes are whole multiples of a spacing that
 * suits the group's number of failures; what depends on the shape alone is worked out once.
 *
 * <p>Not for use by several threads.
 */
final class ShapeNodes {
  /** Log of the greatest shape looked at, and of the least: 100 and a hundredth. */
  static final double FARTHEST = Math.log(100);

  /** Information on log shape in one failure. */
  static final double PER_FAILURE = 1.8;

  /** Standard deviation of log shape taken for a group without failures. */
  private static final double WITHOUT_FAILURES = 0.5;

  /** A group's likelihood is followed as far down as the posterior, and half as far again. */
  private static final double NOTHING = 1.5;

  /** Fewest values on each side of the peak. */
  private static final int FEWEST = 4;

  /** Every so many nodes the whole range is searched when nothing is found nearby. */
  private static final int SEARCH = 16;

  final GroupIntegral integral;

  private final GroupLikelihood group;
  private final Precision precision;
  private final double spacing;
  private final int farthest;
  private final Strip<GroupLikelihood.Slice> slices = new Strip<>();

  /** Where the search started. */
  private int start;

  /** Place of the last peak. */
  private int near;

  ShapeNodes(GroupLikelihood group, Precision precision) {
    this.group = group;
    this.precision = precision;
    integral = new GroupIntegral(group);
    spacing =
        precision.shapeSpacing
            / Math.sqrt(PER_FAILURE * group.failures + 1 / (WITHOUT_FAILURES * WITHOUT_FAILURES));
    farthest = (int) (FARTHEST / spacing);
  }

  GroupLikelihood.Slice slice(double b) {
    return group.slice(b);
  }

  private GroupLikelihood.Slice node(int place) {
    return slices.computeIfAbsent(place, () -> group.slice(place * spacing));
  }

  /** Starts the search for the next peak at a log shape. */
  void startAt(double b) {
    start = Math.max(-farthest, Math.min(farthest, (int) Math.round(b / spacing)));
    near = start;
  }

  /** The rule that settles the integral at the last peak and on both sides of it. */
  int settle(double m, double between) {
    int rule = 0;
    int aside = (int) Math.ceil(3 / precision.shapeSpacing);
    for (int place = near - aside; place <= near + aside; place += aside) {
      rule = Math.max(rule, integral.settle(node(place), m, between, precision.settled));
    }
    return rule;
  }

  /** By how much the value at a log shape changes with a rule of twice as many nodes. */
  double doubled(double b, double m, double between, int rule) {
    int other = Math.min(rule + 1, GroupIntegral.TWICE_EVENLY);
    GroupLikelihood.Slice slice = slice(b);
    double value = integral.compute(slice, m, between, rule);
    return integral.compute(slice, m, between, other) - value;
  }

  /** The curve at a scale of the typical group and a standard deviation between groups. */
  ShapeCurve curve(double m, double between, int rule) {
    Values values = new Values(m, between, rule);
    near = values.peak();
    return values.walk();
  }

  /** Values at one scale and standard deviation. */
  private final class Values {
    final double m;
    final double between;
    final int rule;

    Values(double m, double between, int rule) {
      this.m = m;
      this.between = between;
      this.rule = rule;
    }

    double at(int place) {
      return integral.compute(node(place), m, between, rule);
    }

    /** Uphill from the last peak; where there is nothing, from the best of some far apart. */
    int peak() {
      int place = near;
      double value = at(place);
      if (value == Double.NEGATIVE_INFINITY) {
        for (int i = -farthest; i <= farthest; i += SEARCH) {
          double other = at(i);
          if (other > value) {
            value = other;
            place = i;
          }
        }
      }
      for (int side = -1; side <= 1; side += 2) {
        while (matters(place + side)) {
          double next = at(place + side);
          if (!(next > value)) {
            break;
          }
          value = next;
          place += side;
        }
      }
      return place;
    }

    ShapeCurve walk() {
      double peak = at(near);
      double least = peak - NOTHING * precision.nothing;
      double[] down = side(-1, least, peak);
      double[] up = side(1, least, peak);
      double[] all = new double[down.length + 1 + up.length];
      for (int i = 0; i < down.length; i++) {
        all[down.length - 1 - i] = down[i];
      }
      all[down.length] = peak;
      System.arraycopy(up, 0, all, down.length + 1, up.length);
      return new ShapeCurve(spacing, near - down.length, all);
    }

    private boolean matters(int place) {
      return Math.abs(place) <= farthest && Math.abs(place - start) * spacing <= precision.likely;
    }

    private double[] side(int side, double least, double peak) {
      double[] values = new double[2 * farthest + FEWEST];
      int n = 0;
      double value = Double.POSITIVE_INFINITY;
      while (n < FEWEST || (value > least && matters(near + side * (n + 1)))) {
        value = Math.max(at(near + side * (n + 1)), 2 * least - peak);
        values[n++] = value;
      }
      return Arrays.copyOf(values, n);
    }
  }
}

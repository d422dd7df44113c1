package org.vaneward.stats.fit;

import org.vaneward.stats.fit.ShapeProfile.Point;

/** Looks for the maximum of a profile over all shapes, and for where the profile has dropped. */
final class ShapeSearch {
  /** Shape times spread of log ages below which a shape is as good as 0. */
  private static final double NO_SHAPE = 1e-7;

  /** Shape times spread of log ages above which a shape is as good as infinite. */
  private static final double ENDLESS_SHAPE = 1e9;

  /** Step in log shape when the profile is looked over: hills in log shape are wider than this. */
  private static final double STEP = 0.6;

  /** A Newton step in log shape below this has arrived. */
  private static final double ARRIVED = 1e-13;

  /** Information on log shape, in failures, below which the profile counts as flat. */
  private static final double FLAT = 1e-7;

  /** Slope of a profile, in units of log-likelihood per unit of log shape, that goes nowhere. */
  private static final double LEVEL = 1e-4;

  private static final double LONGEST_STEP = 2;
  private static final int MOST_STEPS = 200;

  private ShapeSearch() {}

  /** What the search found. */
  enum Outcome {
    /** A maximum. */
    PEAK,
    /** The profile rises without end as the shape grows. */
    RISES_WITH_SHAPE,
    /** The profile rises all the way as the shape falls to 0. */
    RISES_TO_ZERO,
    /** The profile is flat: no shape is better than another. */
    FLAT,
    /** Newton's method did not arrive. */
    LOST
  }

  /**
   * End of the search.
   *
   * @param outcome what was found
   * @param logShape where, if a maximum
   * @param point the profile there
   * @param iterations steps taken
   */
  record Found(Outcome outcome, double logShape, Point point, int iterations) {}

  static double lowest(ShapeProfile f) {
    return Math.log(NO_SHAPE / f.spread());
  }

  static double highest(ShapeProfile f) {
    return Math.log(ENDLESS_SHAPE / f.spread());
  }

  static Found maximum(ShapeProfile f) {
    if (f.singlePeaked()) {
      double start = Math.max(lowest(f), Math.min(highest(f), f.start()));
      return climb(f, start, lowest(f), highest(f));
    }
    double low = lowest(f);
    int steps = (int) Math.ceil((highest(f) - low) / STEP);
    int best = -1;
    double most = Double.NEGATIVE_INFINITY;
    for (int i = 0; i <= steps; i++) {
      double value = f.at(low + i * STEP).value();
      if (value > most) {
        most = value;
        best = i;
      }
    }
    if (best <= 0 || best == steps) {
      Outcome edge = best <= 0 ? Outcome.RISES_TO_ZERO : Outcome.RISES_WITH_SHAPE;
      return new Found(edge, Double.NaN, new Point(most, 0, 0), steps);
    }
    double middle = low + best * STEP;
    Found found = climb(f, middle, middle - STEP, middle + STEP);
    return found.outcome() == Outcome.PEAK ? found : named(f, found, most);
  }

  /** What kind of plateau it is that has no peak: one that reaches to an end, or to both. */
  private static Found named(ShapeProfile f, Found found, double most) {
    double level = most - LEVEL * LEVEL;
    boolean left = f.at(lowest(f)).value() >= level;
    boolean right = f.at(highest(f)).value() >= level;
    Outcome outcome =
        left && right
            ? Outcome.FLAT
            : left ? Outcome.RISES_TO_ZERO : right ? Outcome.RISES_WITH_SHAPE : found.outcome();
    return new Found(outcome, found.logShape(), found.point(), found.iterations());
  }

  /** Newton on the slope, kept within a bracket that shrinks with the slope's sign. */
  private static Found climb(ShapeProfile f, double start, double from, double to) {
    double low = from;
    double high = to;
    double s = start;
    double before = Double.POSITIVE_INFINITY;
    for (int i = 1; i <= MOST_STEPS; i++) {
      Point p = f.at(s);
      if (p.slope() > 0) {
        low = s;
      } else {
        high = s;
      }
      double step = step(p);
      double size = Math.abs(step);
      boolean arrived = size <= ARRIVED * (1 + Math.abs(s)) || (size < 1e-9 && size >= before);
      if (arrived || high - low <= ARRIVED * (1 + Math.abs(s))) {
        return new Found(judge(f, p, size), s, p, i);
      }
      before = size;
      double next = s + step;
      s = next > low && next < high ? next : low + (high - low) / 2;
    }
    return new Found(Outcome.LOST, s, f.at(s), MOST_STEPS);
  }

  private static double step(Point p) {
    if (p.curvature() < 0) {
      return Math.max(-LONGEST_STEP, Math.min(LONGEST_STEP, -p.slope() / p.curvature()));
    }
    return p.slope() > 0 ? 1 : -1;
  }

  private static Outcome judge(ShapeProfile f, Point p, double step) {
    if (!(-p.curvature() > FLAT * f.failures())) {
      return Outcome.FLAT;
    }
    return step < 1e-7 ? Outcome.PEAK : Outcome.LOST;
  }

  /**
   * The log shape above or below the maximum at which the profile has dropped by a given amount;
   * infinite when it levels off before.
   */
  static double dropped(ShapeProfile f, Found peak, double drop, boolean above) {
    double side = above ? 1 : -1;
    double target = Math.sqrt(2 * drop);
    double inner = peak.logShape();
    double outer = side * Double.POSITIVE_INFINITY;
    double s = inner + side * Math.min(LONGEST_STEP, target / Math.sqrt(-peak.point().curvature()));
    for (int i = 0; i < MOST_STEPS; i++) {
      Point p = f.at(s);
      double fallen = Math.sqrt(2 * Math.max(peak.point().value() - p.value(), 0));
      if (fallen < target) {
        if (goesNowhere(f, p, s, above)) {
          return outer;
        }
        inner = s;
      } else {
        outer = s;
      }
      // The root of twice the drop is nearly a straight line in log shape.
      double next = s + (target - fallen) * fallen / -p.slope();
      if (!(side * (next - inner) > 0 && side * (outer - next) > 0)) {
        next = Double.isInfinite(outer) ? inner + side * LONGEST_STEP : (inner + outer) / 2;
      } else if (Math.abs(next - s) > LONGEST_STEP) {
        next = s + Math.copySign(LONGEST_STEP, next - s);
      }
      if (Math.abs(next - s) <= 1e-12 * (1 + Math.abs(s)) || s == next) {
        return next;
      }
      s = next;
    }
    return s;
  }

  private static boolean goesNowhere(ShapeProfile f, Point p, double s, boolean above) {
    boolean far = above ? s > highest(f) : s < lowest(f);
    return far && Math.abs(p.slope()) < LEVEL;
  }
}

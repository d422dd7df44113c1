package org.vaneward.stats.regression;

import org.vaneward.stats.numeric.LogSpace;
import org.vaneward.stats.regression.RegressionLikelihood.Derivatives;

/**
 * Climbs a regression's likelihood by Newton's method with step halving, first roughly with moments
 * carried over some way, then finely.
 *
 * <p>With delayed entry there can be several hills: the profile in the shape is then looked over
 * from the start outwards, and the best hill climbed.
 */
final class Climb {
  /** Relative change of shape over which moments are carried on the way. */
  private static final double ROUGH = 0.1;

  /** The same at the end: the remainder is below 1e-16 of a life. */
  static final double FINE = 1e-4;

  /** Squared distance from the top, in standard errors, at which a rough climb has arrived. */
  private static final double NEAR = 1e-6;

  /** The same for a fine one. */
  private static final double ARRIVED = 1e-22;

  /** Below this a full step is sure, and differences of values are mostly rounding. */
  private static final double SURE = 1e-7;

  private static final double LONGEST_IN_SHAPE = 1;
  private static final double LONGEST_IN_K = 5;
  private static final int MOST_STEPS = 1000;
  private static final int MOST_HALVINGS = 60;

  /** Shape times spread of log ages below which a shape is as good as 0. */
  private static final double NO_SHAPE = 1e-7;

  /** Shape times spread of log ages above which a shape is as good as infinite. */
  private static final double ENDLESS_SHAPE = 1e9;

  /** Step in log shape when the profile is looked over: hills in log shape are wider than this. */
  private static final double LOOK = 0.6;

  /** Log-likelihood below the best at which looking further stops. */
  private static final double FAR_BELOW = 200;

  private final RegressionLikelihood f;
  private final double lowest;
  private final double highest;
  private int steps;

  /** What the climb found. */
  enum Outcome {
    /** A stationary point. */
    PEAK,
    /** The likelihood rises as the shape falls to 0. */
    RISES_TO_ZERO,
    /** The likelihood rises as the shape grows. */
    RISES_WITH_SHAPE,
    /** Newton's method did not arrive. */
    LOST
  }

  /**
   * The end of a climb.
   *
   * @param outcome what was found
   * @param at theta, then log shape
   * @param top the likelihood there
   * @param steps Newton steps taken
   */
  @SuppressWarnings("ArrayRecordComponent") // stays within this package
  record Found(Outcome outcome, double[] at, Derivatives top, int steps) {
    double value() {
      return top.value();
    }
  }

  private Climb(RegressionLikelihood f) {
    this.f = f;
    double spread = f.data.spread > 0 ? f.data.spread : 1;
    lowest = Math.log(NO_SHAPE / spread);
    highest = Math.log(ENDLESS_SHAPE / spread);
  }

  /** The maximum over all parameters. */
  static Found maximum(RegressionLikelihood f, double[] start) {
    Climb climb = new Climb(f);
    double[] at = f.data.exposure.hasEntries() ? climb.lookedOver(start) : start.clone();
    climb.up(at, f.columns + 1, ROUGH, NEAR);
    return climb.end(climb.up(at, f.columns + 1, FINE, ARRIVED), at);
  }

  /** The maximum near a start that is on the right hill. */
  static Found near(RegressionLikelihood f, double[] start) {
    Climb climb = new Climb(f);
    double[] at = start.clone();
    climb.up(at, f.columns + 1, ROUGH, NEAR);
    return climb.end(climb.up(at, f.columns + 1, FINE, ARRIVED), at);
  }

  /** The maximum with the shape held at the start's. */
  static Found atShape(RegressionLikelihood f, double[] start) {
    Climb climb = new Climb(f);
    double[] at = start.clone();
    return climb.end(climb.up(at, f.columns, FINE, ARRIVED), at);
  }

  private Found end(boolean arrived, double[] at) {
    double s = at[f.columns];
    Outcome outcome =
        s <= lowest
            ? Outcome.RISES_TO_ZERO
            : s >= highest ? Outcome.RISES_WITH_SHAPE : arrived ? Outcome.PEAK : Outcome.LOST;
    return new Found(outcome, at, f.derivatives(at, FINE), steps);
  }

  /** Moves a point uphill in its first n parameters; whether it arrived. */
  private boolean up(double[] at, int n, double reach, double near) {
    double before = Double.POSITIVE_INFINITY;
    for (int i = 0; i < MOST_STEPS; i++) {
      Derivatives d = f.derivatives(at, reach);
      double[] step = NewtonSystem.step(d.information(), d.gradient(), n);
      double gain = 0;
      for (int j = 0; j < n; j++) {
        gain += step[j] * d.gradient()[j];
      }
      steps++;
      if (gain <= near || (gain < SURE && gain >= before)) {
        if (gain < SURE && near == ARRIVED) {
          add(at, step, 1, n);
        }
        return gain >= 0;
      }
      before = gain < SURE ? gain : Double.POSITIVE_INFINITY;
      double most = longest(step, n);
      if (gain < SURE) {
        add(at, step, most, n);
      } else if (!stepped(at, step, most, n, d.value(), gain, reach)) {
        return gain < Math.sqrt(SURE);
      }
      if (n > f.columns && !(at[f.columns] > lowest && at[f.columns] < highest)) {
        return false;
      }
    }
    return false;
  }

  private boolean stepped(
      double[] at, double[] step, double most, int n, double value, double gain, double reach) {
    double[] from = at.clone();
    double share = most;
    double slack = 1e-13 * (1 + Math.abs(value));
    for (int i = 0; i < MOST_HALVINGS; i++) {
      add(at, step, share, n);
      if (f.value(at, reach) >= value + 1e-4 * share * gain - slack) {
        return true;
      }
      System.arraycopy(from, 0, at, 0, at.length);
      share /= 2;
    }
    return false;
  }

  /** The share of a step that moves neither the shape nor any cell too far at once. */
  private double longest(double[] step, int n) {
    double most = 0;
    for (int c = 0; c < f.data.cells; c++) {
      most = Math.max(most, Math.abs(f.k(step, c)) / LONGEST_IN_K);
    }
    if (n > f.columns) {
      most = Math.max(most, Math.abs(step[f.columns]) / LONGEST_IN_SHAPE);
    }
    return most > 1 ? 1 / most : 1;
  }

  private static void add(double[] at, double[] step, double share, int n) {
    for (int j = 0; j < n; j++) {
      at[j] += share * step[j];
    }
  }

  /** The best point of the profile in the shape, on a grid that starts at the start. */
  private double[] lookedOver(double[] start) {
    double[] best = start.clone();
    up(best, f.columns, FINE, NEAR);
    double[] middle = best.clone();
    double most = f.value(best, FINE);
    for (int side = -1; side <= 1; side += 2) {
      double[] at = middle.clone();
      while (true) {
        double ratio = Math.exp(side * LOOK);
        at[f.columns] += side * LOOK;
        if (!(at[f.columns] > lowest && at[f.columns] < highest)) {
          break;
        }
        for (int j = 0; j < f.columns; j++) {
          at[j] *= ratio;
        }
        up(at, f.columns, FINE, NEAR);
        double value = f.value(at, FINE);
        if (value > most) {
          most = value;
          best = at.clone();
        }
        if (!(value > most - FAR_BELOW)) {
          break;
        }
      }
    }
    return best;
  }

  /** The intercept at which the cells expect as many failures as there are, at a shape. */
  static double[] start(LifeCells data, double shape, int columns) {
    double[] moments = data.exposure.moments(shape, ROUGH);
    double log = Double.NEGATIVE_INFINITY;
    for (int c = 0; c < data.cells; c++) {
      double m0 = moments[Exposure.MOMENTS * c];
      if (m0 > 0) {
        double term = shape * (data.exposure.top(c) - data.centre) + Math.log(m0);
        log = LogSpace.logSumExp(log, term);
      }
    }
    double[] at = new double[columns + 1];
    at[0] = log - Math.log(data.failures);
    at[columns] = Math.log(shape);
    return at;
  }
}

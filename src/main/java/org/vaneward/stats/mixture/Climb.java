package org.vaneward.stats.mixture;

import java.util.Optional;
import org.vaneward.stats.numeric.SpdMatrix;

/**
 * A climb from one start: some EM steps, then Newton's method on the likelihood itself with
 * analytic derivatives, damped (Levenberg–Marquardt) until it arrives or runs off.
 */
final class Climb {
  private static final int EM_STEPS = 12;
  private static final int MOST_STEPS = 300;

  /** A Newton step shorter than this has arrived. */
  private static final double ARRIVED = 1e-9;

  /** Largest gradient component per failure that counts as none. */
  static final double STEEPEST = 1e-8;

  /** Smallest eigenvalue of the information scaled to unit diagonal that counts as none. */
  static final double FLATTEST = 1e-10;

  /** Share below which a component has vanished. */
  private static final double NO_SHARE = 1e-7;

  /** Failures below which a component has none. */
  private static final double NO_FAILURES = 1e-4;

  /** A shape so many times that of one Weibull, or so many times less, is endless or none. */
  private static final double ENDLESS = Math.log(1e6);

  /** Effective number of distinct ages below which a component has closed on one. */
  private static final double ONE_AGE = 1.5;

  /** Gradient per failure below which a climb that does not arrive is on a plateau. */
  private static final double PLATEAU = 1e-5;

  /** Steps in a row without gain after which a climb has come to its end. */
  private static final int MOST_IDLE = 12;

  private static final double LONGEST = 2;

  private Climb() {}

  /** Where a climb may end. */
  enum End {
    /** An interior maximum, proved. */
    MAXIMUM,
    /** A component closes on one failure age (or one interval). */
    CLOSES,
    /** A component rests on fewer failures than asked for. */
    THIN,
    /** A component holds survivors only: a share that never fails. */
    NEVER_FAILS,
    /** The share of a component goes to nothing. */
    VANISHES,
    /** On a plateau: another shape or scale of a component does as well. */
    FLAT,
    /** Neither arrived nor ran off. */
    LOST
  }

  /**
   * End of a climb.
   *
   * @param step largest component of the Newton step still to take
   */
  record Found(End end, Point point, double value, int iterations, double step) {}

  /**
   * What ends are told apart by.
   *
   * @param leastFailures failures on which each component must rest
   * @param logShape log shape of one Weibull fitted to the same lives
   */
  record Rules(double leastFailures, double logShape) {
    boolean endless(double other) {
      return other - logShape > ENDLESS;
    }
  }

  static Found from(Point start, MixtureLikelihood likelihood, Rules rules) {
    Point at = new EmStep(likelihood).run(start, EM_STEPS);
    double lambda = 1e-3;
    double step = Double.POSITIVE_INFINITY;
    MixtureLikelihood.At d = likelihood.derivatives(at);
    int k = 0;
    int idle = 0;
    for (; k < MOST_STEPS && idle < MOST_IDLE && !gone(at, d, rules); k++) {
      step = newtonStep(at, d);
      if (step < ARRIVED) {
        break;
      }
      Optional<Point> next = Optional.empty();
      while (next.isEmpty() && lambda < 1e12) {
        next = better(likelihood, at, d, lambda);
        lambda = next.isPresent() ? lambda / 10 : Math.max(lambda * 4, 1e-6);
      }
      if (next.isEmpty()) {
        break;
      }
      lambda = lambda < 1e-10 ? 0 : lambda;
      at = next.get();
      double before = d.value;
      d = likelihood.derivatives(at);
      idle = d.value - before > 1e-11 * (1 + Math.abs(before)) ? 0 : idle + 1;
    }
    return new Found(end(likelihood, at, d, step, rules), at, d.value, k, step);
  }

  private static double newtonStep(Point at, MixtureLikelihood.At d) {
    return SpdMatrix.of(damped(d, 0))
        .map(information -> at.length(information.solve(d.gradient)))
        .orElse(Double.POSITIVE_INFINITY);
  }

  /** The damped step, if it leads up (or, at the top, nowhere but by rounding). */
  private static Optional<Point> better(
      MixtureLikelihood likelihood, Point at, MixtureLikelihood.At d, double lambda) {
    Optional<SpdMatrix> information = SpdMatrix.of(damped(d, lambda));
    if (information.isEmpty()) {
      return Optional.empty();
    }
    double[] step = information.get().solve(d.gradient);
    Point next = at.plus(step, Math.min(1, LONGEST / at.length(step)));
    double rounding = at.length(step) < 1e-4 ? 1e-13 * (1 + Math.abs(d.value)) : 0;
    return likelihood.value(next) >= d.value - rounding ? Optional.of(next) : Optional.empty();
  }

  private static double[][] damped(MixtureLikelihood.At d, double lambda) {
    int n = d.gradient.length;
    double[][] matrix = new double[n][n];
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < n; j++) {
        matrix[i][j] = -d.hessian[i][j];
      }
      matrix[i][i] += lambda * (Math.abs(d.hessian[i][i]) + 1e-6);
    }
    return matrix;
  }

  /** Whether a point is beyond where a maximum is looked for. */
  private static boolean gone(Point p, MixtureLikelihood.At d, Rules rules) {
    double share = p.share();
    return !(d.value > Double.NEGATIVE_INFINITY)
        || Math.min(share, 1 - share) < NO_SHARE
        || Math.min(d.failures1, d.failures2) < NO_FAILURES
        || rules.endless(Math.max(p.logShape1(), p.logShape2()))
        || rules.logShape() - Math.min(p.logShape1(), p.logShape2()) > ENDLESS;
  }

  private static End end(
      MixtureLikelihood likelihood, Point p, MixtureLikelihood.At d, double step, Rules rules) {
    double share = p.share();
    if (Math.min(share, 1 - share) < NO_SHARE) {
      return End.VANISHES;
    }
    double fewest = Math.min(d.failures1, d.failures2);
    if (fewest < NO_FAILURES) {
      return End.NEVER_FAILS;
    }
    if (rules.endless(Math.max(p.logShape1(), p.logShape2()))
        || likelihood.distinctAges(p, true) < ONE_AGE
        || likelihood.distinctAges(p, false) < ONE_AGE) {
      return End.CLOSES;
    }
    if (fewest < rules.leastFailures()) {
      return End.THIN;
    }
    boolean proved =
        step < ARRIVED
            && steepest(d) / likelihood.rows.failures <= STEEPEST
            && flattest(d) >= FLATTEST
            && p.holdable(likelihood.rows.centre);
    if (proved) {
      return End.MAXIMUM;
    }
    return steepest(d) / likelihood.rows.failures <= PLATEAU ? End.FLAT : End.LOST;
  }

  static double steepest(MixtureLikelihood.At d) {
    double steepest = 0;
    for (double g : d.gradient) {
      steepest = Math.max(steepest, Math.abs(g));
    }
    return steepest;
  }

  static double flattest(MixtureLikelihood.At d) {
    return SpdMatrix.of(damped(d, 0)).map(SpdMatrix::smallestEigenvalue).orElse(0.0);
  }

  static Optional<SpdMatrix> information(MixtureLikelihood.At d) {
    return SpdMatrix.of(damped(d, 0));
  }
}

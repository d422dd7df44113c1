package org.vaneward.stats.pooling;

import org.apache.commons.numbers.gamma.Erfc;
import org.apache.commons.rng.UniformRandomProvider;
import org.vaneward.stats.numeric.GaussHermite;

/**
 * The likelihood of one group with its own effect integrated out: the integral over v of L(mean +
 * sd v) times the standard normal density, L being the group's likelihood as a function of its log
 * scale.
 *
 * <p>The logarithm g of the integrand is concave, with a curvature of at least 1; its mode is found
 * by Newton's method and the Gauss–Hermite rule is laid around it, scaled by the curvature there
 * (adaptive quadrature; J. C. Naylor and A. F. M. Smith, Applied Statistics 31, 1982, 214-225, from
 * memory). Where the likelihood cuts the normal density off sharply, as it does for a group without
 * failures when groups differ much, no rule of modest size settles; {@link Survivors} take its
 * place, or evenly spaced nodes, fine enough for that cut.
 *
 * <p>Holds its last result. Not for use by several threads.
 */
final class GroupIntegral {
  /** Most nodes of a Gauss–Hermite rule. */
  static final int MOST_NODES = 80;

  private static final GaussHermite[] RULES = {
    GaussHermite.of(10), GaussHermite.of(20), GaussHermite.of(40), GaussHermite.of(MOST_NODES)
  };

  /** The place after the last rule: evenly spaced nodes. */
  static final int EVENLY = RULES.length;

  /** Twice as many evenly spaced nodes, as a check. */
  static final int TWICE_EVENLY = EVENLY + 1;

  /** Widest spacing of even nodes, in prior standard deviations. */
  private static final double WIDEST = 0.5;

  /** Their spacing in k. */
  private static final double FINE = 0.25;

  /** An integrand this much below its peak, on the log scale, adds nothing. */
  private static final double NOTHING = 40;

  /** Size of the last Newton step, in widths of the peak, with which the mode is found. */
  private static final double ARRIVED = 1e-7;

  /** Greatest fall of k in one step: beyond, the hazard would grow out of hand. */
  private static final double MOST_FALL = 3;

  /** A slope so steep that the integral is 0 as a double. */
  private static final double HOPELESS = 1e100;

  /** Steps so short that the sum over a flat likelihood is known without walking it. */
  private static final double SHORT = 0.05;

  /** A slope in k of the log-likelihood that is none, where it only flattens. */
  private static final double FLAT = 1e-10;

  private static final int MOST_STEPS = 200;
  private static final double LOG_ROOT_2_PI = Math.log(2 * Math.PI) / 2;

  private GroupLikelihood.Slice slice;

  /** Mean and standard deviation of k, what the likelihood is a function of. */
  private double meanK;

  private double sdK;

  /** Where the integrand is greatest. */
  private double mode;

  private double peak;
  private double width;

  /** Log of the integral. */
  double logIntegral;

  /** Observed information on v in the likelihood alone, at the mode. */
  double information;

  GroupIntegral(GroupLikelihood group) {
    slice = group.slice(0);
  }

  /** The nodes of a Gauss–Hermite rule; 0 for evenly spaced ones. */
  static int nodes(int rule) {
    return rule < EVENLY ? RULES[rule].size() : 0;
  }

  /**
   * The log integral.
   *
   * @param at the group's likelihood at a shape
   * @param mean log scale of the typical group
   * @param sd standard deviation between groups, at least 0
   * @param rule from 0 to {@link #TWICE_EVENLY}
   */
  double compute(GroupLikelihood.Slice at, double mean, double sd, int rule) {
    prepare(at, mean, sd);
    return integrate(rule);
  }

  /** The least rule whose double agrees with it so closely, on the log scale, doubled. */
  int settle(GroupLikelihood.Slice at, double mean, double sd, double closely) {
    prepare(at, mean, sd);
    double before = integrate(0);
    for (int rule = 1; rule < EVENLY; rule++) {
      double now = integrate(rule);
      if (Math.abs(now - before) <= closely) {
        return rule;
      }
      before = now;
    }
    return EVENLY;
  }

  private void prepare(GroupLikelihood.Slice at, double mean, double sd) {
    slice = at;
    meanK = at.shape * (mean - at.centre());
    sdK = at.shape * sd;
    findMode();
  }

  private double integrate(int rule) {
    if (peak == Double.NEGATIVE_INFINITY) {
      logIntegral = peak;
      return peak;
    }
    if (rule >= EVENLY && slice.isFlatAbove() && sdK >= Survivors.LEAST_SD) {
      logIntegral = Survivors.logChance(slice.logRunSum - meanK, sdK, rule == TWICE_EVENLY);
      return logIntegral;
    }
    double sum = rule < EVENLY ? byRule(RULES[rule]) : evenly(rule == EVENLY ? 1 : 0.5);
    logIntegral = peak + Math.log(sum) - LOG_ROOT_2_PI;
    return logIntegral;
  }

  /** Log of the integrand, but for the constant of the normal density. */
  private double log(double v) {
    return slice.valueAt(meanK + sdK * v) - v * v / 2;
  }

  private void findMode() {
    double low = Double.NEGATIVE_INFINITY;
    double high = Double.POSITIVE_INFINITY;
    double v = start();
    for (int i = 0; i < MOST_STEPS; i++) {
      slice.at(meanK + sdK * v);
      double slope = sdK * slice.slope - v;
      double curvature = sdK * sdK * slice.curvature - 1;
      if (!(Math.abs(slope) < HOPELESS && -curvature < HOPELESS)) {
        peak = Double.NEGATIVE_INFINITY;
        return;
      }
      width = 1 / Math.sqrt(-curvature);
      if (slope > 0) {
        low = v;
      } else {
        high = v;
      }
      double step = -slope / curvature;
      if (!(step * sdK >= -MOST_FALL)) {
        step = -MOST_FALL / sdK;
      }
      double next = v + step;
      if (!(next > low && next < high) && high - low < Double.POSITIVE_INFINITY) {
        next = low + (high - low) / 2;
      }
      if (Math.abs(next - v) <= ARRIVED * width || i == MOST_STEPS - 1) {
        break;
      }
      v = next;
    }
    mode = v;
    peak = slice.value - v * v / 2;
    information = -sdK * sdK * slice.curvature;
  }

  /** Where the hazard is not much beyond the failures: from far below Newton would crawl. */
  private double start() {
    double k = slice.logRunSum - Math.log(slice.failures() + 3);
    return meanK >= k || !(sdK > 0) ? 0 : (k - meanK) / sdK * share();
  }

  private double share() {
    double s = sdK * sdK * (slice.failures() + 3);
    return s / (1 + s);
  }

  /** From the middle outwards: beyond the mode the terms only fall. */
  private double byRule(GaussHermite rule) {
    int n = rule.size();
    double step = Math.sqrt(2) * width;
    double sum = 0;
    for (int side = 0; side < 2; side++) {
      for (int j = 0; j < n / 2; j++) {
        int i = side == 0 ? n / 2 + j : n / 2 - 1 - j;
        double fallen = log(mode + step * rule.point(i)) - peak;
        sum += Math.exp(rule.logWeight(i) + fallen);
        if (fallen < -NOTHING) {
          break;
        }
      }
    }
    return step * sum;
  }

  /**
   * The trapezoidal rule: for an integrand without singularities near the real line that vanishes
   * at both ends its error falls exponentially with the number of nodes. Here the nearest ones are
   * where the hazard turns imaginary, at a distance of pi/2 in k.
   */
  private double evenly(double shrink) {
    double step = shrink * Math.min(WIDEST, FINE / (sdK * Math.sqrt(1 + slice.failures() / 10)));
    double sum = 1;
    for (int side = -1; side <= 1; side += 2) {
      boolean flattens = step < SHORT && (side < 0 ? slice.isFlatBelow() : slice.isFlatAbove());
      double fallen = 0;
      for (int j = 1; fallen > -NOTHING; j++) {
        double v = mode + side * j * step;
        fallen = log(v) - peak;
        sum += Math.exp(fallen);
        if (flattens && Math.abs(slice.slope) < FLAT) {
          sum += rest(side * v, step) * Math.exp(slice.value - peak);
          break;
        }
      }
    }
    return step * sum;
  }

  /**
   * What the nodes beyond {@code v} add where the likelihood no longer changes: the tail of the
   * normal density without the half of the last node, by Euler and Maclaurin's formula with the
   * first and third derivatives.
   */
  private static double rest(double v, double step) {
    double tail = Math.sqrt(Math.PI / 2) * Erfc.value(v / Math.sqrt(2));
    double third = step * step * step * v * (v * v - 3) / 720;
    return tail / step - Math.exp(-v * v / 2) * (0.5 - step * v / 12 + third);
  }

  /**
   * A draw of v from the normalised integrand, exact, by the rejection method for log-concave
   * densities with known mode: f(x) is at most f(m) min(1, exp(1 - f(m) |x - m|)) (L. Devroye,
   * Computing 33, 1984, 247-257, from memory). Uses the last result.
   */
  double draw(UniformRandomProvider rng) {
    double top = Math.exp(peak - logIntegral - LOG_ROOT_2_PI);
    while (true) {
      double x = 2 * rng.nextDouble();
      boolean tail = x > 1;
      double out = tail ? 1 - Math.log(rng.nextDouble()) : x;
      double bound = tail ? 1 - out : 0;
      double v = mode + (rng.nextBoolean() ? out : -out) / top;
      if (Math.log(rng.nextDouble()) + bound <= log(v) - peak) {
        return v;
      }
    }
  }
}

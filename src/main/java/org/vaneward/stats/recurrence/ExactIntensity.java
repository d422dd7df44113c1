package org.vaneward.stats.recurrence;

import java.util.OptionalDouble;
import org.apache.commons.statistics.distribution.ChiSquaredDistribution;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.numeric.Quantiles;
import org.vaneward.stats.numeric.Roots;

/**
 * Exact limits of the intensity of a power-law process at its last event, which ended the
 * observation of the only unit.
 *
 * <p>With n events, 2 lambda T^shape is chi-square with 2 n degrees of freedom, and independent of
 * it 2 n shape / estimate is chi-square with 2 n - 2. The intensity over its estimate is their
 * product over 4 n², whatever shape and lambda are, so the quantiles of that product give limits.
 * (L. Lee and S. K. Lee, Technometrics 20, 1978, 195–199, from memory; the law is derived above.)
 */
final class ExactIntensity {
  /** What is left of the second law outside the range that is summed over, on each side. */
  private static final double OUTSIDE = 1e-14;

  /** Steps of the sum for each standard deviation of the log of the second law. */
  private static final int FINENESS = 4;

  private final ChiSquaredDistribution one;
  private final double[] logOther;
  private final double[] weight;

  private ExactIntensity(int events) {
    double freedom = 2.0 * events - 2;
    one = ChiSquaredDistribution.of(2.0 * events);
    ChiSquaredDistribution other = ChiSquaredDistribution.of(freedom);
    double from = Math.log(Quantiles.chiSquare(OUTSIDE, freedom));
    double to = Math.log(Quantiles.chiSquare(1 - OUTSIDE, freedom));
    int steps = (int) Math.ceil((to - from) * FINENESS * Math.sqrt(freedom / 2));
    logOther = new double[steps + 1];
    weight = new double[steps + 1];
    double total = 0;
    for (int i = 0; i <= steps; i++) {
      logOther[i] = from + (to - from) * i / steps;
      weight[i] = Math.exp(other.logDensity(Math.exp(logOther[i])) + logOther[i]);
      total += weight[i];
    }
    for (int i = 0; i <= steps; i++) {
      weight[i] /= total;
    }
  }

  static Estimate of(double intensity, int events, double confidence) {
    ExactIntensity law = new ExactIntensity(events);
    double whole = 4.0 * events * events;
    double tail = (1 - confidence) / 2;
    double low = law.logQuantile(tail, 2.0 * events);
    double high = law.logQuantile(1 - tail, 2.0 * events);
    return new Estimate(
        intensity, intensity * Math.exp(low) / whole, intensity * Math.exp(high) / whole);
  }

  /** The trapezoidal rule in the log of the second factor: its error falls like e^(-1 / step²). */
  private double share(double logProduct) {
    double sum = 0;
    for (int i = 0; i < weight.length; i++) {
      sum += weight[i] * one.cumulativeProbability(Math.exp(logProduct - logOther[i]));
    }
    return sum;
  }

  /** Both factors below (above) a quantile of half the tail is less likely than the tail. */
  private double logQuantile(double p, double freedom) {
    double low = Quantiles.chiSquare(p / 2, freedom);
    double lowOther = Quantiles.chiSquare(p / 2, freedom - 2);
    double high = Quantiles.chiSquare((1 + p) / 2, freedom);
    double highOther = Quantiles.chiSquare((1 + p) / 2, freedom - 2);
    OptionalDouble root =
        Roots.between(
            x -> share(x) - p,
            Math.log(low) + Math.log(lowOther),
            Math.log(high) + Math.log(highOther));
    return root.orElse(p < 0.5 ? Double.NEGATIVE_INFINITY : Double.POSITIVE_INFINITY);
  }
}

package org.vaneward.stats.renewal;

import java.math.BigDecimal;
import java.math.MathContext;
import org.apache.commons.numbers.gamma.LogGamma;

/**
 * M as a power series in x = t^shape: sum of (-1)^(k-1) A_k x^k / Gamma(1 + k shape), with A_k =
 * c_k - sum over j below k of c_j A_(k-j), c_k = Gamma(1 + k shape) / k! (Smith and Leadbetter,
 * Technometrics 5, 1963). Sums in decimal numbers, for the terms cancel.
 */
final class PowerSeries {
  private static final MathContext DIGITS = new MathContext(40);

  private PowerSeries() {}

  static double at(double shape, double x) {
    int terms = 60;
    // a_k = A_k / Gamma(1 + k shape), in doubles: the terms are of the order x^k / k!.
    double[] logC = new double[terms + 1];
    double[] a = new double[terms + 1];
    for (int k = 1; k <= terms; k++) {
      logC[k] = LogGamma.value(1 + k * shape) - LogGamma.value(1.0 + k);
    }
    BigDecimal sum = BigDecimal.ZERO;
    for (int k = 1; k <= terms; k++) {
      double gamma = LogGamma.value(1 + k * shape);
      double total = Math.exp(logC[k] - gamma);
      for (int j = 1; j < k; j++) {
        total -= Math.exp(logC[j] + LogGamma.value(1 + (k - j) * shape) - gamma) * a[k - j];
      }
      a[k] = total;
      BigDecimal term =
          new BigDecimal(total, DIGITS).multiply(new BigDecimal(x, DIGITS).pow(k, DIGITS), DIGITS);
      sum = k % 2 == 1 ? sum.add(term, DIGITS) : sum.subtract(term, DIGITS);
    }
    return sum.doubleValue();
  }
}

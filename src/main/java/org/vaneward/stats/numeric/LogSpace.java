package org.vaneward.stats.numeric;

/** Sums and differences of numbers known by their logarithms. */
public final class LogSpace {
  private static final double LOG_2 = Math.log(2);

  private LogSpace() {}

  /**
   * log(1 - exp(-x)) for {@code x >= 0}, without loss at either end (M. Mächler, Accurately
   * computing log(1 - exp(-|a|)), 2012).
   */
  public static double log1mExp(double x) {
    return x <= LOG_2 ? Math.log(-Math.expm1(-x)) : Math.log1p(-Math.exp(-x));
  }

  /** log(exp(a) - exp(b)) for {@code a >= b}; negative infinity when they are equal. */
  public static double logDiffExp(double a, double b) {
    return a == b ? Double.NEGATIVE_INFINITY : a + log1mExp(a - b);
  }

  /** log(exp(a) + exp(b)). */
  public static double logSumExp(double a, double b) {
    double top = Math.max(a, b);
    if (Math.abs(top) == Double.POSITIVE_INFINITY) {
      return top;
    }
    return top + Math.log1p(Math.exp(-Math.abs(a - b)));
  }
}

package org.vaneward.stats.regression;

import java.util.Arrays;
import org.vaneward.stats.Observation;
import org.vaneward.stats.Observation.Exact;
import org.vaneward.stats.Observation.Interval;
import org.vaneward.stats.Observation.RightCensored;
import org.vaneward.stats.Observations;
import org.vaneward.stats.regression.Covariates.Categorical;
import org.vaneward.stats.regression.Covariates.Column;
import org.vaneward.stats.regression.Covariates.Numeric;
import org.vaneward.stats.regression.RegressionFit.Fitted;

/**
 * Residuals of a regression: every age of every life replaced by its fitted cumulative hazard, (age
 * / scale)^shape. If the regression holds, they are lives from the exponential distribution of mean
 * 1, censored and entered late as the lives are (D. R. Cox and E. J. Snell, Journal of the Royal
 * Statistical Society B 30, 1968, 248–275): their product-limit curve shows whether it does, over
 * all lives or over those of one level.
 */
public final class CoxSnell {
  private CoxSnell() {}

  /**
   * The residuals, in the order of the lives.
   *
   * @param lives the lives that were fitted
   * @param covariates those of the fit; levels it did not have are refused
   * @throws IllegalArgumentException when rows or covariates do not match
   */
  public static Observations residuals(Observations lives, Covariates covariates, Fitted fit) {
    double[] logScale = logScale(covariates, fit);
    if (lives.size() != logScale.length) {
      throw new IllegalArgumentException(
          "covariates have " + logScale.length + " rows, lives " + lives.size());
    }
    Observations.Builder builder = Observations.builder();
    for (int i = 0; i < logScale.length; i++) {
      builder.add(residual(lives, i, fit.shape().estimate(), logScale[i]));
    }
    return builder.build();
  }

  private static Observation residual(Observations lives, int i, double shape, double logScale) {
    double entry = hazard(lives.entry(i), shape, logScale);
    double lower = Math.max(entry, hazard(lives.lower(i), shape, logScale));
    double count = lives.count(i);
    // An age so far below its scale that its hazard is 0 as a number still comes after its entry.
    double end = Math.max(lower, Math.nextUp(entry));
    if (lives.isExact(i)) {
      return new Exact(entry, end, count);
    }
    if (lives.isRightCensored(i)) {
      return new RightCensored(entry, end, count);
    }
    double upper = hazard(lives.upper(i), shape, logScale);
    return new Interval(entry, lower, Math.max(upper, Math.nextUp(lower)), count);
  }

  private static double hazard(double age, double shape, double logScale) {
    double hazard = Math.exp(shape * (Math.log(age) - logScale));
    return Math.min(hazard, Double.MAX_VALUE / 2);
  }

  /**
   * Log scale that a fit gives to each row of covariates, those fitted or others of the same names.
   *
   * @throws IllegalArgumentException when the fit has no coefficient for a covariate or a level
   */
  public static double[] logScale(Covariates covariates, Fitted fit) {
    double[] sum = new double[covariates.size()];
    Arrays.fill(sum, fit.coefficients().get(0).value().estimate());
    for (Column column : covariates.columns()) {
      if (column instanceof Numeric numeric) {
        double slope = fit.coefficient(numeric.name()).value().estimate();
        for (int i = 0; i < sum.length; i++) {
          sum[i] += slope * numeric.values()[i];
        }
      } else {
        Categorical categorical = (Categorical) column;
        double[] steps = steps(categorical, fit);
        for (int i = 0; i < sum.length; i++) {
          sum[i] += steps[categorical.codes()[i]];
        }
      }
    }
    return sum;
  }

  private static double[] steps(Categorical categorical, Fitted fit) {
    return categorical.levels().stream()
        .map(level -> categorical.name() + "=" + level)
        .mapToDouble(
            term -> fit.references().contains(term) ? 0 : fit.coefficient(term).value().estimate())
        .toArray();
  }
}

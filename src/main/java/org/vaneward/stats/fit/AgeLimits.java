package org.vaneward.stats.fit;

import java.util.ArrayList;
import java.util.List;
import org.vaneward.stats.Estimate;
import org.vaneward.stats.fit.WeibullFit.Quantile;

/** Two-sided limits of what the fit of any family says of ages. */
interface AgeLimits {
  /** Age by which the share {@code p} has failed. */
  Estimate quantile(double p);

  /** Share that outlives an age. */
  Estimate survival(double age);

  /** Mean life. */
  Estimate mean();

  /**
   * Shares that outlive some ages.
   *
   * @throws IllegalArgumentException when an age is not positive and finite
   */
  default List<Estimate> survivals(double... ages) {
    List<Estimate> estimates = new ArrayList<>(ages.length);
    for (double age : ages) {
      if (!(age > 0 && age < Double.POSITIVE_INFINITY)) {
        throw new IllegalArgumentException("an age is positive and finite, not " + age);
      }
      estimates.add(survival(age));
    }
    return List.copyOf(estimates);
  }

  /** Ages by which some shares have failed. */
  default List<Quantile> quantiles(double... shares) {
    List<Quantile> quantiles = new ArrayList<>(shares.length);
    for (double p : shares) {
      quantiles.add(new Quantile(p, quantile(p)));
    }
    return List.copyOf(quantiles);
  }
}

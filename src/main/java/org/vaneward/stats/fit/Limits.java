package org.vaneward.stats.fit;

import org.vaneward.stats.Estimate;

/** Two-sided limits of what a Weibull fit says. */
interface Limits {
  Estimate shape();

  Estimate scale();

  /** Age by which the share {@code p} has failed. */
  Estimate quantile(double p);

  /** Share that outlives an age. */
  Estimate survival(double age);
}

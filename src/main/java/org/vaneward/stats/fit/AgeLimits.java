package org.vaneward.stats.fit;

import org.vaneward.stats.Estimate;

/** Two-sided limits of what the fit of any family says of ages. */
interface AgeLimits {
  /** Age by which the share {@code p} has failed. */
  Estimate quantile(double p);

  /** Share that outlives an age. */
  Estimate survival(double age);

  /** Mean life. */
  Estimate mean();
}

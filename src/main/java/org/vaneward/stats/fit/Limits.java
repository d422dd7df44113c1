package org.vaneward.stats.fit;

import org.vaneward.stats.Estimate;

/** Two-sided limits of what a Weibull fit says. */
interface Limits extends AgeLimits {
  Estimate shape();

  Estimate scale();
}

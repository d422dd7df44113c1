package org.vaneward.stats.recurrence;

import org.vaneward.stats.Estimate;

/** Two-sided limits of what a power-law fit says. */
interface PowerLawLimits {
  Estimate shape();

  Estimate scale();

  /** Events for each unit of age, at an age. */
  Estimate intensity(double age);

  /** Mean number of events by an age. */
  Estimate meanCount(double age);
}

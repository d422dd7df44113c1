package org.vaneward.stats.distribution;

import java.util.Locale;

/** The families of life distributions a single group can be fitted with. */
public enum Family {
  /** {@link Weibull}: failure rate that rises, stays or falls with age as a power of it. */
  WEIBULL,
  /** {@link Lognormal}: failure rate that rises and then falls. */
  LOGNORMAL,
  /** {@link Exponential}: failure rate that does not depend on age. */
  EXPONENTIAL;

  /** The name in lower case, for text. */
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }
}

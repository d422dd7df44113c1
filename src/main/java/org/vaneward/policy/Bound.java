package org.vaneward.policy;

/** What sets the time of a planned rebuild. */
public enum Bound {
  /** Least cost. */
  COST("cost"),
  /** The ceiling on the chance of a failure. */
  FAILURE_PROBABILITY("failure-probability"),
  /** The longest interval allowed. */
  MANDATED("mandated"),
  /** Nothing: there is no planned rebuild. */
  NONE("none");

  private final String key;

  Bound(String key) {
    this.key = key;
  }

  /** The word in machine-readable output. */
  public String key() {
    return key;
  }
}

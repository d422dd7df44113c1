package org.vaneward.backtest;

/** Simple ways to forecast that a better one has to beat. */
public enum Rival {
  /** All stops on record over all running on record, for every pump alike. */
  FLEET_RATE("fleet-rate", "one rate for the whole fleet"),
  /** One rate up to a fixed interval since the last full rebuild, another past it. */
  FIXED_INTERVAL("fixed-interval", "a fixed interval: one rate before it, one past it"),
  /** As many stops as in the last twelve months, in the same pumps. */
  LAST_YEAR("last-year", "last year repeated");

  private final String key;
  private final String words;

  Rival(String key, String words) {
    this.key = key;
    this.words = words;
  }

  /** The name in machine-readable output. */
  public String key() {
    return key;
  }

  /** The name in words. */
  public String words() {
    return words;
  }
}

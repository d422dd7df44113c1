package org.vaneward.spares;

/**
 * How far and how often to look ahead.
 *
 * @param months how many months, at least 1
 * @param futures how many futures are drawn, at least 1
 * @param seed of the random numbers
 */
public record DemandRequest(int months, int futures, long seed) {
  /** Months unless told otherwise. */
  public static final int MONTHS = 24;

  /** Futures unless told otherwise. */
  public static final int FUTURES = 10_000;

  /** Checks. */
  public DemandRequest {
    if (months < 1 || futures < 1) {
      throw new IllegalArgumentException(
          "at least 1 month and 1 future are wanted, not " + months + " and " + futures);
    }
  }

  /** Two years, ten thousand futures. */
  public static DemandRequest plain(long seed) {
    return new DemandRequest(MONTHS, FUTURES, seed);
  }
}

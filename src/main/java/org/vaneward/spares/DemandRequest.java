package org.vaneward.spares;

/**
 * How far and how often to look ahead.
 *
 * @param months how many months, 1 to {@value #MOST_MONTHS}
 * @param futures how many futures are drawn, at least 1
 * @param seed of the random numbers
 */
public record DemandRequest(int months, int futures, long seed) {
  /** Months unless told otherwise. */
  public static final int MONTHS = 24;

  /** Months at most. */
  public static final int MOST_MONTHS = 120;

  /** Futures unless told otherwise, of a fleet that is not large. */
  public static final int FUTURES = 10_000;

  /** Futures of the largest fleets. */
  public static final int FEWEST = 2000;

  /** Pumps times futures beyond which a fleet counts as large. */
  private static final int PUMP_FUTURES = 2_000_000;

  /** Checks. */
  public DemandRequest {
    if (months < 1 || months > MOST_MONTHS) {
      throw new IllegalArgumentException(
          "months ahead are 1 to " + MOST_MONTHS + ", not " + months);
    }
    if (futures < 1) {
      throw new IllegalArgumentException("at least 1 future is wanted, not " + futures);
    }
  }

  /** Two years, and as many futures as the fleet's size asks for. */
  public static DemandRequest plain(long seed, int pumps) {
    return new DemandRequest(MONTHS, FUTURES, seed).forFleetOf(pumps);
  }

  /**
   * The same with no more futures than a fleet of so many pumps needs: {@value #FUTURES} up to 200
   * pumps, then fewer in proportion, never fewer than {@value #FEWEST}. The demand of many pumps
   * scatters less for its size than that of a few, and so does a quantile drawn from it.
   */
  public DemandRequest forFleetOf(int pumps) {
    int enough = Math.max(FEWEST, PUMP_FUTURES / Math.max(1, pumps));
    return new DemandRequest(months, Math.min(futures, enough), seed);
  }
}

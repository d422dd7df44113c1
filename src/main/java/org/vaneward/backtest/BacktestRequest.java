package org.vaneward.backtest;

import java.util.OptionalDouble;

/**
 * What to replay, and how finely.
 *
 * @param halfYears at most so many, the latest; at least 1
 * @param futures drawn for each half-year, at least 100
 * @param seed of all random numbers
 * @param confidence of limits, between 0 and 1
 * @param fixedInterval interval of the rival that has one, in the fleet's clock; empty for the
 *     shop's own by habit
 */
public record BacktestRequest(
    int halfYears, int futures, long seed, double confidence, OptionalDouble fixedInterval) {
  /** Half-years unless told otherwise: all that the records reach back to, up to these. */
  public static final int MOST = 40;

  /** Futures unless told otherwise. */
  public static final int FUTURES = 4000;

  /** Checks. */
  public BacktestRequest {
    if (halfYears < 1 || futures < 100 || !(confidence > 0 && confidence < 1)) {
      throw new IllegalArgumentException(
          "at least 1 half-year, 100 futures and a confidence between 0 and 1 are wanted, not "
              + halfYears
              + ", "
              + futures
              + ", "
              + confidence);
    }
    if (fixedInterval.isPresent() && !(fixedInterval.getAsDouble() > 0)) {
      throw new IllegalArgumentException("an interval is positive, not " + fixedInterval);
    }
  }

  /** All half-years there are, limits of 90%. */
  public static BacktestRequest plain(long seed) {
    return new BacktestRequest(MOST, FUTURES, seed, 0.90, OptionalDouble.empty());
  }

  /** The same with limits of another confidence. */
  public BacktestRequest withConfidence(double other) {
    return new BacktestRequest(halfYears, futures, seed, other, fixedInterval);
  }
}

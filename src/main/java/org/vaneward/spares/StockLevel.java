package org.vaneward.spares;

import java.util.OptionalDouble;
import java.util.OptionalInt;

/**
 * What to keep of one kit or loose part. "Ahead" says that what booked rebuilds need is ordered for
 * them in time, so that the shelf has to last unplanned openings only.
 *
 * @param line what
 * @param leadTimeDays days from order to shelf
 * @param price its price; empty when it has none
 * @param orderAt level to order at, with the shelf watched all the time and everything taken from
 *     it; empty when the time looked at holds no lead time
 * @param fillTo level to fill up to at each review, everything taken from the shelf
 * @param orderAtAhead level to order at where booked rebuilds are ordered for ahead
 * @param fillToAhead level to fill up to then
 * @param cheapest level at which holding and waiting together cost least then
 */
public record StockLevel(
    Line line,
    int leadTimeDays,
    OptionalDouble price,
    OptionalInt orderAt,
    OptionalInt fillTo,
    OptionalInt orderAtAhead,
    OptionalInt fillToAhead,
    Cheapest cheapest) {

  /**
   * The level that costs least.
   *
   * @param level how many; empty when no cost of holding or waiting is stated
   * @param holdingPerYear cost of holding what is left on the shelf, a year
   * @param waitingPerYear cost of waiting for what is not there, a year
   */
  public record Cheapest(OptionalInt level, double holdingPerYear, double waitingPerYear) {
    static final Cheapest NOT_KNOWN = new Cheapest(OptionalInt.empty(), 0, 0);
  }
}

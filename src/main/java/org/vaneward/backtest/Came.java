package org.vaneward.backtest;

import java.util.Set;

/**
 * What came in a half-year, in the pumps the forecast spoke of.
 *
 * @param stops unplanned stops
 * @param kits kits fitted
 * @param planned planned rebuilds
 * @param startUps openings for a part that failed on the start-up test: no stops
 * @param stopped pumps that stopped at least once
 */
public record Came(int stops, int kits, int planned, int startUps, Set<String> stopped) {
  public Came {
    stopped = Set.copyOf(stopped);
  }
}

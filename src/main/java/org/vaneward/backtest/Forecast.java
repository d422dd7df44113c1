package org.vaneward.backtest;

import java.util.List;
import org.vaneward.stats.renewal.CountDistribution;

/**
 * What was forecast for a half-year.
 *
 * @param stops unplanned stops of all pumps it speaks of
 * @param chanceOfStop of each pump, in the order of the half-year's pumps: at least one
 */
public record Forecast(CountDistribution stops, List<Double> chanceOfStop) {
  public Forecast {
    chanceOfStop = List.copyOf(chanceOfStop);
  }
}

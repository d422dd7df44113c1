package org.vaneward.backtest;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.vaneward.stats.renewal.CountDistribution;
import org.vaneward.stats.scoring.ForecastScores;
import org.vaneward.stats.scoring.IntegralTransform;

/**
 * A half-year foretold and lived.
 *
 * @param span when
 * @param failures failures on record at its origin
 * @param pumps the pumps it speaks of
 * @param leftOut pumps in service of which too little was known
 * @param forecast what was foretold, the shop carrying on as it had
 * @param kits kits foretold
 * @param planned planned rebuilds foretold
 * @param rivals what simple rivals foretold
 * @param came what came
 * @param advice what was advised for each pump in service
 */
public record HalfYear(
    Span span,
    int failures,
    List<String> pumps,
    int leftOut,
    Forecast forecast,
    CountDistribution kits,
    CountDistribution planned,
    Map<Rival, Forecast> rivals,
    Came came,
    List<Advice> advice) {
  public HalfYear {
    pumps = List.copyOf(pumps);
    rivals = Map.copyOf(rivals);
    advice = List.copyOf(advice);
  }

  /** Where the stops that came stand in those foretold. */
  public IntegralTransform transform() {
    return IntegralTransform.of(forecast.stops(), came.stops());
  }

  /** Whether the stops that came lie within the limits foretold. */
  public boolean stopsWithin(double confidence) {
    return within(forecast.stops(), came.stops(), confidence);
  }

  /** Whether the kits that came lie within the limits foretold. */
  public boolean kitsWithin(double confidence) {
    return within(kits, came.kits(), confidence);
  }

  private static boolean within(CountDistribution foretold, int came, double confidence) {
    return came >= foretold.quantile((1 - confidence) / 2)
        && came <= foretold.quantile((1 + confidence) / 2);
  }

  /** A rival's forecast. */
  public Optional<Forecast> of(Rival rival) {
    return Optional.ofNullable(rivals.get(rival));
  }

  /** The score of a forecast of this half-year. */
  Score score(Forecast of) {
    double brier = 0;
    double log = 0;
    for (int p = 0; p < pumps.size(); p++) {
      boolean stopped = came.stopped().contains(pumps.get(p));
      brier += ForecastScores.brier(of.chanceOfStop().get(p), stopped);
      log += ForecastScores.log(of.chanceOfStop().get(p), stopped);
    }
    return new Score(brier, log, pumps.size(), ForecastScores.crps(of.stops(), came.stops()), 1);
  }
}

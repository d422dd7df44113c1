package org.vaneward.report;

import java.nio.file.Path;
import java.util.function.Consumer;
import org.vaneward.backtest.Backtest;
import org.vaneward.backtest.BacktestRequest;
import org.vaneward.ingest.Ingest;
import org.vaneward.life.LivesTable;
import org.vaneward.model.ServiceModels;
import org.vaneward.stats.pooling.PoolingSettings;

/** A fleet's history replayed. */
public final class Replay {
  private Replay() {}

  /**
   * Replays a fleet that was only read.
   *
   * @param folder where it was read from: it is read again for each half-year
   * @param progress is told, in a few words, how far it has come
   */
  public static Backtest of(
      Path folder, FleetLives fleet, BacktestRequest request, Consumer<String> progress) {
    ServiceModels hindsight =
        ServiceModels.of(
            LivesTable.of(fleet.lives()),
            PoolingSettings.defaults()
                .withConfidence(request.confidence())
                .withDraws(ServiceModels.DRAWS)
                .withSeed(request.seed()));
    return of(folder, fleet, hindsight, request, progress);
  }

  /**
   * Replays a fleet that is analysed.
   *
   * @param folder where it was read from
   * @param progress is told, in a few words, how far it has come
   */
  public static Backtest of(
      Path folder, FleetAnalysis analysis, BacktestRequest request, Consumer<String> progress) {
    return of(folder, analysis.fleet(), analysis.models(), request, progress);
  }

  private static Backtest of(
      Path folder,
      FleetLives fleet,
      ServiceModels hindsight,
      BacktestRequest request,
      Consumer<String> progress) {
    return Backtest.of(
        fleet.records().fleet(),
        day -> Ingest.readAsOf(folder, day).fleet(),
        fleet.lives(),
        hindsight,
        request,
        progress);
  }
}

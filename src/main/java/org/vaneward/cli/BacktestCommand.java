package org.vaneward.cli;

import java.util.OptionalDouble;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.vaneward.backtest.BacktestRequest;
import org.vaneward.io.BadInputException;
import org.vaneward.report.BacktestView;
import org.vaneward.report.FleetLives;
import org.vaneward.report.Replay;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** Replays history against what happened. */
@Command(
    name = "backtest",
    description = {
      "Steps back through the records half-year by half-year, works out with no more than was known"
          + " on that day what would have been foretold and advised, and holds it against what came:"
          + " stops and kits against their limits, chances against simple rules, and what the advice"
          + " would have cost.",
      "An interval of --fixed-interval is compared as a rule of thumb; without it, the one the shop"
          + " has kept."
    })
final class BacktestCommand implements Callable<Integer> {
  private static final int MOST_FUTURES = 100_000;
  private static final int FEWEST_FUTURES = 100;
  private static final int MOST_HALF_YEARS = 200;

  @Mixin private FleetArgument fleet = new FleetArgument();
  @Mixin private Common common = new Common();

  @Option(
      names = "--half-years",
      paramLabel = "N",
      description = "replay the last so many, 1 to 200 (default 40, or as many as there are)")
  private @Nullable Integer halfYears;

  @Option(
      names = "--futures",
      paramLabel = "N",
      description = "futures drawn for each, 100 to 100000 (default 4000)")
  private @Nullable Integer futures;

  @Option(
      names = "--fixed-interval",
      paramLabel = "H",
      description = "fixed interval to compare with, in the fleet's clock, such as the maker's")
  private @Nullable Double fixedInterval;

  @Override
  public Integer call() {
    BacktestRequest request =
        new BacktestRequest(
            Common.between("--half-years", halfYears, BacktestRequest.MOST, 1, MOST_HALF_YEARS),
            Common.between(
                "--futures", futures, BacktestRequest.FUTURES, FEWEST_FUTURES, MOST_FUTURES),
            common.seed(),
            common.confidence(),
            interval());
    common.say("reading " + fleet.folder);
    FleetLives lives = FleetLives.read(fleet.folder, common::say);
    common.deliver(
        new BacktestView(lives.settings(), Replay.of(fleet.folder, lives, request, common::say)));
    return 0;
  }

  private OptionalDouble interval() {
    if (fixedInterval == null) {
      return OptionalDouble.empty();
    }
    if (!(fixedInterval > 0 && fixedInterval < Double.POSITIVE_INFINITY)) {
      throw new BadInputException(
          "--fixed-interval " + fixedInterval + ": an interval is above 0, such as 8000");
    }
    return OptionalDouble.of(fixedInterval);
  }
}

package org.vaneward.study;

import java.nio.file.Path;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.LongStream;
import org.vaneward.backtest.Backtest;
import org.vaneward.backtest.BacktestRequest;
import org.vaneward.backtest.Rival;
import org.vaneward.report.FleetLives;
import org.vaneward.report.Replay;

/**
 * Whether the forecasts of replayed history hold what came as often as they say, over more fleets
 * than the one in {@code sample-fleet}: each fleet is drawn anew and replayed.
 */
public final class BacktestCoverage {
  /** The scenario of the sample fleet, with its planted causes, and the same without them. */
  private static final List<String> SCENARIOS = List.of("depots-six", "depots-plain");

  private static final int FIRST_SEED = 7001;
  private static final int FLEETS = 8;

  private BacktestCoverage() {}

  /** What the replays of one scenario come to. */
  record Tally(
      int halfYears, int stops, int kits, double ours, Map<Rival, Double> rivals, double place) {
    Tally {
      rivals = Map.copyOf(rivals);
    }

    double of(Rival rival) {
      return Optional.ofNullable(rivals.get(rival)).orElseThrow();
    }
  }

  private static Backtest replayed(String scenario, long seed) {
    return DrawnFleet.look(
        Path.of("seeds", scenario + ".json"),
        seed,
        (folder, truth) ->
            Replay.of(folder, FleetLives.read(folder), BacktestRequest.plain(1), said -> {}));
  }

  static Tally tally(String scenario, int fleets) {
    List<Backtest> all =
        LongStream.range(FIRST_SEED, FIRST_SEED + fleets)
            .mapToObj(
                seed -> {
                  Backtest one = replayed(scenario, seed);
                  System.err.println(scenario + ", seed " + seed + " replayed");
                  return one;
                })
            .toList();
    int halfYears = all.stream().mapToInt(b -> b.halfYears().size()).sum();
    Map<Rival, Double> rivals = new EnumMap<>(Rival.class);
    for (Rival rival : Rival.values()) {
      rivals.put(rival, all.stream().mapToDouble(b -> b.of(rival).crpsSum()).sum() / halfYears);
    }
    return new Tally(
        halfYears,
        all.stream().mapToInt(Backtest::stopsWithin).sum(),
        all.stream().mapToInt(Backtest::kitsWithin).sum(),
        all.stream().mapToDouble(b -> b.ours().crpsSum()).sum() / halfYears,
        rivals,
        all.stream()
                .flatMap(b -> b.halfYears().stream())
                .mapToDouble(h -> h.transform().middle())
                .sum()
            / halfYears);
  }

  /** The table, a line for each scenario. */
  public static String text() {
    StringBuilder text = new StringBuilder();
    text.append("| scenario | fleets | half-years | stops within | kits within | mean place |");
    text.append(" score: lives | fleet rate | fixed interval | last year |\n");
    text.append("| --- | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: |\n");
    for (String scenario : SCENARIOS) {
      Tally t = tally(scenario, FLEETS);
      text.append(
          String.format(
              Locale.ROOT,
              "| %s | %d | %d | %.1f%% | %.1f%% | %.2f | %.2f | %.2f | %.2f | %.2f |%n",
              scenario,
              FLEETS,
              t.halfYears(),
              100.0 * t.stops() / t.halfYears(),
              100.0 * t.kits() / t.halfYears(),
              t.place(),
              t.ours(),
              t.of(Rival.FLEET_RATE),
              t.of(Rival.FIXED_INTERVAL),
              t.of(Rival.LAST_YEAR)));
    }
    return text.toString();
  }

  /** Prints the table. */
  public static void main(String[] args) {
    System.out.print(text());
  }
}

package org.vaneward.backtest;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.OptionalDouble;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.vaneward.fleet.Fleet;
import org.vaneward.ingest.Ingest;
import org.vaneward.life.LifeBuilder;
import org.vaneward.life.Lives;
import org.vaneward.life.LivesTable;
import org.vaneward.model.ServiceModels;
import org.vaneward.stats.pooling.PoolingSettings;
import org.vaneward.stats.renewal.CountDistribution;

/** Everything after the origin is altered; what was foretold and advised there stays to the bit. */
class NoLookAheadTest {
  private static final LocalDate ORIGIN = LocalDate.parse("2025-12-31");
  private static final Path SAMPLE = Path.of("sample-fleet");

  @TempDir Path folder = Path.of("");

  @Test
  void nothingAfterTheOriginMovesWhatWasForetoldOrAdvised() throws IOException {
    HalfYear asItWas = last(SAMPLE);
    HalfYear altered = last(altered());
    assertEquals(ORIGIN, asItWas.span().origin());
    assertEquals(asItWas.span(), altered.span());
    assertEquals(asItWas.failures(), altered.failures());
    assertEquals(asItWas.pumps(), altered.pumps());
    assertEquals(asItWas.leftOut(), altered.leftOut());
    same(asItWas.forecast(), altered.forecast());
    assertEquals(chances(asItWas.kits()), chances(altered.kits()));
    assertEquals(chances(asItWas.planned()), chances(altered.planned()));
    for (Rival rival : Rival.values()) {
      same(asItWas.of(rival).orElseThrow(), altered.of(rival).orElseThrow());
    }
    assertEquals(asItWas.advice(), altered.advice());
    assertNotEquals(asItWas.came(), altered.came());
  }

  private static void same(Forecast one, Forecast other) {
    assertEquals(chances(one.stops()), chances(other.stops()));
    assertEquals(one.chanceOfStop(), other.chanceOfStop());
  }

  private static List<Double> chances(CountDistribution count) {
    List<Double> chances = new ArrayList<>();
    for (int k = 0; k <= count.largest(); k++) {
      chances.add(count.chance(k));
    }
    return chances;
  }

  private static HalfYear last(Path fleet) {
    Fleet records = Ingest.read(fleet).fleet();
    Lives lives = LifeBuilder.build(records);
    // Hindsight is no part of a forecast; few draws of it do.
    ServiceModels hindsight =
        ServiceModels.of(LivesTable.of(lives), PoolingSettings.defaults().withDraws(100));
    return Backtest.of(
            records,
            day -> Ingest.readAsOf(fleet, day).fleet(),
            lives,
            hindsight,
            new BacktestRequest(1, 1000, 1, 0.9, OptionalDouble.empty()),
            said -> {})
        .halfYears()
        .get(0);
  }

  /** The sample fleet with another history from the day after the origin on. */
  private Path altered() throws IOException {
    Set<String> later = new HashSet<>();
    copy("fleet.json", line -> List.of(line));
    copy("pumps.csv", line -> List.of(retired(line)));
    copy(
        "services.csv",
        line -> {
          String[] cells = line.split(",", 4);
          return isLater(cells[1])
              ? List.of(cells[0] + "," + cells[1] + ",tallow,loading,,,,")
              : List.of(line);
        });
    copy(
        "readings.csv",
        line -> {
          String[] cells = line.split(",", 4);
          return isLater(cells[1])
              ? List.of(cells[0] + "," + cells[1] + "," + (plain(cells[2]) + 900) + "," + cells[3])
              : List.of(line);
        });
    copy(
        "rebuilds.csv",
        line -> {
          String[] cells = line.split(",", 6);
          if (!isLater(cells[2])) {
            return List.of(line);
          }
          later.add(cells[0]);
          // Every third opening never was; the others came on other days for other reasons.
          return later.size() % 3 == 0
              ? List.of()
              : List.of(String.join(",", cells[0], cells[1], "2026-02-02", "", "seized", cells[5]));
        });
    copy(
        "findings.csv",
        line -> {
          String[] cells = line.split(",", 3);
          return later.contains(cells[0])
              ? List.of(cells[0] + "," + cells[1] + ",failed,yes,,,renewed,,")
              : List.of(line);
        });
    return folder;
  }

  private static double plain(String cell) {
    return cell.isEmpty() ? 0 : Double.parseDouble(cell);
  }

  /** Pumps of one depot leave service after the origin. */
  private static String retired(String line) {
    return line.startsWith("HQ-") && line.endsWith(",") ? line + "2026-03-01" : line;
  }

  private static boolean isLater(String date) {
    return date.matches("\\d{4}-\\d\\d-\\d\\d") && date.compareTo(ORIGIN.toString()) > 0;
  }

  private interface Edit {
    List<String> of(String line);
  }

  private void copy(String file, Edit edit) throws IOException {
    List<String> lines = Files.readAllLines(SAMPLE.resolve(file));
    List<String> out = new ArrayList<>();
    boolean table = file.endsWith(".csv");
    for (int i = 0; i < lines.size(); i++) {
      out.addAll(table && i == 0 ? List.of(lines.get(i)) : edit.of(lines.get(i)));
    }
    Files.write(folder.resolve(file), out);
  }
}

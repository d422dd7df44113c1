package org.vaneward.backtest;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.vaneward.fleet.Fleet;
import org.vaneward.ingest.Ingest;
import org.vaneward.life.Life;
import org.vaneward.life.LifeBuilder;
import org.vaneward.life.Lives;
import org.vaneward.life.LivesTable;
import org.vaneward.life.OpeningMade;
import org.vaneward.life.OpeningMade.Reason;
import org.vaneward.model.ServiceModels;
import org.vaneward.stats.pooling.PoolingSettings;
import org.vaneward.stats.scoring.ReliabilityBin;

/** The sample fleet replayed in full. */
class BacktestTest {
  private static final Fleet RECORDS = Ingest.read(Path.of("sample-fleet")).fleet();
  private static final Lives LIVES = LifeBuilder.build(RECORDS);
  private static final Backtest REPLAYED = InFull.replayed(RECORDS, LIVES);

  /** A class of its own: other threads, which tell of progress, must not wait for the test's. */
  private static final class InFull {
    static Backtest replayed(Fleet records, Lives lives) {
      return Backtest.of(
          records,
          day -> Ingest.readAsOf(Path.of("sample-fleet"), day).fleet(),
          lives,
          ServiceModels.of(LivesTable.of(lives), PoolingSettings.defaults().withDraws(1000)),
          BacktestRequest.plain(1),
          said -> {});
    }
  }

  @Test
  void whatCameLiesWithinTheLimitsAsOftenAsTheySay() {
    double within = REPLAYED.stopsWithin() / (double) REPLAYED.halfYears().size();
    assertTrue(within >= 0.85 && within <= 0.95, "stops: " + within);
    double kits = REPLAYED.kitsWithin() / (double) REPLAYED.halfYears().size();
    assertTrue(kits >= 0.85, "kits: " + kits);
  }

  @Test
  void simpleRulesAreBeatenOnEveryScore() {
    for (Rival rival : Rival.values()) {
      assertEquals(REPLAYED.halfYears().size(), REPLAYED.of(rival).halfYears());
      assertTrue(REPLAYED.ours().crps() < REPLAYED.of(rival).crps(), rival.key());
      assertTrue(REPLAYED.ours().brier() < REPLAYED.of(rival).brier(), rival.key());
      assertTrue(REPLAYED.ours().log() < REPLAYED.of(rival).log(), rival.key());
    }
  }

  @Test
  void chancesOfAStopAreCalibrated() {
    double off = 0;
    List<ReliabilityBin> bins = REPLAYED.calibration();
    for (ReliabilityBin bin : bins) {
      double sd = Math.sqrt(bin.foretold() * (1 - bin.foretold()) / bin.forecasts());
      off += Math.pow((bin.share().estimate() - bin.foretold()) / sd, 2);
    }
    // Chi-square at 0.1% with as many degrees of freedom as there are bins, seven.
    assertEquals(7, bins.size());
    assertTrue(off < 24.3, "chi-square " + off);
  }

  @Test
  void whatCameIsWhatTheRecordsHold() {
    HalfYear last = REPLAYED.halfYears().get(REPLAYED.halfYears().size() - 1);
    long stops =
        LIVES.openings().stream()
            .filter(o -> o.reason() == Reason.STOP && last.span().contains(o.date()))
            .filter(o -> last.pumps().contains(o.pump()))
            .count();
    assertEquals(stops, last.came().stops() + last.came().startUps());
    assertTrue(last.came().stopped().size() <= last.came().stops());
    assertTrue(last.failures() > 400 && last.failures() <= failures());
  }

  private static long failures() {
    return LIVES.lives().stream().filter(Life::hasFailed).count();
  }

  @Test
  void aFleetRateCountsAllStopsOverAllRunning() {
    HalfYear last = REPLAYED.halfYears().get(REPLAYED.halfYears().size() - 1);
    Then then =
        Then.of(
            Ingest.readAsOf(Path.of("sample-fleet"), last.span().origin()).fleet(),
            RECORDS,
            last.span(),
            PoolingSettings.defaults().withDraws(100).withSeed(1));
    double stops =
        then.openings().all().stream()
            .filter(then.openings()::isStop)
            .filter(o -> o.sinceRebuild().isPresent())
            .count();
    double hours =
        then.openings().all().stream()
                .filter(OpeningMade::full)
                .mapToDouble(o -> o.sinceRebuild().orElse(0))
                .sum()
            + then.lives().pumps().stream()
                .mapToDouble(p -> p.ageSinceFullRebuild().orElse(0))
                .sum();
    double ahead =
        then.pumps().stream()
            .mapToDouble(p -> p.hoursPerWeek().orElse(0) * last.span().days() / 7)
            .sum();
    double expected = (stops + 0.5) / hours * ahead;
    assertEquals(expected, last.of(Rival.FLEET_RATE).orElseThrow().stops().mean(), 1e-6 * expected);
  }

  @Test
  void everyComponentThatHasFailedHasALife() {
    // Few failures in many services, differing much, once left the posterior unintegrated.
    assertEquals(4, REPLAYED.skipped().size());
    assertEquals("2015-12-31", REPLAYED.skipped().get(3).toString());
    for (String day : List.of("2016-12-31", "2017-06-30", "2017-12-31", "2018-06-30")) {
      assertTrue(
          REPLAYED.halfYears().stream().anyMatch(h -> h.span().origin().toString().equals(day)),
          day);
    }
  }

  @Test
  void adviceComesForEveryPumpInServiceAndFillsNoWeekBeyondTheWorkshop() {
    int most = RECORDS.settings().workshop().rebuildsPerWeek().orElseThrow();
    for (HalfYear half : REPLAYED.halfYears()) {
      assertTrue(half.advice().size() >= half.pumps().size());
      int[] inWeek = new int[27];
      for (Advice advice : half.advice()) {
        advice
            .rebuild()
            .filter(half.span()::contains)
            .ifPresent(
                day ->
                    inWeek[
                        (int) ((day.toEpochDay() - half.span().origin().toEpochDay() - 1) / 7)]++);
      }
      for (int n : inWeek) {
        assertTrue(n <= most, half.span() + ": " + n);
      }
    }
  }

  @Test
  void theSameSeedGivesTheSameAndMoneyIsCompared() {
    MoneyCompared money = REPLAYED.money().orElseThrow();
    assertEquals(0, money.leftOut());
    assertTrue(REPLAYED.halfYears().stream().allMatch(h -> h.leftOut() == 0));
    assertTrue(money.happened().stops().estimate() > 400);
    assertTrue(money.advised().planned().estimate() > money.happened().planned().estimate());
    assertTrue(money.more().lower() < money.more().estimate());
    Backtest again =
        Backtest.of(
            RECORDS,
            day -> Ingest.readAsOf(Path.of("sample-fleet"), day).fleet(),
            LIVES,
            ServiceModels.of(LivesTable.of(LIVES), PoolingSettings.defaults().withDraws(100)),
            new BacktestRequest(2, 4000, 1, 0.9, OptionalDouble.empty()),
            said -> {});
    int n = REPLAYED.halfYears().size();
    for (int k = 0; k < 2; k++) {
      assertEquals(
          REPLAYED.halfYears().get(n - 2 + k).forecast().chanceOfStop(),
          again.halfYears().get(k).forecast().chanceOfStop());
    }
  }
}

package org.vaneward.life;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.vaneward.fleet.Fleet;
import org.vaneward.fleet.PumpHistory;
import org.vaneward.ingest.Ingest;

/** How far the usage ahead may differ from the usage past. */
class UsageRateTest {
  private static final Fleet FLEET = Ingest.read(Path.of("sample-fleet")).fleet();

  @Test
  void theMeanAheadIsSurerTheLongerThePastAndTheTimeAhead() {
    UsageRate rate = new UsageRate(40, OptionalDouble.of(8), 8);
    assertEquals(0.2 * Math.sqrt(1 / 8.0 + Math.sqrt(13 / 4.0)), rate.relativeSd(4), 1e-12);
    assertEquals(0.2 * Math.sqrt(1 / 8.0 + 1), rate.relativeSd(13), 1e-12);
    assertEquals(0.2 * Math.sqrt(1 / 8.0 + 0.25), rate.relativeSd(52), 1e-12);
    assertEquals(rate.relativeSd(1), rate.relativeSd(0), "no less than a week");
    assertEquals(0, new UsageRate(40, OptionalDouble.empty(), 2).relativeSd(52));
  }

  @Test
  void blocksOfTheRecentReadingsGiveTheSpread() {
    Records records = new Records();
    double hours = 0;
    for (int block = 0; block < 8; block++) {
      hours += 13 * (block % 2 == 0 ? 30 : 50);
      records.reading(91 * (block + 1), hours);
    }
    UsageRate rate = records.runningHours().usageRate().orElseThrow();
    assertEquals(8, rate.blocks());
    // Eight blocks of 30 and 50 in turn: 10 times the root of 8 / 7.
    assertEquals(10.69, rate.blockSd().orElseThrow(), 0.01);
    assertTrue(rate.perWeek() > 30 && rate.perWeek() < 50);
    assertTrue(
        new Records()
            .reading(100, 500)
            .runningHours()
            .usageRate()
            .orElseThrow()
            .blockSd()
            .isEmpty());
  }

  /** Hours carried across a gap would agree with one another and pass for certainty. */
  @Test
  void aLongGapBetweenReadingsIsOneBlock() {
    UsageRate two =
        new Records()
            .reading(270, 1500)
            .reading(640, 4000)
            .runningHours()
            .usageRate()
            .orElseThrow();
    assertEquals(2, two.blocks());
    assertTrue(two.blockSd().isEmpty());
  }

  @Test
  void aLongerBlockWeighsByItsLength() {
    // 13 weeks at 30, 26 at 45 and 13 at 60 hours a week: mean 45; squares 225 + 0 + 225 over 2.
    UsageRate rate =
        new Records()
            .reading(91, 13 * 30)
            .reading(273, 13 * 30 + 26 * 45)
            .reading(364, 13 * 30 + 26 * 45 + 13 * 60)
            .runningHours()
            .usageRate()
            .orElseThrow();
    assertEquals(3, rate.blocks());
    assertEquals(15, rate.blockSd().orElseThrow(), 1e-9);
  }

  /** Years replayed: the spread known on a day, against the hours run after it. */
  @ParameterizedTest
  @ValueSource(ints = {4, 13, 26, 52})
  void theMiddleNineTenthsHoldWhatWasRunAfterwards(int weeks) {
    int held = 0;
    int cases = 0;
    for (PumpHistory history : FLEET.pumps()) {
      RunningHours all = RunningHours.of(history, FLEET.settings().asOf());
      for (LocalDate day = LocalDate.of(2018, 1, 1);
          day.plusWeeks(weeks).isBefore(LocalDate.of(2026, 4, 1));
          day = day.plusMonths(3)) {
        Optional<UsageRate> known = RunningHours.of(history, day).usageRate();
        Optional<Double> ran = ranBetween(all, day, day.plusWeeks(weeks));
        if (ran.isPresent() && known.isPresent() && known.get().blockSd().isPresent()) {
          double apart = Math.log(ran.get() / weeks / known.get().perWeek());
          held += Math.abs(apart) <= 1.645 * known.get().relativeSd(weeks) ? 1 : 0;
          cases++;
        }
      }
    }
    assertTrue(cases > 2000, "only " + cases);
    double share = (double) held / cases;
    assertTrue(share > 0.88 && share < 0.985, weeks + " weeks: " + share);
  }

  /** Hours by the meter, up to its last reading; empty where usage would have to be carried. */
  private static Optional<Double> ranBetween(RunningHours hours, LocalDate from, LocalDate to) {
    return hours
        .at(from)
        .filter(x -> x.basis() != RunningHours.Basis.CARRIED)
        .flatMap(
            x ->
                hours
                    .at(to)
                    .filter(y -> y.basis() != RunningHours.Basis.CARRIED)
                    .map(y -> y.hours() - x.hours()));
  }
}

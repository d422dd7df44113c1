package org.vaneward.life;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;

/** How far the usage ahead may differ from the usage past. */
class UsageRateTest {
  @Test
  void theMeanAheadIsSurerTheLongerThePastAndTheTimeAhead() {
    UsageRate rate = new UsageRate(40, OptionalDouble.of(8), 8);
    assertEquals(0.2 * Math.sqrt(1 / 8.0 + 1), rate.relativeSd(4), 1e-12);
    assertEquals(0.2 * Math.sqrt(1 / 8.0 + 1), rate.relativeSd(13), 1e-12);
    assertEquals(0.2 * Math.sqrt(1 / 8.0 + 0.25), rate.relativeSd(52), 1e-12);
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
}

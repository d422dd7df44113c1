package org.vaneward.stats.scoring;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.vaneward.stats.Estimate;

class ReliabilityBinTest {
  /** R 4.2.2: binom.test(2, 10, conf.level = 0.9), binom.test(0, 7, conf.level = 0.9). */
  @Test
  void limitsAreExact() {
    Estimate two = ReliabilityBin.share(2, 10, 0.9);
    assertEquals(0.2, two.estimate(), 1e-15);
    assertEquals(0.036771437887465064, two.lower(), 1e-12);
    assertEquals(0.5069013010632023, two.upper(), 1e-12);
    Estimate none = ReliabilityBin.share(0, 7, 0.9);
    assertEquals(0, none.lower());
    assertEquals(0.34816365513116077, none.upper(), 1e-12);
    assertEquals(1, ReliabilityBin.share(3, 3, 0.9).upper());
  }

  @Test
  void countsWhatCameByTheChanceItWasGiven() {
    List<ReliabilityBin> bins =
        ReliabilityBin.of(
            new double[] {0.1, 0.2, 0.5, 1, 0.15},
            new boolean[] {false, true, true, true, false},
            new double[] {0, 0.2, 0.5, 1},
            0.9);
    assertEquals(List.of(2, 1, 2), bins.stream().map(ReliabilityBin::forecasts).toList());
    assertEquals(List.of(0, 1, 2), bins.stream().map(ReliabilityBin::came).toList());
    assertEquals(0.125, bins.get(0).foretold(), 1e-15);
    assertThrows(
        IllegalArgumentException.class,
        () -> ReliabilityBin.of(new double[2], new boolean[1], new double[] {0, 1}, 0.9));
  }
}

package org.vaneward.stats;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.junit.jupiter.api.Test;

class LikelihoodRatioTest {
  /** With two degrees of freedom the chance is exp(-statistic / 2). */
  @Test
  void isTwiceTheGain() {
    LikelihoodRatio ratio = LikelihoodRatio.of(-10, -12.5, 2);
    assertEquals(5, ratio.statistic(), 1e-12);
    assertEquals(2, ratio.degreesOfFreedom());
    assertEquals(Math.exp(-2.5), ratio.p(), 1e-15);
  }

  /** A fuller model a little worse is one whose search ended a little early. */
  @Test
  void aLossIsNoGain() {
    assertEquals(new LikelihoodRatio(0, 1, 1), LikelihoodRatio.of(-10 - 1e-9, -10, 1));
  }

  @Test
  void refusesWhatIsNone() {
    double ever = Double.POSITIVE_INFINITY;
    assertThrows(IllegalArgumentException.class, () -> LikelihoodRatio.of(-10, -ever, 1));
    assertThrows(IllegalArgumentException.class, () -> LikelihoodRatio.of(Double.NaN, -10, 1));
    assertThrows(IllegalArgumentException.class, () -> LikelihoodRatio.of(-10, -12, 0));
    assertThrows(IllegalArgumentException.class, () -> new LikelihoodRatio(-1, 1, 0.5));
    assertThrows(IllegalArgumentException.class, () -> new LikelihoodRatio(ever, 1, 0.5));
    assertThrows(IllegalArgumentException.class, () -> new LikelihoodRatio(1, 0, 0.5));
    assertThrows(IllegalArgumentException.class, () -> new LikelihoodRatio(1, 1, -0.1));
    assertThrows(IllegalArgumentException.class, () -> new LikelihoodRatio(1, 1, 1.1));
  }
}

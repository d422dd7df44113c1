package org.vaneward.stats.pooling;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

class SpreadTest {
  private static final Spread SPREAD = new Spread(0.2, 0.4);

  @Test
  void theStretchIsTheDerivative() {
    double h = 1e-5;
    for (double place = 0; place < 12; place += 0.7) {
      double slope = (SPREAD.at(place + h) - SPREAD.at(place - h)) / (2 * h);
      assertEquals(Math.log(slope), SPREAD.logStretch(place), 1e-8);
    }
  }

  @Test
  void theLastPlaceBelowIsTheLast() {
    for (double sd = 0.001; sd < 5; sd *= 1.3) {
      int last = SPREAD.lastBelow(sd);
      assertTrue(SPREAD.at(last) <= sd && SPREAD.at(last + 1) > sd, "sd " + sd);
    }
  }

  /** Half a density over the standard deviation, by the trapezoidal rule: its half-normal mean. */
  @Test
  void theRuleIntegratesADensityCutOffAtNought() {
    Spread fine = new Spread(0.2, 0.15);
    double sum = 0;
    double mean = 0;
    for (int place = 0; place <= fine.lastBelow(9); place++) {
      double sd = fine.at(place);
      double w =
          fine.share(place)
              * Math.exp(fine.logStretch(place) - sd * sd / 2)
              * Math.sqrt(2 / Math.PI);
      sum += w;
      mean += w * sd;
    }
    assertEquals(1, sum, 1e-10);
    assertEquals(Math.sqrt(2 / Math.PI), mean, 1e-3);
  }

  /** A bell well off 0 has its own width, one cut in half at 0 that of the whole. */
  @Test
  void theWidthIsThatOfTheBell() {
    assertEquals(2, SPREAD.width(bell(14, 2), 3), 1e-3);
    double[] half = bell(0, 2);
    assertEquals(2, SPREAD.width(half, 0), 1e-3);
  }

  /** Log weights of places from 3 on for a bell off 0, from 0 on for one at 0. */
  private static double[] bell(double middle, double sd) {
    int first = middle > 0 ? 3 : 0;
    double[] log = new double[30];
    for (int i = 0; i < log.length; i++) {
      double z = (first + i - middle) / sd;
      log[i] = 700 - z * z / 2;
    }
    return log;
  }

  @Test
  void aStepTooCoarseBecomesFineEnough() {
    double enough = 1 / Precision.USUAL.coarsest;
    assertSame(SPREAD, SPREAD.fineEnoughFor(enough, Precision.USUAL));
    Spread finer = SPREAD.fineEnoughFor(enough / 2, Precision.USUAL);
    assertEquals(SPREAD.unit(), finer.unit());
    // the same bell measured in the new places
    double width = enough / 2 * SPREAD.step() / finer.step();
    assertTrue(width >= enough, "width " + width);
    assertEquals(Spread.none(), Spread.none().fineEnoughFor(0.1, Precision.USUAL));
  }
}
